"""Which stripes of a reading are unsure, in one sentence for each reason."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

from palette.stripes.reading_values import ReadStripe

__all__ = ["unsure_notes"]

_PLACED = 6  # stripes whose places are told in one sentence; of more, the numbers alone


def unsure_notes(stripes: Sequence[ReadStripe], *, upright: bool) -> tuple[str, ...]:
    """Name the unsure stripes, where they are and why, those with the same reason together.

    Parameters
    ----------
    stripes : sequence of ReadStripe
    upright : bool
        Whether they stand upright: places are told from the left, else from the top.

    Returns
    -------
    tuple of str
        As many as there are reasons.

    Examples
    --------
    >>> grey = {"colour": "grey", "hex": "#808080", "lab": (53.6, 0.0, 0.0), "share": 0.25}
    >>> doubt = "is hardly a pick wide"
    >>> stripes = [ReadStripe(**grey, start=k / 4, doubt=doubt if k > 1 else "") for k in range(4)]
    >>> print(*unsure_notes(stripes, upright=False))
    stripes 3 (62 % of the way from the top) and 4 (88 %) are unsure: each is hardly a pick wide;
    look at the cloth
    """
    way = "from the left" if upright else "from the top"
    by_reason: dict[str, list[int]] = defaultdict(list)
    for number, stripe in enumerate(stripes, start=1):
        if stripe.doubt:
            by_reason[stripe.doubt].append(number)
    notes = []
    for doubt, numbers in by_reason.items():
        if len(numbers) == 1:
            stripe = stripes[numbers[0] - 1]
            place = f"({stripe.colour}, {_place(stripe)} of the way {way})"
            notes.append(f"stripe {numbers[0]} {place} is unsure: it {doubt}; look at the cloth")
            continue
        named = [str(number) for number in numbers]
        if len(numbers) <= _PLACED:
            places = [_place(stripes[number - 1]) for number in numbers]
            places[0] += f" of the way {way}"
            named = [f"{name} ({place})" for name, place in zip(named, places, strict=True)]
        listed = f"{', '.join(named[:-1])} and {named[-1]}"
        notes.append(f"stripes {listed} are unsure: each {doubt}; look at the cloth")
    return tuple(notes)


def _place(stripe: ReadStripe) -> str:
    return f"{100 * (stripe.start + stripe.share / 2):.0f} %"
