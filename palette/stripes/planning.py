"""From a palette and a length to a stripe plan in whole picks."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping

from palette.errors import WeavingError
from palette.measures import Units
from palette.stripes.lengths import body_picks
from palette.stripes.limits import arranged, moved, refusal
from palette.stripes.material import Run
from palette.stripes.plan import Stripe, StripePlan
from palette.stripes.request import Request
from palette.swatches.palette import Palette, Swatch

__all__ = ["plan_stripes"]


def plan_stripes(
    palette: Palette,
    *,
    length_mm: float,
    picks_per_cm: float,
    shrinkage_length: float = 0.1,
    step: int = 2,
    least: int = 0,
    order: str = "photo",
    seed: int = 0,
    repeats: int = 1,
    direction: str = "top-bottom",
    inner: str = "photo",
    ground: str = "",
    swap: tuple[str, ...] = (),
    most: Mapping[str, int] | None = None,
    name: str = "",
    units: Units = Units.METRIC,
) -> StripePlan:
    """Plan the weft of one cloth: every colour's share in whole picks, in an order.

    Parameters
    ----------
    palette : Palette
        Colours with shares.
    length_mm : float
        Finished length in mm, fringes not counted.
    picks_per_cm : float
        Counted on the loom.
    shrinkage_length : float
        Share of the woven length lost in washing, in [0, 1); 0.1 is common practice.
    step : int
        Picks that every stripe is a multiple of: 2 in plain weave, or the weave's repeat.
    least : int
        Smallest stripe in picks, rounded up to a whole step.
    order : str
        One of `palette.stripes.orders.ORDERS`.
    seed : int
        For the orders left to chance.
    repeats : int
        How often the arrangement is repeated along the cloth.
    direction : str
        How the photograph is read: one of `palette.stripes.lines.DIRECTIONS`.
    inner : str
        The line inside a composed order, such as mirrored: one of `palette.stripes.lines.LINES`.
    ground : str
        Name of the ground colour for the order "scattered"; "": the largest share.
    swap : tuple of 2 str
        Colours that change places in a counterchange; (): the two nearest in share.
    most : mapping of str to int, optional
        Most picks of a colour: the yarn in hand.
    name : str
        Name of the cloth.
    units : Units
        For lengths in messages.

    Returns
    -------
    StripePlan
        Its stripes sum to the total exactly, and each colour is within one step of its share;
        where a limit moved one further, `warnings` says so with figures.

    Raises
    ------
    InputError
        A value is out of range, or a name is unknown.
    WeavingError
        The colours do not fit; the message names the nearest plan that does.

    Examples
    --------
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.75)
    >>> straw = Swatch(name="straw", lab=(85.0, 0.0, 30.0), hex="#e4d49c", share=0.25)
    >>> plan = plan_stripes(
    ...     Palette(swatches=(moss, straw)), length_mm=90, picks_per_cm=8, order="light-dark"
    ... )
    >>> [(stripe.colour, stripe.picks) for stripe in plan.stripes]
    [('straw', 20), ('moss', 60)]
    """
    picks = body_picks(
        length_mm, picks_per_cm, shrinkage_length=shrinkage_length, step=step, units=units
    )
    request = Request(
        palette=palette,
        picks=picks,
        step=step,
        least=least,
        order=order,
        inner=inner,
        direction=direction,
        ground=ground,
        swap=swap,
        seed=seed,
        repeats=repeats,
        most=most or {},
        units=units,
    )
    try:
        runs = arranged(request)
    except WeavingError as cause:
        raise refusal(request, cause, picks_per_cm, shrinkage_length) from None
    stripes = _stripes(request.swatches, runs, step)
    return StripePlan(
        palette=palette,
        stripes=stripes,
        picks_per_cm=picks_per_cm,
        finished_length_mm=length_mm,
        shrinkage_length=shrinkage_length,
        step=step,
        least=least,
        order=order,
        seed=seed,
        name=name,
        warnings=(*_left_out(palette), *moved(request, _picks_of(stripes))),
    )


def _stripes(swatches: tuple[Swatch, ...], runs: Iterable[Run], step: int) -> tuple[Stripe, ...]:
    first, stripes = 1, []
    for run in runs:
        swatch, picks = swatches[run.colour], run.steps * step
        stripes.append(
            Stripe(
                colour=swatch.name, hex=swatch.hex, lab=swatch.lab, picks=picks, first_pick=first
            )
        )
        first += picks
    return tuple(stripes)


def _picks_of(stripes: tuple[Stripe, ...]) -> Callable[[str], int]:
    return lambda name: sum(stripe.picks for stripe in stripes if stripe.colour == name)


def _left_out(palette: Palette) -> tuple[str, ...]:
    return tuple(
        f"{swatch.name}: left out of the stripes, its share is 0."
        for swatch in palette.swatches
        if swatch.share == 0
    )
