"""The usual cautions of a dye day, printed beside its figures.

They are the ones that dyers' leaflets and the safety sheets of authorities share. They do not
replace the data sheet of the dye's maker, local codes, or the advice of a licensed practitioner.

Sources: Health and Safety Executive (Great Britain), "Dyes and dyeing" and "Dyeing and Finishing
Information Sheet 5" (powder, sensitisation, splashes, strong reducers); a teachers' society for
art and design, safety notes on dyes (washing of skin). Lines marked "common practice" have no
published source here.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["CAUTIONS", "DATA_SHEET", "Caution", "cautions_for"]

Matter = Literal["always", "powder", "acid", "strong acid", "alkali", "reactive", "natural"]

DATA_SHEET = (
    "Read the data sheet of the dye's maker first: where it differs from this page, it is right. "
    "Local codes for waste water and ventilation apply. Work that needs a licence is left to those "
    "who hold it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution.

    Attributes
    ----------
    matter : str
        What it goes with; "always" is printed on every dye day.
    text : str
        A sentence or two.
    source : str
        Where it is from; "common practice" has no published source.
    """

    matter: Matter
    text: str
    source: str


_HSE = "Health and Safety Executive, Dyes and dyeing; Dyeing and Finishing Information Sheet 5"
_PRACTICE = "common practice"

CAUTIONS: tuple[Caution, ...] = (
    Caution(
        matter="powder",
        text="Dye powder can be breathed in. Wear a fitted dust mask or respirator until all of it "
        "is wet, weigh it out of draughts, and wet it with a little water first.",
        source=_HSE,
    ),
    Caution(
        matter="reactive",
        text="Some fibre-reactive dyes make people allergic to them through the lungs. Once that "
        "has happened, a trace is enough for an attack: stop, and see a doctor.",
        source=_HSE,
    ),
    Caution(
        matter="always",
        text="Wear rubber gloves, an apron and eye protection. Do not eat, drink or smoke there.",
        source=_HSE,
    ),
    Caution(
        matter="always",
        text="Pots, spoons and scales of the dye room never go back to food. Keep children and "
        "animals out, and label every jar.",
        source=_PRACTICE,
    ),
    Caution(
        matter="acid",
        text="Pour acid into water, never water into acid, and keep it off skin and eyes.",
        source=_PRACTICE,
    ),
    Caution(
        matter="strong acid",
        text="Acetic acid of 10 % and more irritates skin and eyes, of 25 % and more it burns "
        "them: gloves, goggles, a window open, and measure it in small amounts.",
        source="Regulation (EC) 1272/2008, Annex VI, acetic acid; from memory",
    ),
    Caution(
        matter="alkali",
        text="Soda ash in water burns eyes and skin; stir it into water slowly. Alkali harms wool, "
        "silk and other protein.",
        source=_PRACTICE,
    ),
    Caution(
        matter="always",
        text="Hot baths scald: steady pots, dry gloves to lift, lids opened away from the face, "
        "and a window open. Never leave a pot on the heat alone.",
        source=_PRACTICE,
    ),
    Caution(
        matter="always",
        text="Wash splashes off with soap and much water. No bleach and no permanganate on skin.",
        source="safety notes on dyes of a teachers' society for art and design",
    ),
    Caution(
        matter="natural",
        text="Alum is the mordant reckoned here. Chrome, tin and copper are poisonous and are left "
        "out. Some dye plants are poisonous too: know the plant.",
        source=_PRACTICE,
    ),
    Caution(matter="always", text=DATA_SHEET, source=_PRACTICE),
)


def cautions_for(matters: set[str]) -> tuple[Caution, ...]:
    """Cautions for what is done that day, in the order of the work.

    Parameters
    ----------
    matters : set of str
        Of "powder", "acid", "strong acid", "alkali", "reactive" and "natural".

    Returns
    -------
    tuple of Caution
        Those, and the ones that always apply.

    Examples
    --------
    >>> cautions_for({"acid"})[-1].text == DATA_SHEET
    True
    >>> any(caution.matter == "reactive" for caution in cautions_for({"acid"}))
    False
    """
    return tuple(each for each in CAUTIONS if each.matter in matters | {"always"})
