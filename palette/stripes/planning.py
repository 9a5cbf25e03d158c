"""From a palette and a length to a stripe plan in whole picks."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping

from palette.errors import WeavingError
from palette.measures import Units
from palette.stripes.edges import Edge, edge_picks, edge_pieces
from palette.stripes.lengths import picks_for_length
from palette.stripes.limits import arranged, moved
from palette.stripes.loosening import refusal
from palette.stripes.orders import COMPOSED
from palette.stripes.plan import StripePlan
from palette.stripes.request import Request
from palette.stripes.soft import Soft
from palette.stripes.softening import check_handling, softened, with_handling_notes
from palette.stripes.weft import Piece, number_picks
from palette.swatches.palette import Palette

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
    soft: Soft | None = None,
    edges: tuple[Edge, ...] = (),
    most: Mapping[str, int] | None = None,
    shuttles: int | None = None,
    carry_picks: int | None = None,
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
        Name of the colour woven between all the others; "": none, but for the order
        "scattered" the largest share.
    swap : tuple of 2 str
        Colours that change places in a counterchange; (): the two nearest in share.
    soft : Soft, optional
        Soft changes between neighbouring stripes; None: hard.
    edges : tuple of Edge
        Hems and borders at both ends, from the outside in; they are part of the length, and
        the shares are kept over what lies between them.
    most : mapping of str to int, optional
        Most picks of a colour: the yarn in hand, hems and borders included.
    shuttles : int, optional
        Most shuttles in play at once: wefts are cut rather than carried where it asks for it.
    carry_picks : int, optional
        Most picks that a weft is carried up the selvedge before it is cut; None: the usual
        few, or what the soft changes need.
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
    sizes = [edge_picks(edge, picks_per_cm, shrinkage_length, step) for edge in edges]
    edging = 2 * sum(sizes)
    total = picks_for_length(length_mm, picks_per_cm, shrinkage_length=shrinkage_length, step=step)
    check_handling(soft, shuttles, carry_picks)
    request = Request(
        palette=palette,
        picks=max(0, total - edging),
        step=step,
        least=least,
        order=order,
        inner=inner,
        direction=direction,
        ground=ground,
        swap=swap,
        seed=seed,
        repeats=repeats,
        most=_left_for_stripes(most or {}, edges, sizes),
        units=units,
    )
    try:
        runs = arranged(request)
    except WeavingError as cause:
        raise refusal(request, cause, picks_per_cm, shrinkage_length, total, edging) from None
    body, notes = softened(request, runs, soft)
    start = edge_pieces(edges, palette, beside=body[0].weft, picks=sizes)
    end = edge_pieces(edges, palette, beside=body[-1].weft, picks=sizes)[::-1]
    plan = StripePlan(
        palette=palette,
        stripes=number_picks((*start, *body, *end)),
        picks_per_cm=picks_per_cm,
        finished_length_mm=length_mm,
        shrinkage_length=shrinkage_length,
        step=step,
        least=least,
        order=order,
        seed=seed,
        name=name,
        warnings=(
            *_left_out(palette),
            *_without_places(request),
            *moved(request, _picks_in(body), between=_is_between(soft)),
            *notes,
        ),
        carry_picks=carry_picks,
        shuttles=shuttles,
    )
    return with_handling_notes(plan)


def _left_for_stripes(
    most: Mapping[str, int], edges: tuple[Edge, ...], sizes: list[int]
) -> dict[str, int]:
    """Take what hems and borders use off the yarn in hand."""
    left = dict(most)
    for edge, picks in zip(edges, sizes, strict=True):
        if edge.colour in left:
            left[edge.colour] -= 2 * picks
            if left[edge.colour] < 1:
                rule = f"must leave yarn for the stripes beside {2 * picks} picks of {edge.role}"
                remedy = f"Weave the {edge.role} in another yarn, or a shorter one."
                got = f"{most[edge.colour]} picks"
                raise WeavingError(f"most of {edge.colour}", rule, got=got, remedy=remedy)
    return left


def _picks_in(pieces: tuple[Piece, ...]) -> Callable[[str], int]:
    counts: Counter[str] = Counter()
    for piece in pieces:
        counts[piece.weft.name] += piece.picks
    return counts.__getitem__


def _without_places(request: Request) -> tuple[str, ...]:
    """Say where the order of the photograph was asked for and the palette does not know it."""
    asked = request.inner if request.order in COMPOSED else request.order
    known = len({swatch.place for swatch in request.swatches}) > 1 or len(request.swatches) == 1
    if asked != "photo" or known:
        return ()
    return ("The palette does not say where its colours stand; they follow it by share.",)


def _is_between(soft: Soft | None) -> bool:
    return soft is not None and soft.way == "between"


def _left_out(palette: Palette) -> tuple[str, ...]:
    return tuple(
        f"{swatch.name}: left out of the stripes, its share is 0."
        for swatch in palette.swatches
        if swatch.share == 0
    )
