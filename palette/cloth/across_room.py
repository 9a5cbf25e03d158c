"""The whole cloth as it is seen from across the room, at its true proportion."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.cloth.hanging import hang
from palette.cloth.own_samples import OwnYarn
from palette.cloth.weft_shades import weft_shades
from palette.cloth.weft_yarns import WeftYarn
from palette.cloth.woven_colour import woven_colour
from palette.errors import InputError
from palette.loom.warp import Warp
from palette.perception.spaces import lab_to_linear_srgb, linear_to_srgb
from palette.stripes.plan import StripePlan

__all__ = ["across_room", "as_pixels", "cloth_face", "ends_lab"]

Array = NDArray[np.float64]
Pixels = NDArray[np.uint8]

MOST_PIXELS = 40_000_000
_PICK_GRAIN, _END_GRAIN, _FINE_GRAIN = 0.014, 0.010, 0.012


def cloth_face(
    cloth: StripePlan,
    warp: Warp,
    warp_lab: ArrayLike,
    warp_share: float = 0.5,
    *,
    pixels_per_cm: float = 8.0,
    yarns: Mapping[str, WeftYarn] | None = None,
    weft_take_up: float = 0.0,
    own: OwnYarn | None = None,
    distance_m: float = 0.0,
) -> Array:
    """Light from the flat cloth, without fringe or surface.

    Parameters
    ----------
    cloth : StripePlan
    warp : Warp
        Gives the finished width and the length of a pick.
    warp_lab : array_like of shape (3,) or (ends, 3)
        CIELAB D65 of the warp yarn, or of every end; end 1 is at the right edge.
    warp_share : float
        Share of the face that the warp takes, from `palette.cloth.shown_face`.
    pixels_per_cm : float
        Of the finished cloth.
    yarns : mapping of str to WeftYarn, optional
        Wefts that are variegated or marled, by colour name.
    weft_take_up : float
        Share of the weft's own length lost to interlacing.
    own : OwnYarn, optional
    distance_m : float
        Distance of the eye, at which neighbouring picks run together; 0 keeps them apart.

    Returns
    -------
    ndarray of shape (h, w, 3)
        Linear sRGB, unclipped; pick 1 is at the bottom. Picks thinner than a row are averaged
        as light.

    Raises
    ------
    InputError
        Where a number is out of range, or the picture would be too large.
    """
    _check(pixels_per_cm, weft_take_up, distance_m)
    height = round(cloth.true_finished_length_mm / 10 * pixels_per_cm)
    width = round(warp.finished_width_mm / 10 * pixels_per_cm)
    if not (height >= 1 and width >= 1 and height * width <= MOST_PIXELS):
        rule = f"must give from 1 to {MOST_PIXELS} pixels"
        raise InputError("picture of the cloth", rule, got=f"{width} x {height}")
    shades = weft_shades(
        cloth,
        yarns,
        columns=width,
        pick_length_mm=warp.width_in_reed_mm / (1 - weft_take_up),
    )
    warps, ends = _distinct_ends(warp_lab, warp.ends)
    pairs = np.indices((len(warps), len(shades.labs))).reshape(2, -1)
    woven = woven_colour(warps[pairs[0]], shades.labs[pairs[1]], warp_share, own=own)
    light = lab_to_linear_srgb(woven).reshape(len(warps), len(shades.labs), 3)
    columns = ends[_end_of_column(width, warp.ends)] if len(warps) > 1 else np.zeros(1, np.intp)
    picks = light[columns[np.newaxis, :], shades.numbers]
    pitch_mm = cloth.true_finished_length_mm / cloth.total_picks
    rows = _average_rows(_seen_from(picks[::-1], distance_m, pitch_mm), height)
    return np.broadcast_to(rows, (height, width, 3)).copy()


def across_room(
    cloth: StripePlan,
    warp: Warp,
    warp_lab: ArrayLike,
    warp_share: float = 0.5,
    *,
    pixels_per_cm: float = 8.0,
    yarns: Mapping[str, WeftYarn] | None = None,
    weft_take_up: float = 0.0,
    own: OwnYarn | None = None,
    distance_m: float = 3.0,
    fringe: bool = True,
    turned: bool = False,
    seed: int = 0,
) -> Pixels:
    """Draw the whole cloth, hung up with its fringe on a pale wall.

    Parameters as for `cloth_face`, and

    fringe : bool
        Whether the fringes are drawn, of `warp.fringe_mm` at each end.
    turned : bool
        True lays the cloth on its side: pick 1 is at the left.
    seed : int
        Of the slight irregularity of the threads, which leaves the mean colour as it is.

    Returns
    -------
    ndarray of uint8 of shape (h, w, 3)
        sRGB.
    """
    face = cloth_face(
        cloth,
        warp,
        warp_lab,
        warp_share,
        pixels_per_cm=pixels_per_cm,
        yarns=yarns,
        weft_take_up=weft_take_up,
        own=own,
        distance_m=distance_m,
    )
    if not seed >= 0:
        raise InputError("seed", "must be 0 or more", got=f"{seed}")
    chance = np.random.default_rng(seed)
    surface = face * _grain(face.shape[0], face.shape[1], chance)
    warps, ends = _distinct_ends(warp_lab, warp.ends)
    of_ends = lab_to_linear_srgb(warps[ends])
    length_px = round(warp.fringe_mm / 10 * pixels_per_cm) if fringe else 0
    picture = hang(surface, of_ends[::-1], length_px, pixels_per_cm, chance)
    pixels = as_pixels(picture)
    return np.ascontiguousarray(np.rot90(pixels, -1)) if turned else pixels


def _check(pixels_per_cm: float, weft_take_up: float, distance_m: float) -> None:
    """Refuse what no cloth is drawn with; NaN fails too."""
    if not 0 < pixels_per_cm < np.inf:
        raise InputError("pixels per cm", "must be more than 0, and finite", got=f"{pixels_per_cm}")
    if not 0 <= weft_take_up < 1:
        raise InputError("weft take-up", "must be from 0 to under 1", got=f"{weft_take_up}")
    if not 0 <= distance_m < np.inf:
        raise InputError("distance", "must be 0 m or more, and finite", got=f"{distance_m}")


def as_pixels(light: Array) -> Pixels:
    """8 bit sRGB from linear light, clipped to what sRGB can show.

    Examples
    --------
    >>> as_pixels(np.array([[[0.0, 0.5, 1.0]]])).tolist()
    [[[0, 188, 255]]]
    """
    return np.rint(linear_to_srgb(np.clip(light, 0, 1)) * 255).astype(np.uint8)


def ends_lab(warp_lab: ArrayLike, ends: int) -> Array:
    """Colour of every end, (ends, 3), from one colour or from one for each.

    Examples
    --------
    >>> ends_lab((92, 0, 6), 234).shape
    (234, 3)
    """
    labs = np.atleast_2d(np.asarray(warp_lab, dtype=np.float64))
    if labs.shape not in {(1, 3), (ends, 3)} or not np.all(np.isfinite(labs)):
        rule = f"must be one colour, or one for each of {ends} ends"
        raise InputError("warp colours", rule, got=f"shape {np.shape(warp_lab)}")
    return np.broadcast_to(labs, (ends, 3))


def _distinct_ends(warp_lab: ArrayLike, ends: int) -> tuple[Array, NDArray[np.intp]]:
    """Give the distinct warp colours (k, 3), and which of them every end has, (ends,)."""
    distinct, numbers = np.unique(ends_lab(warp_lab, ends), axis=0, return_inverse=True)
    return distinct, np.asarray(numbers, dtype=np.intp).reshape(-1)


def _end_of_column(width: int, ends: int) -> NDArray[np.intp]:
    """End that is seen in each column, left to right; end 1 is at the right edge."""
    return ends - 1 - ((np.arange(width) + 0.5) / width * ends).astype(np.intp)


def _average_rows(picks: Array, height: int) -> Array:
    """Mean light of the picks under each row of pixels, exactly by area."""
    totals = np.concatenate([np.zeros((1, *picks.shape[1:])), np.cumsum(picks, axis=0)])
    edges = np.linspace(0, len(picks), height + 1)
    below = np.minimum(edges.astype(np.intp), len(picks) - 1)
    part = (edges - below)[:, np.newaxis, np.newaxis]
    at_edges = totals[below] + part * picks[below]
    return np.asarray(np.diff(at_edges, axis=0) * (height / len(picks)), dtype=np.float64)


def _seen_from(picks: Array, distance_m: float, pitch_mm: float) -> Array:
    """Let picks run together as the eye does: a blur twice as wide as one minute of arc.

    One minute is the finest gap that normal sight tells apart, 0.29 mm for every metre.
    """
    blur = 2 * 1000 * distance_m * np.tan(np.radians(1 / 60)) / 2.355 / pitch_mm
    reach = min(int(3 * blur) + 1, len(picks) - 1)
    if not blur > 0.2 or reach < 1:
        return picks
    weights = np.exp(-(np.arange(-reach, reach + 1) ** 2) / (2 * blur**2))
    weights /= weights.sum()
    padded = np.concatenate([picks[:reach][::-1], picks, picks[-reach:][::-1]])
    seen = np.zeros_like(picks)
    for offset, weight in enumerate(weights):
        seen += weight * padded[offset : offset + len(picks)]
    return seen


def _grain(height: int, width: int, chance: np.random.Generator) -> Array:
    """Slight unevenness of threads with a mean of 1, (h, w, 1)."""
    parts: Sequence[Array] = (
        _PICK_GRAIN * chance.standard_normal((height, 1)),
        _END_GRAIN * chance.standard_normal((1, width)),
        _FINE_GRAIN * chance.standard_normal((height, width)),
    )
    centred = [part - part.mean() for part in parts]
    return np.asarray(1 + centred[0] + centred[1] + centred[2])[..., np.newaxis]
