"""What a weft of one colour looks like across a warp of another."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.cloth.mixing_law import mix_lab
from palette.errors import InputError

__all__ = ["woven_colour"]

WOVEN_CONSTANT = 0.045
"""M of the mixing law for threads side by side, fitted on measured handwoven cloth."""


def woven_colour(
    warp_lab: ArrayLike, weft_lab: ArrayLike, warp_share: ArrayLike = 0.5
) -> NDArray[np.float64]:
    """Colour of a cloth from the colours of its two yarns.

    Parameters
    ----------
    warp_lab, weft_lab : array_like of shape (3,) or (n, 3)
        CIELAB D65 of the yarns; one row against many is repeated.
    warp_share : array_like of shape () or (n,)
        Part of the face that the warp takes, from 0 (weft-faced) to 1 (warp-faced).

    Returns
    -------
    ndarray of shape (n, 3)
        CIELAB D65 of the cloth as seen from where its threads run together.

    Examples
    --------
    >>> woven_colour((95, 0, 0), (20, 0, 0)).shape
    (1, 3)
    """
    warp = np.atleast_2d(np.asarray(warp_lab, dtype=np.float64))
    weft = np.atleast_2d(np.asarray(weft_lab, dtype=np.float64))
    share = np.atleast_1d(np.asarray(warp_share, dtype=np.float64))
    for thing, lab in (("warp_lab", warp), ("weft_lab", weft)):
        if lab.ndim != 2 or lab.shape[1] != 3 or not np.all(np.isfinite(lab)):
            rule = "must be three finite numbers, or rows of three"
            raise InputError(thing, rule, got=f"shape {lab.shape}")
    if not np.all((share >= 0) & (share <= 1)):
        raise InputError("warp share", "must be from 0 to 1", got=f"{warp_share}")
    rows = max(len(warp), len(weft), len(share))
    return np.broadcast_to(mix_lab(warp, weft, share, constant=WOVEN_CONSTANT), (rows, 3)).copy()
