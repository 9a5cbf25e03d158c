"""A reading as a stripe plan: the old cloth, ready to be woven again."""

from __future__ import annotations

from palette.errors import InputError
from palette.stripes.apportion import apportion
from palette.stripes.plan import StripePlan
from palette.stripes.reading_values import ClothReading
from palette.stripes.weft import Piece, Weft, number_picks

__all__ = ["plan_from_reading"]


def plan_from_reading(
    reading: ClothReading,
    *,
    picks_per_cm: float | None = None,
    length_mm: float | None = None,
    shrinkage_length: float = 0.0,
    step: int = 1,
    name: str = "",
) -> StripePlan:
    """Turn the stripes of a photographed cloth into a plan like any other.

    The plan can be woven as it is, or handed on to `rescale` for another length and to `recolour`
    for another palette.

    Parameters
    ----------
    reading : ClothReading
    picks_per_cm : float, optional
        Density on the loom; None: the one that gives the reading's after washing, for that was
        counted on the finished cloth.
    length_mm : float, optional
        Finished length; None: that of the cloth in the picture.
    shrinkage_length : float
        Share of the woven length lost in washing.
    step : int
        Picks that every stripe is a multiple of; 1 keeps the old cloth's counts.
    name : str
        Name of the cloth.

    Raises
    ------
    InputError
        Where neither the reading nor the call says how dense or how long.
    """
    density = picks_per_cm
    if density is None and reading.picks_per_cm is not None:
        density = reading.picks_per_cm * (1 - shrinkage_length)
    total = _total_picks(reading, density, length_mm, shrinkage_length)
    if density is None or not density > 0:
        raise InputError(
            "--picks",
            "must be given, because the picture alone does not tell the scale",
            remedy="Give the picks per cm, as in --picks 8/cm.",
        )
    counted = [stripe.picks for stripe in reading.stripes]
    if length_mm is None and step == 1 and all(counted):
        picks = [int(count or 0) for count in counted]
    else:
        weights = [stripe.share for stripe in reading.stripes]
        steps = max(round(total / step), len(weights))
        picks = [step * part for part in apportion(weights, steps, least=[1] * len(weights))]
    wefts = {
        swatch.name: Weft(name=swatch.name, hex=swatch.hex, lab=swatch.lab)
        for swatch in reading.palette.swatches
    }
    pieces = [
        Piece(weft=wefts[stripe.colour], picks=count)
        for stripe, count in zip(reading.stripes, picks, strict=True)
    ]
    woven_mm = sum(picks) / density * 10
    return StripePlan(
        palette=reading.palette,
        stripes=number_picks(pieces),
        picks_per_cm=density,
        finished_length_mm=length_mm or woven_mm * (1 - shrinkage_length),
        shrinkage_length=shrinkage_length,
        step=step,
        order="as in the cloth",
        name=name,
        warnings=reading.warnings,
        repeat_stripes=reading.repeat.stripes if reading.repeat else None,
    )


def _total_picks(
    reading: ClothReading, density: float | None, length_mm: float | None, shrinkage: float
) -> int:
    """Count the picks of the whole cloth, from a length asked for or from what was read."""
    if length_mm is not None and density is not None:
        return round(length_mm / (1 - shrinkage) / 10 * density)
    counted = reading.total_picks
    if counted is not None:
        return counted
    if reading.length_mm is not None and density is not None:
        return round(reading.length_mm / (1 - shrinkage) / 10 * density)
    raise InputError(
        "--length",
        "must be given, because the picture alone does not tell the scale",
        remedy="Give the length of cloth that the photograph shows, as in --length 30cm.",
    )
