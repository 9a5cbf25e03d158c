"""Reading what was weighed, colour by colour: ``moss=23g, rust=540g tare 40g``."""

from __future__ import annotations

import difflib
import re
from collections.abc import Sequence

from palette.errors import InputError
from palette.measures import parse_mass
from palette.yarn.packages import net_mass_g

__all__ = ["parse_weighed"]

_EXAMPLE = "Write it like moss=23g, rust=40g, or rust=540g tare 40g for a cone on its core."
_PART = re.compile(r"([^=:]*[^=:\s])\s*[=:]\s*(.+)")
_BETWEEN = re.compile(r"[,;](?=[^,;]*[=:])|[,;]\s*$")  # a decimal comma has no name after it
_TARE = re.compile(r"(?P<whole>.+?)\s*\btare\b\s*(?P<core>.+)", re.IGNORECASE)


def parse_weighed(text: str, colours: Sequence[str], *, thing: str = "left") -> dict[str, float]:
    """Read the grams of each colour, cones less their cores.

    Parameters
    ----------
    text : str
        Names and masses with ``=`` or ``:`` between, apart by commas or semicolons; names are
        matched without regard to case.
    colours : sequence of str
        Names that there are.
    thing : str
        The option's name, for messages.

    Returns
    -------
    dict of str to float
        In the order in which they were typed, under the names of `colours`.

    Raises
    ------
    InputError
        A name that is not there or comes twice, or a mass that cannot be read.

    Examples
    --------
    >>> parse_weighed("Moss=23g, rust = 540 g tare 40 g", ("moss", "rust"))
    {'moss': 23.0, 'rust': 500.0}
    """
    known = {colour.casefold(): colour for colour in colours}
    grams: dict[str, float] = {}
    for part in _parts(text):
        match = _PART.fullmatch(part)
        if match is None:
            raise InputError(thing, "must be names with masses", got=repr(part), remedy=_EXAMPLE)
        name, weight = match.groups()
        colour = known.get(name.casefold())
        if colour is None:
            raise _unknown(name, tuple(colours), thing)
        if colour in grams:
            raise InputError(f"{thing} {colour}", "must be given once", got=repr(text))
        grams[colour] = _net(weight, f"{thing} {colour}")
    if not grams:
        raise InputError(thing, "must be names with masses", got=repr(text), remedy=_EXAMPLE)
    return grams


def _parts(text: str) -> list[str]:
    """Take the text apart at the commas that stand before a name."""
    return [part.strip() for part in _BETWEEN.split(text) if part.strip()]


def _unknown(name: str, colours: tuple[str, ...], thing: str) -> InputError:
    near = difflib.get_close_matches(name, colours, n=1)
    remedy = f"Did you mean {near[0]}?" if near else ""
    rule = f"must be a colour of the plan: {', '.join(colours)}"
    return InputError(thing, rule, got=name, remedy=remedy)


def _net(weight: str, thing: str) -> float:
    """Grams of yarn: the whole less its core."""
    match = _TARE.fullmatch(weight)
    if match is None:
        return parse_mass(weight, thing=thing, zero=True).g
    whole = parse_mass(match["whole"].rstrip(" ,"), thing=thing, zero=True).g
    return net_mass_g(whole, parse_mass(match["core"], thing=f"{thing} tare", zero=True).g)
