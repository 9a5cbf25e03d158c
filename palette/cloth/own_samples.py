"""The weaver's own woven samples: a shift of the model to her yarn, her light and her camera."""

from __future__ import annotations

import csv
import io
from dataclasses import dataclass
from itertools import dropwhile
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from palette.cloth.correction import (
    coefficients,
    logit_difference,
    logit_slope,
    nearness,
    shift_channels,
)
from palette.cloth.correction import logit_shift as measured_shift
from palette.cloth.mixing_law import channels_to_lab, lab_to_channels, mix_channels
from palette.errors import InputError, TableError
from palette.perception.colour_text import parse_colour
from palette.perception.difference import ciede2000
from palette.text_files import read_text

__all__ = ["LEAST_SAMPLES", "OwnYarn", "WovenSample", "fit_own_yarn", "read_own_samples"]

Array = NDArray[np.float64]
Lab = tuple[float, float, float]

LEAST_SAMPLES = 5
_WIDE, _NARROW = 60.0, 25.0  # CIELAB radii: what holds for all her yarn; what holds near a colour
_WIDE_VARIANCE, _NARROW_VARIANCE = 0.06, 0.02
_NOISE = 4.0  # variance of one sample in squared steps of lightness: two steps, as with a camera
_COLUMNS = ("warp", "weft", "cloth")
_MOST_BYTES = 4_000_000  # as any table


@dataclass(frozen=True, slots=True, kw_only=True)
class WovenSample:
    """One woven sample: CIELAB D65 of warp yarn, weft yarn and cloth, and the warp's share."""

    warp_lab: Lab
    weft_lab: Lab
    cloth_lab: Lab
    warp_share: float = 0.5

    def __post_init__(self) -> None:
        """Refuse a share out of range."""
        if not 0 <= self.warp_share <= 1:
            got = f"{self.warp_share}"
            raise InputError("sample", "warp share must be from 0 to 1", got=got)


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnYarn:
    """What own samples add to the model; give it to `woven_colour`.

    Attributes
    ----------
    samples : tuple of WovenSample
    weights : tuple of 3 float per sample
        Shift of the logits of three reflectances; all 0 where the samples do not help.
    before, after : float
        Mean CIEDE2000 of the samples, each predicted without the shift, and with the shift
        of the others.
    warnings : tuple of str
    """

    samples: tuple[WovenSample, ...]
    weights: tuple[Lab, ...]
    before: float
    after: float
    warnings: tuple[str, ...] = ()

    @property
    def helps(self) -> bool:
        """Whether the shift is used."""
        return any(any(row) for row in self.weights)

    @property
    def gain(self) -> str:
        """What the cross-check found, as a sentence."""
        verb = "falls" if self.helps else "would go"
        return (
            f"Each of your {len(self.samples)} samples predicted from the others: the mean error "
            f"{verb} from {self.before:.1f} to {self.after:.1f} (CIEDE2000)."
        )

    def logit_shift(self, warp_lab: Array, weft_lab: Array, share: Array) -> Array:
        """Shift of the logits for pairs of yarns, (n, 3)."""
        covariance = _covariance((warp_lab, weft_lab, share), _arrays(self.samples)[:3])
        return np.asarray(covariance @ np.array(self.weights), dtype=np.float64)


def fit_own_yarn(samples: tuple[WovenSample, ...]) -> OwnYarn:
    """Shift the model to the weaver's own samples, and cross-check the gain.

    Parameters
    ----------
    samples : tuple of WovenSample
        At least five, in at least three different pairs of yarns.

    Returns
    -------
    OwnYarn
        With weights of 0 and a warning where the samples, left out one at a time, are
        predicted no better with the shift than without.

    Raises
    ------
    InputError
        Too few samples, or too few different ones.
    """
    if len(samples) < LEAST_SAMPLES:
        rule = f"must be at least {LEAST_SAMPLES}: fewer cannot show whether a shift helps"
        raise InputError("own samples", rule, got=f"{len(samples)}", remedy="Weave a few more.")
    different = {(sample.warp_lab, sample.weft_lab) for sample in samples}
    if len(different) < 3:
        remedy = "Weave samples that differ in their weft or warp."
        rule = "must be of at least 3 different pairs of warp and weft"
        raise InputError("own samples", rule, got=f"{len(different)}", remedy=remedy)
    warp, weft, share, cloth = _arrays(samples)
    model = _model(warp, weft, share)
    before = ciede2000(channels_to_lab(model), cloth)
    covariance = _covariance((warp, weft, share), (warp, weft, share))
    targets, slopes = logit_difference(model, lab_to_channels(cloth)), logit_slope(model)
    left_out = np.zeros_like(targets)
    for number in range(len(samples)):
        others = np.arange(len(samples)) != number
        weights = _solve(covariance[np.ix_(others, others)], targets[others], slopes[others])
        left_out[number] = covariance[number, others] @ weights
    after = ciede2000(channels_to_lab(shift_channels(model, left_out)), cloth)
    weights = _solve(covariance, targets, slopes)
    warnings: tuple[str, ...] = ()
    if not after.mean() < before.mean():
        weights = np.zeros_like(weights)
        warnings = (
            f"own samples: left out one at a time they are predicted no better with a shift "
            f"({after.mean():.1f}) than without ({before.mean():.1f}), so it is not used.",
        )
    return OwnYarn(
        samples=samples,
        weights=tuple((float(x), float(y), float(z)) for x, y, z in weights),
        before=float(before.mean()),
        after=float(after.mean()),
        warnings=warnings,
    )


