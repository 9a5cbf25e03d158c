"""Fit the correction to measured cloth and cross-validate it; writes the coefficients.

Run as ``python -m palette.cloth.fitting CLOTHS.csv COEFFICIENTS.json``. The correction is
Gaussian process regression whose covariance of two cloths is built from the nearness of their
yarns: a wide additive part, a narrow additive part for what is true of one dyed yarn, and the
square of a middle one for the meeting of two colours. Flagged cloths are left out of the fit
and kept in every figure of error.

References
----------
C. E. Rasmussen and C. K. I. Williams, "Gaussian Processes for Machine Learning" (2006),
equation 2.25 (mean) and section 5.4.2 (cross-validation).
"""

from __future__ import annotations

import csv
import json
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from palette.cloth import mixing_law
from palette.cloth.correction import (
    Coefficients,
    Errors,
    from_document,
    logit_difference,
    logit_shift,
    logit_slope,
    nearness,
    shift_channels,
)
from palette.perception.difference import ciede2000

__all__ = ["Cloths", "cross_validate", "document", "fit", "read_cloths"]

Array = NDArray[np.float64]
Mask = NDArray[np.bool_]

RADII = {"common": 60.0, "own": 2.0, "pair": 22.0}
VARIANCES = {"common": 0.04, "own": 0.03, "pair": 0.02}
NOISE = 1.5
"""Variance of one measured cloth, in squared steps of lightness L."""

