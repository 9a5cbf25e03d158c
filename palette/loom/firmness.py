"""What a weaver is told of a sett and a beat that do not suit the yarn, or that have no room."""

from __future__ import annotations

import math
from dataclasses import dataclass

from palette.errors import WeavingError
from palette.loom.closeness import OPEN_SHARE, Yarns, nearest_weavable
from palette.measures import CM_PER_INCH, Units, format_density

__all__ = ["Asked", "firmness_notes"]

_LIKELY = 0.25  # a figure this near to the usual one in the other unit was meant in that unit
_NEARLY = 1.02  # the closest cloth is a rule of thumb: what is over by less than this is not


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A sett and a beat as they are spoken of.

    Attributes
    ----------
    ends_per_cm, picks_per_cm : float
        On the loom.
    yarn : str
        Count of the yarns: ``NeC 8/2``, or ``Nm 2/8 on NeC 8/2``.
    weave : str
    units : Units
        That figures are printed in.
    """

    ends_per_cm: float
    picks_per_cm: float
    yarn: str
    weave: str
    units: Units = Units.METRIC


def firmness_notes(asked: Asked, yarns: Yarns) -> tuple[str, ...]:
    """Say where sett or beat are far from what is usual; refuse what has no room.

    Parameters
    ----------
    asked : Asked
    yarns : Yarns

    Returns
    -------
    tuple of str
        Sentences; none where both are as usual.

    Raises
    ------
    WeavingError
        Round threads cannot lie so close; the message has the nearest that can be woven.

    Examples
    --------
    >>> from palette.loom.draft import PLAIN_WEAVE
    >>> from palette.loom.fibres import FIBRES
    >>> from palette.loom.structure import structure_of
    >>> yarns = Yarns(
    ...     warp_tex=147.6,
    ...     weft_tex=147.6,
    ...     fibre=FIBRES["cotton"],
    ...     structure=structure_of(PLAIN_WEAVE),
    ... )
    >>> wide = Asked(ends_per_cm=3, picks_per_cm=8, yarn="NeC 8/2", weave="plain weave")
    >>> print(*firmness_notes(wide, yarns))
    Sett 3/cm is open: a balanced cloth of NeC 8/2 in plain weave is usually set at about 8.4/cm.
    """
    _refuse(asked, yarns)
    closest, usual = yarns.closest_per_cm, yarns.usual_per_cm
    came = (asked.ends_per_cm, asked.picks_per_cm)
    over = [each / most > _NEARLY for each, most in zip(came, closest, strict=True)]
    under = [each / most < OPEN_SHARE for each, most in zip(came, usual, strict=True)]
    if any(over):
        return (_close(asked, yarns, (over[0], over[1])),)
    if not any(under):
        return ()
    figures = _figures(asked, (under[0], under[1]))
    meant = _meant(asked, usual, (under[0], under[1]))
    verb = "is" if under == [True, False] else "are"
    return (f"{figures} {verb} open: {_usually(asked, yarns, setts=under[0])}.{meant}",)


def _usually(asked: Asked, yarns: Yarns, *, setts: bool) -> str:
    usual = format_density(yarns.usual_per_cm[0 if setts else 1], asked.units, decimals=1)
    word = "set at" if setts else "beaten to"
    return f"a balanced cloth of {asked.yarn} in {asked.weave} is usually {word} about {usual}"


def _figures(asked: Asked, which: tuple[bool, bool]) -> str:
    """Name the figures that are spoken of: ``Sett 3/cm and picks 4/cm``."""
    named = (("sett", asked.ends_per_cm), ("picks", asked.picks_per_cm))
    words = [
        f"{name} {format_density(value, asked.units)}"
        for (name, value), spoken in zip(named, which, strict=True)
        if spoken
    ]
    text = " and ".join(words)
    return text[0].upper() + text[1:]


def _close(asked: Asked, yarns: Yarns, over: tuple[bool, bool]) -> str:
    """Closer than balanced: which threads cover which."""
    most = format_density(yarns.closest_per_cm[0 if over[0] else 1], asked.units, decimals=1)
    face = {
        (True, True): "stiff as a board",
        (True, False): "warp-faced",
        (False, True): "weft-faced, as rugs are",
    }[over]
    verb = "are" if over != (True, False) else "is"
    meant = _meant(asked, yarns.usual_per_cm, over)
    return (
        f"{_figures(asked, over)} {verb} closer than the {most} of the closest balanced cloth: "
        f"the cloth will be {face}. {_sentence(_usually(asked, yarns, setts=over[0]))}.{meant}"
    )


def _sentence(words: str) -> str:
    return words[0].upper() + words[1:]


def _meant(asked: Asked, usual: tuple[float, float], which: tuple[bool, bool]) -> str:
    """Ask whether a figure was meant for the other unit, where it would be usual there."""
    value, good = (asked.ends_per_cm, usual[0]) if which[0] else (asked.picks_per_cm, usual[1])
    inch = asked.units is Units.IMPERIAL
    other = value * CM_PER_INCH if inch else value / CM_PER_INCH
    if not abs(other / good - 1) <= _LIKELY:
        return ""
    figure = value * CM_PER_INCH if inch else value
    return f" Was {figure:.6g}/{'cm' if inch else 'in'} meant?"


def _refuse(asked: Asked, yarns: Yarns) -> None:
    came = (asked.ends_per_cm, asked.picks_per_cm)
    if yarns.can_be_woven(*came):
        return
    nearest = nearest_weavable(yarns, *came)
    fewer = (nearest[0] < came[0], nearest[1] < came[1])
    best = tuple(
        _rounded_down(near, asked.units) if less else format_density(near, asked.units)
        for near, less in zip(nearest, fewer, strict=True)
    )
    thing = " and ".join(word for word, less in zip(("sett", "picks"), fewer, strict=True) if less)
    got = " and ".join(
        f"{word} {format_density(value, asked.units)}"
        for word, value in zip(("sett", "picks"), came, strict=True)
    )
    usually = _sentence(_usually(asked, yarns, setts=fewer[0]))
    meant = _meant(asked, yarns.usual_per_cm, (fewer[0], fewer[1]))
    raise WeavingError(
        thing,
        f"must leave the threads room, in {asked.weave} and with {asked.yarn}",
        got=got,
        remedy=f"The nearest that can be woven: sett {best[0]}, picks {best[1]}. {usually}.{meant}",
    )


def _rounded_down(per_cm: float, units: Units) -> str:
    """Print a density rounded down, so that what is printed can be woven."""
    per_unit = per_cm * (CM_PER_INCH if units is Units.IMPERIAL else 1)
    tenths = math.floor(per_unit * 10) / 10 or per_unit
    return format_density(tenths / (CM_PER_INCH if units is Units.IMPERIAL else 1), units)
