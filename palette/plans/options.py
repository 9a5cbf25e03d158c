"""Every value a weaver may set: its name, its default, and where the default comes from.

The brief and the command line are both made from this table, so that a name, a default and
its explanation are stated once.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

__all__ = ["OPTIONS", "Group", "Option", "options_of"]

Group = Literal["palette", "stripes", "loom", "yarn", "page"]
Default = str | int | tuple[str, ...] | None
_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Option:
    """One value of a brief.

    Attributes
    ----------
    key : str
        Name in a brief; the command line writes it with ``--`` before it.
    group : str
        Which part of the work it belongs to.
    form : str
        What is typed, in a word: ``LENGTH``.
    default : str, int, tuple of str, or None
        As a person would type it; None where nothing is set.
    says : str
        What it is, for the help.
    label : str
        Where the default comes from: "common practice" has no published source.
    kind : type
        ``str`` for a word or a quantity with its unit, ``int`` for a number, ``tuple`` for several.
    unset : str
        What is done where nothing is set and there is no default to type, or "".
    """

    key: str
    group: Group
    form: str
    default: Default
    says: str
    label: str = ""
    kind: type[str] | type[int] | type[tuple[str, ...]] = str
    unset: str = ""

    @property
    def help(self) -> str:
        """The help text with the default and its label."""
        if self.unset:
            return f"{self.says} Without it: {self.unset} ({self.label})."
        if self.default is None or self.default == ():
            return self.says
        reason = f" ({self.label})" if self.label else ""
        return f"{self.says} Default: {self.shown}{reason}."

    @property
    def shown(self) -> str:
        """The default as figures are printed: 10 %, where it is typed as 10%.

        Examples
        --------
        >>> OPTIONS["draw-in"].default, OPTIONS["draw-in"].shown
        ('6%', '6 %')
        """
        return str(self.default).removesuffix("%") + " %" * str(self.default).endswith("%")


# fmt: off
_TABLE = (
    # palette
    Option("colours", "palette", "N|auto", "8", "How many colours, or auto."),
    Option("keep", "palette", "COLOUR", (),
           "A colour that must be in the palette; may be repeated.", kind=tuple),
    Option("region", "palette", "L,T,R,B", None,
           "Part of the picture to look at: left,top,right,bottom in %."),
    Option("mask", "palette", "FILE", None,
           "A picture of the same size: white is looked at, black is not."),
    Option("leave-out", "palette", "COLOUR", (),
           "A colour to leave out (sky, table); may be repeated.", kind=tuple),
    Option("shadows", "palette", "keep|fold", "keep",
           "Keep shadows as colours, or fold them into the lit colour."),
    Option("neutral", "palette", "X,Y", None,
           "A grey card or white wall: its place, across,down in %."),
    Option("light", "palette", "LIGHT", None,
           "The light of the picture: A (lamp), D65 (daylight), F2 (tube) or 2856K."),
    # stripes
    Option("length", "stripes", "LENGTH", "180cm",
           "Finished length, fringes not counted.", "a scarf"),
    Option("picks", "stripes", "DENSITY", None,
           "Picks per cm or inch, counted on the loom. Without them: as the sett, where it suits.",
           "as the sett"),
    Option("order", "stripes", "ORDER", "photo",
           "How the stripes are arranged: see leafweft choices."),
    Option("inner", "stripes", "ORDER", "photo",
           "The order inside a composed one, such as mirrored."),
    Option("direction", "stripes", "DIRECTION", "top-bottom",
           "Way through the photograph for the order photo."),
    Option("ground", "stripes", "COLOUR", None,
           "The colour that the others are set on; the order scattered always has one."),
    Option("swap", "stripes", "COLOUR", (),
           "The two that change places in counterchange.", kind=tuple),
    Option("repeats", "stripes", "N", None, "How often the arrangement is repeated.", kind=int),
    Option("seed", "stripes", "N", 1,
           "Another number gives another arrangement by chance.", kind=int),
    Option("step", "stripes", "N", 2,
           "Every stripe is a multiple of so many picks.", "there and back", kind=int),
    Option("least", "stripes", "N", 4, "Smallest stripe, in picks.", _PRACTICE, kind=int),
    Option("most", "stripes", "COLOUR=PICKS", (),
           "Most picks of a colour; may be repeated.", kind=tuple),
    Option("shuttles", "stripes", "N", None,
           "Most colours in play (in use or carried) at once.", kind=int),
    Option("carry", "stripes", "LENGTH", None,
           "How far a weft is carried up the selvedge, else cut.", _PRACTICE,
           unset="1 cm, or 4 picks if that is more"),
    Option("soft", "stripes", "LENGTH", None,
           "Length of a soft change between neighbouring stripes."),
    Option("soft-way", "stripes", "WAY", "alternate",
           "Soft change by alternate picks of both, or by a yarn between the two."),
    Option("hem", "stripes", "LENGTH", None, "Hem in plain weave at each end: a finished length."),
    Option("hem-colour", "stripes", "COLOUR", None,
           "Colour of the hem. Without one: its neighbour's."),
    Option("border", "stripes", "LENGTH", None,
           "Border inside the hem at each end: a finished length."),
    Option("border-colour", "stripes", "COLOUR", None, "Colour of the border."),
    # loom
    Option("width", "loom", "LENGTH", "25cm", "Finished width.", "a scarf"),
    Option("sett", "loom", "DENSITY", None,
           "Ends per cm or inch in the reed. Without it: by the yarn and the weave.",
           "80 % of the closest for this yarn and weave"),
    Option("shrinkage", "loom", "PERCENT", "10%",
           "Lost in washing, both ways, of the woven size.", _PRACTICE),
    Option("shrinkage-length", "loom", "PERCENT", None, "The same, along the cloth only."),
    Option("shrinkage-width", "loom", "PERCENT", None, "The same, across the cloth only."),
    Option("draw-in", "loom", "PERCENT", "6%",
           "Width lost at the fell, of the width in the reed.", "Brooks, a cotton mill handbook"),
    Option("take-up", "loom", "PERCENT", "8%",
           "Warp yarn lost to interlacing, of its own length.", _PRACTICE),
    Option("fringe", "loom", "LENGTH", "15cm", "Fringe at each end of each cloth.", _PRACTICE),
    Option("gap", "loom", "LENGTH", "0cm", "Left unwoven between cloths on one warp."),
    Option("sampling", "loom", "LENGTH", "0cm", "Woven for sampling before the first cloth."),
    Option("loom-waste", "loom", "LENGTH", "75cm", "Warp that cannot be woven.", _PRACTICE),
    Option("selvedge", "loom", "N", 0, "Ends doubled at each selvedge.", kind=int),
    Option("warp-stripes", "loom", "COLOUR=ENDS", (),
           "Stripes of the warp, repeated; may be repeated.", kind=tuple),
    Option("shafts", "loom", "N", 8, "Shafts of the loom.", "a floor loom", kind=int),
    Option("heddles", "loom", "N", None, "Heddles on each shaft.", kind=int),
    Option("treadles", "loom", "N", None, "Treadles of the loom.", kind=int),
    Option("longest-float", "loom", "N", None,
           "Longest float that is allowed, in threads.", kind=int),
    Option("reed", "loom", "REED", (),
           "Reeds owned (10/in, 40/10cm); the nearest is used.", kind=tuple),
    Option("weave", "loom", "WEAVE", "plain weave",
           "The weave, or a draft as text: threading; tie-up; treadling."),
    Option("warp-colour", "loom", "COLOUR", "#ece7db", "Colour of the warp.", "undyed white"),
    # yarn
    Option("weft", "yarn", "COUNT", "NeC 8/2",
           "Yarn count of the weft, with its system.", "8/2 cotton"),
    Option("warp", "yarn", "COUNT", "NeC 8/2",
           "Yarn count of the warp, with its system.", "8/2 cotton"),
    Option("fibre", "yarn", "FIBRE", "cotton",
           "Fibre of the yarn: cotton, linen, merino wool, 60% wool 40% silk ...", "8/2 cotton"),
    Option("weft-take-up", "yarn", "PERCENT", "0%",
           "Weft lost beyond the width in the reed.", "Taylor and Brooks, cotton mill handbooks"),
    Option("tail", "yarn", "LENGTH", "7cm",
           "Left at each start and each end of a weft.", _PRACTICE),
    Option("allowance", "yarn", "PERCENT", "10%",
           "More yarn than reckoned, to be safe.", _PRACTICE),
    Option("skein", "yarn", "SIZE", None, "Size of a skein or cone to round up to: 100g or 250m."),
    Option("bobbin", "yarn", "MASS", None, "Handspun: what one bobbin takes of singles: 50g."),
    # page
    Option("name", "page", "NAME", None, "What to call it. Without one: the photograph's name."),
    Option("units", "page", "metric|imperial", None,
           "Units of the figures. Without it: as the quantities were typed."),
    Option("paper", "page", "A4|Letter", "A4", "Paper of the printed sheet."),
)
# fmt: on

OPTIONS: dict[str, Option] = {option.key: option for option in _TABLE}


def options_of(*groups: Group) -> tuple[Option, ...]:
    """Options of these parts of the work, in table order.

    Examples
    --------
    >>> [option.key for option in options_of("page")]
    ['name', 'units', 'paper']
    """
    return tuple(option for option in _TABLE if option.group in groups)
