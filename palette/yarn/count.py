"""One yarn count as a weaver names it: the singles, the plies, and what they come to."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import CountError
from palette.measures import G_PER_POUND, M_PER_YARD
from palette.yarn.reading import Reading, read_count
from palette.yarn.systems import tex_to_count

__all__ = ["YarnCount", "parse_count", "plied"]

_CLOSE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnCount:
    """A yarn's fineness, single or plied.

    Attributes
    ----------
    label : str
        The count in words that `parse_count` reads back: ``NeC 8/2``.
    tex : float
        Resultant linear density, g per 1000 m of the yarn as it is woven.
    singles_tex : tuple of float
        Each single that it is plied from; one where it is a single, or where only the
        resultant is known.
    contraction : float
        Share of the singles' length lost in plying, in [0, 1): tex = sum of singles / (1 - it).

    Examples
    --------
    >>> cotton = parse_count("NeC 8/2")
    >>> round(cotton.tex, 3), cotton.plies, round(cotton.yd_per_lb)
    (147.635, 2, 3360)
    """

    label: str
    tex: float
    singles_tex: tuple[float, ...]
    contraction: float = 0.0

    def __post_init__(self) -> None:
        """Refuse counts out of range, and singles that do not make up the resultant."""
        thing = f"yarn count {self.label!r}"
        if not 0 < self.tex < math.inf:
            raise CountError(thing, "tex must be more than 0, and finite", got=f"{self.tex}")
        if not self.singles_tex or not all(tex > 0 for tex in self.singles_tex):
            raise CountError(thing, "each single must be more than 0", got=f"{self.singles_tex}")
        if not 0 <= self.contraction < 1:
            got = f"{self.contraction}"
            raise CountError(thing, "twist contraction must be from 0 to under 1", got=got)
        made = math.fsum(self.singles_tex) / (1 - self.contraction)
        if not abs(made - self.tex) <= _CLOSE * self.tex:
            rule = f"singles must come to its {self.tex:g} tex"
            raise CountError(thing, rule, got=f"{made:g} tex")

    @property
    def plies(self) -> int:
        """Singles in the yarn, 1 where only its resultant is known."""
        return len(self.singles_tex)

    @property
    def m_per_kg(self) -> float:
        """Metres in a kilogram."""
        return 1e6 / self.tex

    @property
    def yd_per_lb(self) -> float:
        """Yards in a pound."""
        return G_PER_POUND / (self.tex / 1000) / M_PER_YARD

    def in_system(self, system: str) -> float:
        """Resultant count in a named system: ``in_system("NeC")``."""
        return tex_to_count(self.tex, system)

    def mass_g(self, length_m: float) -> float:
        """Grams of this many metres.

        Examples
        --------
        >>> parse_count("tex 100").mass_g(2500.0)
        250.0
        """
        return length_m * self.tex / 1000

    def length_m(self, mass_g: float) -> float:
        """Metres in this many grams."""
        return mass_g / self.tex * 1000


def _with_contraction(reading: Reading, contraction: float) -> YarnCount:
    """Count from what was read; a measured resultant stays, its singles give way."""
    if reading.resultant:
        tex = math.fsum(reading.singles_tex)
        singles = tuple(single * (1 - contraction) for single in reading.singles_tex)
    else:
        singles = reading.singles_tex
        tex = math.fsum(singles) / (1 - contraction)
    note = f", contraction {contraction * 100:.10g}%" if contraction else ""
    return YarnCount(
        label=reading.label + note, tex=tex, singles_tex=singles, contraction=contraction
    )


def parse_count(text: str, *, contraction: float = 0.0, thing: str = "yarn count") -> YarnCount:
    """Read a yarn count with the name of its system.

    Parameters
    ----------
    text : str
        ``NeC 8/2``, ``8/2 cotton``, ``NeK 2/20``, ``Nm 2/28``, ``NeL 16/2``, ``tex 74x2``,
        ``R 74 tex/2``, ``840 yd/lb``, ``400 m/100 g``, ``1.5 run``; singles of different sizes
        with a plus, ``NeC 40 + 20``; ``, contraction 3%`` at the end for the length lost in
        plying.
    contraction : float
        The same as a number in [0, 1), where the text has none. Of a resultant (``R 74 tex/2``,
        ``840 yd/lb``) the singles are made finer; it stays what it is.
    thing : str
        What is being read, for the message: the option's name.

    Returns
    -------
    YarnCount

    Raises
    ------
    CountError
        Where the system is missing or the order of size and plies could mean two yarns; the
        message names the readings with their figures.

    References
    ----------
    ASTM D2260 (constants of the systems), ISO 1139 (notation in tex).

    Examples
    --------
    >>> parse_count("Nm 2/28").label, round(parse_count("Nm 2/28").tex, 3)
    ('Nm 2/28', 71.429)
    >>> round(parse_count("tex 37x2", contraction=0.03).tex, 3)
    76.289
    >>> parse_count("8/2")
    Traceback (most recent call last):
    palette.errors.CountError: yarn count: must name its system; got '8/2'. It could be
    NeC 8/2 (148 tex, 6773 m/kg), NeL 8/2 (413 tex, 2419 m/kg), NeK 2/8 (221 tex, 4516 m/kg)
    or Nm 2/8 (250 tex, 4000 m/kg): write one of these.
    """
    reading = read_count(text, thing)
    if reading.contraction and contraction:
        rule = "twist contraction must be given once"
        raise CountError(thing, rule, got=f"{text!r} and {contraction}")
    share = reading.contraction or contraction
    if not 0 <= share < 1:
        raise CountError(thing, "twist contraction must be from 0 to under 1", got=f"{share}")
    return _with_contraction(reading, share)


def plied(counts: tuple[YarnCount, ...], *, contraction: float = 0.0) -> YarnCount:
    """Yarn made by plying these together.

    Parameters
    ----------
    counts : tuple of YarnCount
        Those that lost length when they were plied themselves count as heavy as they came out.
    contraction : float
        Share of their length lost in this plying, in [0, 1).

    Raises
    ------
    CountError
        Where there are none, or the contraction is out of range.

    Examples
    --------
    >>> folded = plied((parse_count("NeC 40"), parse_count("NeC 20")))
    >>> folded.label, round(folded.in_system("NeC"), 2)
    ('NeC 40 + NeC 20', 13.33)
    """
    if not counts:
        raise CountError("plied yarn", "must have at least one single", got="none")
    if not 0 <= contraction < 1:
        rule = "twist contraction must be from 0 to under 1"
        raise CountError("plied yarn", rule, got=f"{contraction}")
    parts = [f"({count.label})" if count.contraction else count.label for count in counts]
    note = f", contraction {contraction * 100:.10g}%" if contraction else ""
    singles = tuple(
        single / (1 - count.contraction) for count in counts for single in count.singles_tex
    )
    return YarnCount(
        label=" + ".join(parts) + note,
        tex=math.fsum(singles) / (1 - contraction),
        singles_tex=singles,
        contraction=contraction,
    )