SOURCE = (
    "Fitted on 25 yarns and 500 handwoven plain-weave cloths measured by Khuntong and "
    "Siapthaisong (2021): Vongpramate, Boonkate, Hobanthad, Khuntong, Siapthaisong, Saenkham, data "
    "for 'Shift-aware evaluation and physics-guided residual learning for colour prediction of "
    "handwoven fabrics', doi:10.5281/zenodo.23205538, CC BY 4.0."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cloths:
    """Measured cloths: `warp` and `weft` count into `yarns_lab`; all of length n but the yarns."""

    yarns: tuple[str, ...]
    yarns_lab: Array
    looms: tuple[str, ...]
    warp: NDArray[np.intp]
    weft: NDArray[np.intp]
    cloth_lab: Array
    flagged: Mask

    @property
    def warp_lab(self) -> Array:
        """CIELAB of the warp yarn of each cloth, (n, 3)."""
        return np.asarray(self.yarns_lab[self.warp])

    @property
    def weft_lab(self) -> Array:
        """CIELAB of the weft yarn of each cloth, (n, 3)."""
        return np.asarray(self.yarns_lab[self.weft])

    def holding(self, yarns: Iterable[int]) -> Mask:
        """Which cloths hold any of these yarns."""
        wanted = list(yarns)
        return np.isin(self.warp, wanted) | np.isin(self.weft, wanted)


def read_cloths(path: Path) -> Cloths:
    """Read the table of measurements; lines that begin with # are its source."""
    text = path.read_text(encoding="utf-8").splitlines()
    rows = list(csv.DictReader(line for line in text if not line.startswith("#")))
    yarns = [row for row in rows if row["loom"] == "yarn"]
    cloths = [row for row in rows if row["loom"] != "yarn"]
    place = {row["warp"]: number for number, row in enumerate(yarns)}
    return Cloths(
        yarns=tuple(place),
        yarns_lab=np.array([[float(row[key]) for key in "Lab"] for row in yarns]),
        looms=tuple(row["loom"] for row in cloths),
        warp=np.array([place[row["warp"]] for row in cloths]),
        weft=np.array([place[row["weft"]] for row in cloths]),
        cloth_lab=np.array([[float(row[key]) for key in "Lab"] for row in cloths]),
        flagged=np.array([bool(row["flagged"]) for row in cloths]),
    )


def _law(cloths: Cloths) -> Array:
    warp, weft = map(mixing_law.lab_to_channels, (cloths.warp_lab, cloths.weft_lab))
    return mixing_law.mix_channels(warp, weft, np.full(len(warp), 0.5))


def fit(cloths: Cloths, chosen: Mask) -> dict[str, Array]:
    """Fit on the chosen cloths that are not flagged: ``common``, ``own`` and ``pairs``."""
    rows = np.flatnonzero(chosen & ~cloths.flagged)
    halves = np.zeros((len(rows), len(cloths.yarns)))
    for threads in (cloths.warp[rows], cloths.weft[rows]):
        np.add.at(halves, (np.arange(len(rows)), threads), 0.5)
    near = {n: nearness(cloths.yarns_lab, cloths.yarns_lab, radius) for n, radius in RADII.items()}
    alike = {name: halves @ gram @ halves.T for name, gram in near.items()}
    covariance = sum(
        VARIANCES[name] * (matrix**2 if name == "pair" else matrix)
        for name, matrix in alike.items()
    )
    law = _law(cloths)[rows]
    targets = logit_difference(law, mixing_law.lab_to_channels(cloths.cloth_lab[rows]))
    slopes = logit_slope(law)
    weights = np.stack(
        [
            np.linalg.solve(covariance + np.diag(NOISE / slope**2), target)
            for slope, target in zip(slopes.T, targets.T, strict=True)
        ],
        axis=1,
    )
    return {
        "common": VARIANCES["common"] * halves.T @ weights,
        "own": VARIANCES["own"] * halves.T @ weights,
        "pairs": VARIANCES["pair"] * np.einsum("ni,nc,nj->cij", halves, weights, halves),
    }


def _predict(cloths: Cloths, fitted: Coefficients, rows: Mask) -> Array:
    share = np.full(int(rows.sum()), 0.5)
    shift = logit_shift(cloths.warp_lab[rows], cloths.weft_lab[rows], share, fitted)
    return mixing_law.channels_to_lab(shift_channels(_law(cloths)[rows], shift))


def _splits(cloths: Cloths, kind: str) -> Iterator[tuple[str, Mask, Mask]]:
    """Name, rows to learn from, rows to predict."""
    looms = np.array(cloths.looms)
    if kind == "one yarn left out":
        for number, yarn in enumerate(cloths.yarns):
            out = cloths.holding([number])
            yield yarn, ~out, out
        return
    for loom in sorted(set(cloths.looms)):
        out = looms == loom
        learn = ~out if kind == "one loom left out" else ~cloths.holding(set(cloths.warp[out]))
        yield loom, learn, out


def cross_validate(cloths: Cloths, kind: str) -> dict[str, Array]:
    """CIEDE2000 of every cloth when it was left out, by what was left out with it.

    Parameters
    ----------
    cloths : Cloths
    kind : {"one loom left out", "one yarn left out", "one loom and its yarns left out"}
        The last leaves out a loom, and every cloth elsewhere that holds a yarn of its warps.
    """
    found = {}
    for name, learn, out in _splits(cloths, kind):
        fitted = from_document(_head(cloths) | {**fit(cloths, learn), "errors": _NO_ERRORS})
        found[name] = ciede2000(_predict(cloths, fitted, out), cloths.cloth_lab[out])
    return found


_NO_ERRORS = dict.fromkeys(
    ("one yarn left out", "mixing law alone"), dict.fromkeys(("mean", "median", "ninetieth"), 0.0)
)


def _head(cloths: Cloths) -> dict[str, object]:
    return {"source": SOURCE, "radii": RADII, "yarns_lab": cloths.yarns_lab.tolist()}


def _figures(parts: dict[str, Array]) -> dict[str, object]:
    every = np.concatenate(list(parts.values()))
    errors = Errors(
        mean=float(every.mean()),
        median=float(np.median(every)),
        ninetieth=float(np.percentile(every, 90)),
    )
    figures: dict[str, object] = {
        name: round(getattr(errors, name), 3) for name in ("mean", "median", "ninetieth")
    }
    if len(parts) > 1:
        figures["means"] = {name: round(float(part.mean()), 3) for name, part in parts.items()}
    return figures


def document(cloths: Cloths) -> dict[str, object]:
    """Content of the data file: coefficients, where they are from, and the errors."""
    law = mixing_law.channels_to_lab(_law(cloths))
    errors = {"mixing law alone": _figures({"all": ciede2000(law, cloths.cloth_lab)})}
    for kind in ("one loom left out", "one yarn left out", "one loom and its yarns left out"):
        errors[kind] = _figures(cross_validate(cloths, kind))
    fitted = fit(cloths, np.ones(len(cloths.looms), dtype=bool))
    return {
        **_head(cloths),
        "mixing_constant": mixing_law.WOVEN_CONSTANT,
        "variances": VARIANCES,
        "noise": NOISE,
        "errors": errors,
        **{name: values.round(6).tolist() for name, values in fitted.items()},
    }


def main(arguments: list[str]) -> None:
    """Fit on the first argument, write to the second."""
    source, target = map(Path, arguments)
    target.write_text(json.dumps(document(read_cloths(source))) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1:])
