"""What a yarn is made of, and which class of dye it takes."""

from __future__ import annotations

import difflib
import math
import re
from dataclasses import dataclass
from typing import Literal

from palette.errors import InputError

__all__ = ["KNOWN_FIBRES", "Family", "FibreContent", "FibrePart", "read_fibre"]

Family = Literal["protein", "cellulose", "polyamide", "other"]

_WORDS: dict[Family, str] = {
    "protein": "protein wool woollen worsted merino lambswool lamb corriedale shetland bluefaced "
    "superwash alpaca llama mohair angora cashmere camel yak silk tussah",
    "cellulose": "cellulose cotton cottolin linen flax hemp ramie nettle jute bamboo viscose rayon "
    "modal lyocell",
    "polyamide": "polyamide nylon",
    "other": "polyester acrylic polypropylene metallic elastane acetate",
}
_OF_WORD = {word: family for family, words in _WORDS.items() for word in words.split()}
KNOWN_FIBRES: tuple[str, ...] = tuple(_OF_WORD)
"""Every fibre by its one word; the last known word of a name counts (``merino wool``)."""
_PART = re.compile(r"(?:(?P<share>\d+(?:[.,]\d+)?)\s*%)?\s*(?P<name>[^\d%,;/+&]+)")
_BETWEEN = re.compile(r"\s*(?:,(?!\d)|;|/|\+|&|\band\b|\bwith\b)\s*", re.IGNORECASE)
_DUST = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class FibrePart:
    """One fibre of a yarn.

    Attributes
    ----------
    name : str
    family : {"protein", "cellulose", "polyamide", "other"}
        Protein and polyamide take acid dyes, cellulose takes fibre-reactive dyes.
    share : float
        Part of the yarn's mass, (0, 1].
    word : str
        The word of the name that is one of `KNOWN_FIBRES`; empty where the name is not read.
    """

    name: str
    family: Family
    share: float
    word: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FibreContent:
    """What a yarn is made of.

    Attributes
    ----------
    text : str
        As it was written.
    parts : tuple of FibrePart
        Shares sum to 1.
    shares_given : bool
        False where the parts were taken as equal because no shares were written.
    """

    text: str
    parts: tuple[FibrePart, ...]
    shares_given: bool = True

    def __post_init__(self) -> None:
        """Refuse parts whose shares do not sum to 1."""
        total = math.fsum(part.share for part in self.parts)
        if not abs(total - 1) <= _DUST:
            got = f"{total * 100:g} %"
            raise InputError(f"fibre {self.text!r}", "parts must sum to 100 %", got=got)

    def share_of(self, *families: Family) -> float:
        """Part of the mass that belongs to these families.

        Examples
        --------
        >>> read_fibre("60% wool, 40% bamboo").share_of("cellulose")
        0.4
        """
        return math.fsum(part.share for part in self.parts if part.family in families)

    @property
    def mixed(self) -> bool:
        """Whether two classes of dye are needed to colour the whole yarn."""
        return self.share_of("protein", "polyamide") > 0 and self.share_of("cellulose") > 0


def read_fibre(text: str, *, thing: str = "fibre") -> FibreContent:
    """Read what a yarn is made of: ``wool``, ``wool and bamboo``, ``70% alpaca 30% silk``.

    Parameters
    ----------
    text : str
        One fibre or several; shares in per cent for all of them or for none.
    thing : str
        What is being read, for the message.

    Returns
    -------
    FibreContent

    Raises
    ------
    InputError
        A fibre that is not known, shares for some only, or shares that do not sum to 100 %.

    Examples
    --------
    >>> content = read_fibre("wool and bamboo")
    >>> [(part.name, part.family, part.share) for part in content.parts], content.mixed
    ([('wool', 'protein', 0.5), ('bamboo', 'cellulose', 0.5)], True)
    """
    found = [match for piece in _BETWEEN.split(text.strip()) for match in _PART.finditer(piece)]
    named = [(match["name"].strip().lower(), match["share"]) for match in found]
    named = [(name, share) for name, share in named if name]
    remedy = "Write it like wool, cotton, wool and bamboo, or 60% wool 40% silk."
    if not named:
        raise InputError(thing, "must name a fibre", got=repr(text), remedy=remedy)
    given = [share for _, share in named if share is not None]
    if given and len(given) < len(named):
        rule = "must give a share for every fibre or for none"
        raise InputError(thing, rule, got=repr(text), remedy=remedy)
    words = [_known_word(name, thing) for name, _ in named]
    parts = tuple(
        FibrePart(
            name=name,
            family=_OF_WORD[word],
            share=float(share.replace(",", ".")) / 100 if share else 1 / len(named),
            word=word,
        )
        for (name, share), word in zip(named, words, strict=True)
    )
    return FibreContent(text=text.strip(), parts=parts, shares_given=bool(given) or len(parts) == 1)


def _known_word(name: str, thing: str) -> str:
    """Find the last word of a name that is a known fibre (``merino wool``)."""
    words: list[str] = re.findall(r"[a-z]+", name)
    for word in reversed(words):
        if word in _OF_WORD:
            return word
    near = difflib.get_close_matches(words[-1] if words else "", KNOWN_FIBRES, n=1, cutoff=0.7)
    meant = f"Did you mean {near[0]}? " if near else ""
    remedy = f"{meant}Known are: {', '.join(KNOWN_FIBRES)}."
    raise InputError(thing, "must be a fibre that is known", got=repr(name), remedy=remedy)
