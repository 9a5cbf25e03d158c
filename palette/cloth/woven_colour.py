"""What a weft of one colour looks like across a warp of another."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.cloth.correction import coefficients, logit_shift, shift_channels
from palette.cloth.mixing_law import channels_to_lab, lab_to_channels, mix_channels
from palette.errors import InputError

if TYPE_CHECKING:
    from palette.cloth.own_samples import OwnYarn

__all__ = ["distance_outside", "pairs_of", "typical_error", "woven_colour"]

Array = NDArray[np.float64]


def woven_colour(
    warp_lab: ArrayLike,
    weft_lab: ArrayLike,
    warp_share: ArrayLike = 0.5,
    *,
    own: OwnYarn | None = None,
) -> Array:
    """Colour of a cloth from the colours of its two yarns.

    Stearns and Noechel's mixing law, then a correction fitted on 500 measured handwoven cloths.
    With a share of 0 or 1 it is the cloth of one yarn, which is not quite the colour of the
    yarn: measured cloths come out lighter than theirs. Away from the measured colours the
    correction fades and the law is left; `distance_outside` says how far.

    Parameters
    ----------
    warp_lab, weft_lab : array_like of shape (3,) or (n, 3)
        CIELAB D65 of the yarns; one row against many is repeated.
    warp_share : array_like of shape () or (n,)
        Part of the face that the warp takes, from 0 (weft-faced) to 1 (warp-faced).
    own : OwnYarn, optional
        What the weaver's own samples add.

    Returns
    -------
    ndarray of shape (n, 3)
        CIELAB D65 of the cloth as seen from where its threads run together. A guide: see
        `typical_error`, and weave a sample.

    Raises
    ------
    InputError
        Colours that are not finite rows of three, shares outside 0 to 1, lengths that differ.

    Examples
    --------
    >>> woven_colour((89, -3, 12), (45, 26, 47)).round(0).tolist()
    [[64.0, 17.0, 25.0]]
    """
    warp, weft, share = pairs_of(warp_lab, weft_lab, warp_share)
    law = mix_channels(lab_to_channels(warp), lab_to_channels(weft), share)
    shift = logit_shift(warp, weft, share, coefficients())
    if own is not None:
        shift = shift + own.logit_shift(warp, weft, share)
    return channels_to_lab(shift_channels(law, shift))


def distance_outside(
    warp_lab: ArrayLike, weft_lab: ArrayLike, warp_share: ArrayLike = 0.5
) -> Array:
    """How far a pair of yarns lies outside the measured ones.

    Parameters as for `woven_colour`.

    Returns
    -------
    ndarray of shape (n,)
        CIELAB distance from the yarn that is farther out to the nearest measured yarn. A yarn
        that shows on less than half the face counts less, one that does not show not at all.

    Examples
    --------
    >>> distance_outside((88.52, -2.92, 11.78), (49.0, -25.05, 45.93)).round(6).tolist()
    [0.0]
    """
    warp, weft, share = pairs_of(warp_lab, weft_lab, warp_share)
    yarns = coefficients().yarns_lab
    far = [np.linalg.norm(lab[:, np.newaxis] - yarns, axis=-1).min(axis=1) for lab in (warp, weft)]
    seen = [np.minimum(1, 2 * share), np.minimum(1, 2 * (1 - share))]
    return np.asarray(np.maximum(far[0] * seen[0], far[1] * seen[1]), dtype=np.float64)


def typical_error(warp_lab: ArrayLike, weft_lab: ArrayLike, warp_share: ArrayLike = 0.5) -> Array:
    """Mean error to expect of `woven_colour`, as CIEDE2000.

    Near measured yarns it is the mean error on cloths whose yarn was left out of the fit; far
    from them it rises to the mean error of the mixing law alone, as the correction fades.

    Examples
    --------
    >>> typical_error((89, -3, 12), (45, 26, 47)).round(1).tolist()
    [2.4]
    """
    fitted = coefficients()
    outside = distance_outside(warp_lab, weft_lab, warp_share)
    kept = np.exp(-(outside**2) / (2 * fitted.pair_radius**2))
    return np.asarray(kept * fitted.new_yarn.mean + (1 - kept) * fitted.law_alone.mean)


def pairs_of(
    warp_lab: ArrayLike, weft_lab: ArrayLike, warp_share: ArrayLike
) -> tuple[Array, Array, Array]:
    """Rows (n, 3), (n, 3), (n,) from what may be one or many; refuses what is not a colour."""
    labs = []
    for thing, given in (("warp_lab", warp_lab), ("weft_lab", weft_lab)):
        lab = np.atleast_2d(np.asarray(given, dtype=np.float64))
        if lab.ndim != 2 or lab.shape[1] != 3 or not np.all(np.isfinite(lab)):
            rule = "must be three finite CIELAB numbers, or rows of three"
            raise InputError(thing, rule, got=f"shape {np.shape(given)}")
        labs.append(lab)
    share = np.atleast_1d(np.asarray(warp_share, dtype=np.float64))
    if share.ndim != 1 or not np.all((share >= 0) & (share <= 1)):
        raise InputError("warp share", "must be from 0 to 1", got=f"{warp_share!r}")
    lengths = sorted({len(labs[0]), len(labs[1]), len(share)} - {1})
    if len(lengths) > 1:
        got = f"{len(labs[0])}, {len(labs[1])} and {len(share)}"
        raise InputError("warp, weft and shares", "must be one or equally many", got=got)
    rows = lengths[0] if lengths else 1
    warp, weft = (np.broadcast_to(lab, (rows, 3)) for lab in labs)
    return warp, weft, np.broadcast_to(share, (rows,))
