"""What was asked and has nothing to act on, so that nobody waits for its effect."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from palette.plans.loading import is_contract_file
from palette.plans.options import OPTIONS, options_of
from palette.stripes.orders import COMPOSED, ORDERS

if TYPE_CHECKING:
    from palette.plans.brief import Brief

__all__ = ["idle_beside_choices", "idle_notes"]

_PHOTO_KEYS = tuple(option.key for option in options_of("palette"))
_STRIPES_KEYS = tuple(option.key for option in options_of("stripes"))
_OF_TABLE = ("picks", "step", "least", "seed", "shuttles", "carry")
_OF_DRAWDOWN = ("picks", "seed", "shuttles", "carry")
_OF_LIKE = ("length", "repeats", *_OF_TABLE)
_OF_CHOICES = ("length", *_OF_TABLE, "direction", "hem", "hem-colour", "border", "border-colour")


def idle_notes(
    brief: Brief, cloths: tuple[Brief, ...] = (), *, source: Path | None = None, like: bool = False
) -> tuple[str, ...]:
    """Name what a brief asks otherwise than by default, and no cloth of it uses.

    Parameters
    ----------
    brief : Brief
    cloths : tuple of Brief
        One for each cloth; left out: the brief is of one cloth.
    source : Path, optional
        Where the palette comes from, if the brief does not say it.
    like : bool
        Whether the stripes are those of another plan.

    Returns
    -------
    tuple of str
        One sentence for each reason.

    Examples
    --------
    >>> from palette.plans.brief import Brief
    >>> idle_notes(Brief.of({"hem-colour": "moss", "inner": "hue"}))[0]
    'Not used: hem-colour (there is no hem).'
    """
    own = cloths or (brief,)
    found = [_idle_of(each, source, like=like) for each in own]
    everywhere = [key for key in found[0] if all(key in idle for idle in found)]
    return _sentences({key: found[0][key] for key in everywhere})


def idle_beside_choices(brief: Brief, source: Path) -> tuple[str, ...]:
    """Name what a brief asks otherwise than by default where many arrangements are shown.

    Parameters
    ----------
    brief : Brief
    source : Path
        Where the palette comes from.
    """
    reason = "the arrangements differ in it"
    own = {key: reason for key in _STRIPES_KEYS if key not in _OF_CHOICES and _is_asked(brief, key)}
    return _sentences({**_idle_photo(brief, source), **own, **_idle_edges(brief)})


def _sentences(idle: Mapping[str, str]) -> tuple[str, ...]:
    reasons: dict[str, list[str]] = {}
    for key, reason in idle.items():
        reasons.setdefault(reason, []).append(key)
    return tuple(f"Not used: {', '.join(keys)} ({reason})." for reason, keys in reasons.items())


def _idle_of(brief: Brief, source: Path | None, *, like: bool) -> dict[str, str]:
    """Keys of one cloth that change nothing, each with the reason."""
    return {
        **_idle_photo(brief, source),
        **_idle_stripes(brief, source, like=like),
    }


def _idle_photo(brief: Brief, source: Path | None) -> dict[str, str]:
    paths = (source,) if source else tuple(map(Path, brief.photo))
    reason = "the palette comes from a file"
    if not paths and not brief.palette and brief.stripes:
        reason = "the colours come from a table"
    elif not brief.palette and not any(map(_holds_palette, paths)):
        return {}
    return {key: reason for key in _PHOTO_KEYS if _is_asked(brief, key)}


def _holds_palette(path: Path) -> bool:
    return path.suffix.lower() == ".wif" or is_contract_file(path)


def _idle_stripes(brief: Brief, source: Path | None, *, like: bool) -> dict[str, str]:
    used: tuple[str, ...]
    if source is not None and source.suffix.lower() == ".wif":
        used, reason = _OF_DRAWDOWN, "the stripes come from a drawdown"
    elif brief.stripes is not None:
        used, reason = _OF_TABLE, "the stripes come from a table"
    elif brief.like is not None:
        used, reason = _OF_LIKE, "the stripes are those of another cloth"
    elif like:
        used, reason = _OF_LIKE, "the stripes are those of another plan"
    else:
        return {**_idle_edges(brief), **_idle_order(brief)}
    return {key: reason for key in _STRIPES_KEYS if key not in used and _is_asked(brief, key)}


def _idle_edges(brief: Brief) -> dict[str, str]:
    wanting = {
        "hem-colour": (brief.hem, "there is no hem"),
        "border-colour": (brief.border, "there is no border"),
        "soft-way": (brief.soft, "there is no soft change"),
    }
    return {
        key: reason
        for key, (length, reason) in wanting.items()
        if length is None and _is_asked(brief, key)
    }


def _idle_order(brief: Brief) -> dict[str, str]:
    order = brief.order
    line = brief.inner if order in COMPOSED else order
    composed = ", ".join(name for name in ORDERS if name in COMPOSED)
    working = {
        "swap": (order == "counterchange", "only for the order counterchange"),
        "inner": (order in COMPOSED, f"only for the orders {composed}"),
        "direction": (line == "photo", "only for the order photo"),
    }
    return {
        key: reason
        for key, (works, reason) in working.items()
        if not works and _is_asked(brief, key)
    }


def _is_asked(brief: Brief, key: str) -> bool:
    """Whether a key holds something else than its default."""
    default = OPTIONS[key].default
    value = dict(brief.values).get(key)
    return value not in (None, ()) and str(value) != str(default)
