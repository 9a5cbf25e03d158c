"""The same stripes over another length, or at another density."""

from __future__ import annotations

from dataclasses import replace

from palette.errors import WeavingError
from palette.measures import format_length
from palette.stripes.equal_widths import equal_widths
from palette.stripes.lengths import picks_for_length, shortest_finished_mm
from palette.stripes.plan import Stripe, StripePlan
from palette.stripes.share_check import share_notes
from palette.stripes.weft import Piece, Weft, number_picks

__all__ = ["rescale"]


def _scaled(stripes: tuple[Stripe, ...], units: int, narrowest: int) -> tuple[int, ...]:
    """Give the steps of each stripe, in proportion to its picks, equal stripes alike."""
    return equal_widths(
        [stripe.picks for stripe in stripes],
        units,
        least=[narrowest if stripe.role == "stripe" else 1 for stripe in stripes],
        kinds=[(stripe.colour, stripe.role) for stripe in stripes],
    )


def rescale(
    plan: StripePlan,
    *,
    length_mm: float | None = None,
    picks_per_cm: float | None = None,
    shrinkage_length: float | None = None,
    step: int | None = None,
    least: int | None = None,
) -> StripePlan:
    """Weave the same stripes over another length: every width in proportion.

    Hems and borders keep their picks. Widths are whole steps, less than one step from the exact
    width unless the smallest stripe raised it. Stripes that were equal stay equal; where that
    does not come out at the length, the first and last stripe, and then the widest, take a step
    more. A cloth that reads the same from both ends still does.

    Parameters
    ----------
    plan : StripePlan
    length_mm : float, optional
        Finished length in mm; None: as it was.
    picks_per_cm, shrinkage_length, step, least : optional
        As in `plan_stripes`; None: as they were.

    Returns
    -------
    StripePlan
        Its warnings say what no longer matches the shares.

    Raises
    ------
    InputError
        A value is out of range.
    WeavingError
        The stripes do not fit; the message names the shortest cloth that holds them.

    Examples
    --------
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.75)
    >>> straw = Swatch(name="straw", lab=(85.0, 0.0, 30.0), hex="#e4d49c", share=0.25)
    >>> plan = StripePlan(palette=Palette(swatches=(moss, straw)), picks_per_cm=8,
    ...     stripes=number_picks((Piece(Weft.of(moss), 60), Piece(Weft.of(straw), 20))),
    ...     finished_length_mm=100)
    >>> [stripe.picks for stripe in rescale(plan, length_mm=200).stripes]
    [120, 40]
    """
    step = plan.step if step is None else step
    least = plan.least if least is None else least
    length_mm = plan.finished_length_mm if length_mm is None else length_mm
    density = plan.picks_per_cm if picks_per_cm is None else picks_per_cm
    shrinkage = plan.shrinkage_length if shrinkage_length is None else shrinkage_length
    total = picks_for_length(length_mm, density, shrinkage_length=shrinkage, step=step)
    body = tuple(stripe for stripe in plan.stripes if stripe.role in ("stripe", "blend"))
    edging = plan.total_picks - sum(stripe.picks for stripe in body)
    narrowest = max(1, -(-least // step))
    try:
        steps = iter(_scaled(body, (total - edging) // step, narrowest))
    except WeavingError:
        needed = edging + sum(narrowest if s.role == "stripe" else 1 for s in body) * step
        shortest = shortest_finished_mm(needed + step, density, shrinkage)
        raise WeavingError(
            "stripe plan",
            f"its {len(body)} stripes need at least {needed} picks, hems and borders included",
            got=f"{total}",
            remedy=f"Make the cloth at least {format_length(shortest)} long, or drop stripes.",
        ) from None
    pieces = [
        Piece(Weft.of(stripe), stripe.picks, stripe.role)
        if stripe.role in ("hem", "border")
        else Piece(Weft.of(stripe), next(steps) * step, stripe.role)
        for stripe in plan.stripes
    ]
    scaled = replace(
        plan,
        stripes=number_picks(pieces),
        picks_per_cm=density,
        finished_length_mm=length_mm,
        shrinkage_length=shrinkage,
        step=step,
        least=least,
        warnings=(),
    )
    return replace(scaled, warnings=share_notes(scaled))
