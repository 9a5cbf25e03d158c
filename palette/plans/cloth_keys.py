"""What one cloth of several may set for itself, and why it may not set the rest."""

from __future__ import annotations

from palette.errors import BriefError
from palette.plans.options import OPTIONS

__all__ = ["CLOTH_KEYS", "check_cloth_key"]

CLOTH_KEYS = (
    "name",
    "photo",
    "palette",
    "stripes",
    "like",
    *(key for key, option in OPTIONS.items() if option.group in ("palette", "stripes")),
)
"""Keys that a cloth of a brief may set for itself; the warp and the yarn are common to all."""

_APART = (
    "plan this cloth in a brief of its own, with the same warp, and wind one warp for both: the "
    "two lengths and the gap, less one loom waste."
)
_WHY = {
    "weft": f"One brief reckons one weft yarn. For another, {_APART}",
    "weave": f"One brief has one weave. For another treadling of the same threading, {_APART}",
    "loom": "Set it once, above the cloths: they share the warp.",
    "yarn": "Set it once, above the cloths: the yarn is reckoned alike for all of them.",
    "page": "Set it once, above the cloths: the sheets are of all of them.",
}


def check_cloth_key(thing: str, key: str) -> None:
    """Refuse a key that one cloth of several may not set, with the reason and the way out.

    Parameters
    ----------
    thing : str
        The cloth, as the message names it.
    key : str

    Raises
    ------
    BriefError

    Examples
    --------
    >>> check_cloth_key("cloth 2", "order")
    """
    if key in CLOTH_KEYS:
        return
    option = OPTIONS.get(key)
    rule = "is not a key that one cloth of several may set"
    remedy = _WHY.get(key) or _WHY.get(option.group if option else "", "")
    remedy = remedy or f"It may set: {', '.join(CLOTH_KEYS)}."
    raise BriefError(f"{thing}, {key}", rule, got=repr(key), remedy=remedy)
