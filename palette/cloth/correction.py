"""What measured cloth adds to the mixing law: a small symmetric correction.

A cloth is a mixture of two yarn colours, so it is compared with the measured ones by what it
is mixed of: `nearness` of each yarn to each measured yarn, averaged by the shares. That makes
warp and weft exchangeable, exactly, carries over to any share, and falls to nothing away from
the measured colours. The correction moves the logit of each reflectance, so that white stays
white, black stays black, and no cloth comes out brighter than light.

The coefficients are in ``woven_correction.json``; `palette.cloth.fitting` makes them.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = [
    "Coefficients",
    "Errors",
    "coefficients",
    "from_document",
    "logit_difference",
    "logit_shift",
    "logit_slope",
    "nearness",
    "shift_channels",
]

COEFFICIENTS_FILE = "woven_correction.json"
_EDGE = 0.002  # reflectances are corrected inside (0.002, 0.998): the logit has no ends

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Errors:
    """Errors of one cross-validation, in CIEDE2000.

    Attributes
    ----------
    mean, median, ninetieth : float
        Over the cloths left out; `ninetieth` is the 90th percentile.
    """

    mean: float
    median: float
    ninetieth: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Coefficients:
    """What was fitted, as plain arrays; made once and not changed.

    Attributes
    ----------
    yarns_lab : ndarray of shape (k, 3)
        The measured yarns, CIELAB D65.
    common, own : ndarray of shape (k, 3)
        Logit shifts that add up by nearness: over a wide radius (what weaving does to any
        yarn), and over a narrow one (what is true of one dyed yarn).
    pairs : ndarray of shape (3, k, k)
        Logit shifts that go with the meeting of two yarns, symmetric.
    common_radius, own_radius, pair_radius : float
        CIELAB distance at which nearness has fallen to 0.61.
    new_yarn, law_alone : Errors
        Of the model on yarns it had not seen; of the mixing law without a correction.
    source : str
        Where the measurements are from.
    """

    yarns_lab: Array
    common: Array
    own: Array
    pairs: Array
    common_radius: float
    own_radius: float
    pair_radius: float
    new_yarn: Errors
    law_alone: Errors
    source: str

    def __post_init__(self) -> None:
        """Close the arrays for writing: every prediction reads the same ones."""
        for array in (self.yarns_lab, self.common, self.own, self.pairs):
            array.flags.writeable = False


@cache
def coefficients() -> Coefficients:
    """Coefficients that ship with the library."""
    text = resources.files("palette.cloth").joinpath(COEFFICIENTS_FILE).read_text("utf-8")
    return from_document(json.loads(text))


def from_document(document: dict[str, Any]) -> Coefficients:
    """Coefficients from the decoded JSON of the data file."""
    radii, errors = document["radii"], document["errors"]
    return Coefficients(
        yarns_lab=np.array(document["yarns_lab"], dtype=np.float64),
        common=np.array(document["common"], dtype=np.float64),
        own=np.array(document["own"], dtype=np.float64),
        pairs=np.array(document["pairs"], dtype=np.float64),
        common_radius=radii["common"],
        own_radius=radii["own"],
        pair_radius=radii["pair"],
        new_yarn=_errors(errors["one yarn left out"]),
        law_alone=_errors(errors["mixing law alone"]),
        source=document["source"],
    )


def _errors(row: dict[str, float]) -> Errors:
    return Errors(mean=row["mean"], median=row["median"], ninetieth=row["ninetieth"])


def nearness(lab: Array, yarns_lab: Array, radius: float) -> Array:
    """Likeness of colours to yarns, 1 where equal: exp(-d^2 / (2 radius^2)), shape (n, k)."""
    squares = ((lab[:, np.newaxis] - yarns_lab) ** 2).sum(axis=-1)
    return np.asarray(np.exp(-squares / (2 * radius**2)), dtype=np.float64)


def logit_shift(warp_lab: Array, weft_lab: Array, share: Array, fitted: Coefficients) -> Array:
    """Correction of the three reflectances, as shifts of their logits.

    Parameters
    ----------
    warp_lab, weft_lab : ndarray of shape (n, 3)
    share : ndarray of shape (n,)
        Of the warp.
    fitted : Coefficients

    Returns
    -------
    ndarray of shape (n, 3)
    """
    of_warp = share[:, np.newaxis]

    def mixed(radius: float) -> Array:
        warp = nearness(warp_lab, fitted.yarns_lab, radius)
        weft = nearness(weft_lab, fitted.yarns_lab, radius)
        return np.asarray(of_warp * warp + (1 - of_warp) * weft, dtype=np.float64)

    near = mixed(fitted.pair_radius)
    pairs = np.einsum("ni,cij,nj->nc", near, fitted.pairs, near, optimize=True)
    additive = mixed(fitted.common_radius) @ fitted.common + mixed(fitted.own_radius) @ fitted.own
    return np.asarray(pairs + additive, dtype=np.float64)


def shift_channels(channels: Array, shift: Array) -> Array:
    """Move reflectances by a shift of their logits; no shift changes nothing, anywhere."""
    inside = np.clip(channels, _EDGE, 1 - _EDGE)
    moved = 1 / (1 + (1 - inside) / inside * np.exp(-shift))
    return np.asarray(channels + (moved - inside), dtype=np.float64)


def logit_difference(from_channels: Array, to_channels: Array) -> Array:
    """Shift that `shift_channels` would need to get from one to the other."""
    first = np.clip(from_channels, _EDGE, 1 - _EDGE)
    second = np.clip(to_channels, _EDGE, 1 - _EDGE)
    return np.asarray(np.log(second / (1 - second)) - np.log(first / (1 - first)))


def logit_slope(channels: Array) -> Array:
    """Give the steps of lightness in one unit of logit, by CIE L* = 116 R^(1/3) - 16."""
    inside = np.clip(channels, _EDGE, 1 - _EDGE)
    return np.asarray(116 / 3 * np.cbrt(inside) * (1 - inside))
