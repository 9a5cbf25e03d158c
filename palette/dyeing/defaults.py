"""Values a dyer may set, each with where its default comes from.

A value without a published source says "common practice". Every one of them is an input, and
the data sheet of the dye's maker comes before all of them.
"""

from __future__ import annotations

from palette.loom.defaults import Default

__all__ = [
    "ACID_LIQUOR_RATIO",
    "ALUM_PERCENT",
    "FILL",
    "MARGIN",
    "NATURAL_DEPTH",
    "NATURAL_LIQUOR_RATIO",
    "POT_ML",
    "REACTIVE_LIQUOR_RATIO",
    "SKEIN_G",
    "STOCK_PERCENT",
    "TARTAR_PERCENT",
    "VINEGAR_PERCENT",
]

SKEIN_G = Default(value=100.0, text="100 g", label="common practice")
MARGIN = Default(
    value=0.1, text="10 %", label="common practice: a lot cannot be matched afterwards"
)
STOCK_PERCENT = Default(
    value=1.0, text="1 %", label="1 g in 100 ml, the usual stock of dyers' leaflets"
)
ACID_LIQUOR_RATIO = Default(
    value=40.0, text="40:1", label="a dyer's notes: 400 ml for 10 g of wool"
)
REACTIVE_LIQUOR_RATIO = Default(value=20.0, text="20:1", label="common practice, from memory")
NATURAL_LIQUOR_RATIO = Default(value=30.0, text="30:1", label="common practice")
POT_ML = Default(value=20000.0, text="20 l", label="common practice: a large stock pot")
FILL = Default(value=0.75, text="75 %", label="common practice: room to turn the skeins")
VINEGAR_PERCENT = Default(value=5.0, text="5 %", label="white vinegar; read the bottle")
NATURAL_DEPTH = Default(
    value=100.0, text="100 %", label="common practice: as much dyestuff as dry fibre"
)
ALUM_PERCENT = Default(value=15.0, text="15 %", label="dye books: 10 to 20 % of the dry wool")
TARTAR_PERCENT = Default(value=5.0, text="5 %", label="dye books: 5 % with 10 to 20 % of alum")
