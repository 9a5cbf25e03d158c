"""The sett and the picks that a brief takes where none are given: by the yarn and the weave."""

from __future__ import annotations

import math
from collections.abc import Mapping

from palette.errors import LeafweftError
from palette.loom.closeness import OPEN_SHARE, Yarns
from palette.loom.defaults import ENDS_PER_CM
from palette.loom.drafts import parse_draft
from palette.loom.structure import structure_of
from palette.measures import CM_PER_INCH, Units, format_density, parse_density
from palette.plans.fibre import sett_fibre
from palette.yarn.count import parse_count

__all__ = ["usual_densities"]

_EVEN_PER_INCH = 12  # from here on reeds and sleys come in twos: common practice
_WHOLE_PER_CM = 10
_WHOLE_PER_INCH = 4


def usual_densities(values: Mapping[str, object]) -> tuple[str, str]:
    """Give a sett and picks to begin with, for the yarns, the fibre and the weave of a brief.

    Parameters
    ----------
    values : mapping
        Of a brief, defaults filled in: weft, warp, fibre, weave, units, and sett where given.

    Returns
    -------
    tuple of 2 str
        Sett and picks as a person would type them, rounded down to what a reed gives. The picks
        are as many as the ends where that suits the yarn. Where the yarn or the weave cannot be
        read, those of 8/2 cotton: the brief says what is wrong with it.

    Examples
    --------
    >>> cotton = {"weft": "NeC 8/2", "warp": "NeC 8/2", "fibre": "cotton", "units": None}
    >>> usual_densities({**cotton, "weave": "plain weave"})
    ('8/cm', '8/cm')
    >>> usual_densities({**cotton, "weave": "2/2 twill", "units": "imperial"})
    ('28/in', '28/in')
    >>> usual_densities({**cotton, "weave": "plain weave", "sett": "20/cm"})
    ('20/cm', '8/cm')
    """
    try:
        yarns = _yarns(values)
        given = values.get("sett")
        sett = None if given is None else parse_density(str(given))
        units = Units(str(values.get("units") or "metric"))
    except (LeafweftError, ValueError):
        return ENDS_PER_CM.text, ENDS_PER_CM.text
    (ends, picks), closest = yarns.usual_per_cm, yarns.closest_per_cm[0]
    if sett is None:
        text = _rounded(ends, units)
        return text, text if math.isclose(ends, picks) else _rounded(picks, units)
    suits = OPEN_SHARE * ends <= sett.per_cm <= closest
    return sett.text, sett.text if suits else _rounded(picks, units)


def _yarns(values: Mapping[str, object]) -> Yarns:
    return Yarns(
        warp_tex=parse_count(str(values["warp"])).tex,
        weft_tex=parse_count(str(values["weft"])).tex,
        fibre=sett_fibre(str(values["fibre"])),
        structure=structure_of(parse_draft(str(values["weave"]))),
    )


def _rounded(per_cm: float, units: Units) -> str:
    """Round down to what is easily sleyed; a very open one to tenths."""
    inch = units is Units.IMPERIAL
    value = per_cm * (CM_PER_INCH if inch else 1)
    step = 0.5 if value >= 1 else 0.1
    if inch and value >= _EVEN_PER_INCH:
        step = 2
    elif value >= (_WHOLE_PER_INCH if inch else _WHOLE_PER_CM):
        step = 1
    whole = math.floor(round(value / step, 9)) * step or value
    return format_density(whole / (CM_PER_INCH if inch else 1), units, decimals=3)