def read_own_samples(path: Path) -> tuple[WovenSample, ...]:
    """Read a table of woven samples.

    Columns ``warp``, ``weft``, ``cloth``, each a colour as ``#5d733a`` or ``45 -15 29`` (CIELAB
    D65), and ``warp_share`` where a sample is not balanced (``30%``). Other columns are left
    alone.

    Raises
    ------
    TableError
        A file that cannot be read, a column missing, or a cell that is no colour.
    """
    thing = f"samples {path.name}"
    text = read_text(
        path,
        most_bytes=_MOST_BYTES,
        error=TableError,
        thing=thing,
        rule="must be a file that can be read",
        form="must be a CSV file in UTF-8",
    )
    # A remark may stand above the header; further down a line may begin with a hex code.
    lines = list(
        dropwhile(lambda line: line.startswith("#") or not line.strip(), text.splitlines())
    )
    delimiter = ";" if lines and lines[0].count(";") > lines[0].count(",") else ","
    table = csv.DictReader(io.StringIO("\n".join(lines)), delimiter=delimiter)
    try:
        names = [(name or "").strip().lower() for name in table.fieldnames or ()]
        table.fieldnames = names
        rows = list(table)
    except csv.Error as problem:
        raise TableError(thing, f"must be proper CSV ({problem})") from None
    missing = [name for name in _COLUMNS if name not in names]
    if missing:
        rule = "must have the columns warp, weft and cloth"
        raise TableError(thing, rule, got=", ".join(names) or "nothing")
    return tuple(_sample(row, f"{thing}, row {number}") for number, row in enumerate(rows, start=1))


def _sample(row: dict[str, str | None], thing: str) -> WovenSample:
    try:
        warp, weft, cloth = (
            parse_colour((row[name] or "").strip(), thing=f"{thing}, {name}") for name in _COLUMNS
        )
        share = (row.get("warp_share") or "").strip() or "50%"
        value = float(share.removesuffix("%").replace(",", ".")) / (
            100 if share.endswith("%") else 1
        )
        return WovenSample(warp_lab=warp, weft_lab=weft, cloth_lab=cloth, warp_share=value)
    except InputError as error:
        raise TableError(error.thing, error.rule, got=error.got, remedy=error.remedy) from error
    except ValueError as error:
        rule = "warp_share must be a percentage"
        raise TableError(
            thing, rule, got=repr(row.get("warp_share")), remedy="Write 30%."
        ) from error


def _arrays(samples: tuple[WovenSample, ...]) -> tuple[Array, Array, Array, Array]:
    return (
        np.array([sample.warp_lab for sample in samples]),
        np.array([sample.weft_lab for sample in samples]),
        np.array([sample.warp_share for sample in samples]),
        np.array([sample.cloth_lab for sample in samples]),
    )


def _model(warp: Array, weft: Array, share: Array) -> Array:
    law = mix_channels(lab_to_channels(warp), lab_to_channels(weft), share)
    return shift_channels(law, measured_shift(warp, weft, share, coefficients()))


def _covariance(first: tuple[Array, ...], second: tuple[Array, ...]) -> Array:
    """Likeness of mixtures: nearness of their yarns, averaged by both shares."""

    def alike(radius: float) -> Array:
        total = np.zeros((len(first[2]), len(second[2])))
        for lab_a, part_a in ((first[0], first[2]), (first[1], 1 - first[2])):
            for lab_b, part_b in ((second[0], second[2]), (second[1], 1 - second[2])):
                total += np.outer(part_a, part_b) * nearness(lab_a, lab_b, radius)
        return total

    return np.asarray(_WIDE_VARIANCE * alike(_WIDE) + _NARROW_VARIANCE * alike(_NARROW) ** 2)


def _solve(covariance: Array, targets: Array, slopes: Array) -> Array:
    columns = [
        np.linalg.solve(covariance + np.diag(_NOISE / slope**2), target)
        for target, slope in zip(targets.T, slopes.T, strict=True)
    ]
    return np.stack(columns, axis=1)
