"""Many arrangements of one palette, numbered, to lay side by side and choose from."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

from palette.errors import InputError, WeavingError
from palette.stripes.edges import Edge
from palette.stripes.orders import ORDERS
from palette.stripes.plan import StripePlan
from palette.stripes.planning import plan_stripes
from palette.stripes.soft import Soft
from palette.swatches.palette import Palette

__all__ = ["Choice", "choices", "pick"]

FEWEST = 12
SOFT_PART = 0.03  # of the picks: a passage about 5 cm long in a scarf of 180 cm
_TRIES = 40  # seeds tried for each arrangement that is still missing


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One arrangement among many.

    Attributes
    ----------
    number : int
        From 1; the same palette, settings and seed give the same arrangement for a number.
    how : str
        How it was made, in a short line.
    plan : StripePlan
    settings : tuple of (str, value)
        The keywords of `plan_stripes` that made it beside the common ones.
    """

    number: int
    how: str
    plan: StripePlan
    settings: tuple[tuple[str, object], ...] = ()


@dataclass(frozen=True, slots=True)
class _Recipe:
    """What one arrangement is made of: a line about it, and keywords."""

    how: str
    keywords: dict[str, Any] = field(default_factory=dict)


def _recipes(palette: Palette, soft_picks: int, seed: int) -> Iterator[_Recipe]:
    """Arrangements in the order of their numbers; chance comes last, seed after seed."""
    largest = max(palette.swatches, key=lambda swatch: swatch.share).name

    def of(order: str, how: str = "", **more: object) -> _Recipe:
        return _Recipe(how or ORDERS[order].line, {"order": order, **more})

    yield of("photo")
    yield of("light-dark")
    yield of("hue")
    yield of("nearest", "nearest neighbours, changing softly", soft=Soft(picks=soft_picks))
    yield of("mirrored")
    yield of("mirrored", "light to dark, mirrored about the middle", inner="light-dark")
    yield of(
        "repeated", "one repeat of nearest neighbours woven five times", repeats=5, inner="nearest"
    )
    yield of("counterchange")
    yield of("graded")
    yield of("fibonacci")
    yield of("scattered", f"accents spread evenly on {largest}")
    yield of("photo", f"as in the photograph, {largest} between all stripes", ground=largest)
    yield of("nearest", "nearest neighbours, hard changes")
    yield of(
        "repeated",
        "light to dark woven three times, changing softly",
        inner="light-dark",
        soft=Soft(picks=soft_picks),
    )
    for number in range(_TRIES):
        yield of(
            "hit-and-miss", f"widths and places by chance, seed {seed + number}", seed=seed + number
        )


def choices(
    palette: Palette,
    *,
    length_mm: float,
    picks_per_cm: float,
    shrinkage_length: float = 0.1,
    step: int = 2,
    least: int = 0,
    direction: str = "top-bottom",
    edges: tuple[Edge, ...] = (),
    shuttles: int | None = None,
    carry_picks: int | None = None,
    seed: int = 0,
    count: int = 16,
) -> tuple[Choice, ...]:
    """Arrange one palette in many ways.

    Parameters
    ----------
    palette : Palette
    length_mm, picks_per_cm, shrinkage_length, step, least, direction, edges, shuttles, carry_picks
        As in `plan_stripes`.
    seed : int
        Of the arrangements left to chance; they take this seed and those that follow it.
    count : int
        How many to give, at least 12.

    Returns
    -------
    tuple of Choice
        No two with the same stripes. Fewer than `count` only where the palette and the length
        do not have as many: one colour has a single arrangement.

    Raises
    ------
    InputError
        A value is out of range.
    WeavingError
        No arrangement can be woven; the message is that of the first.

    Examples
    --------
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=0.5)
    >>> straw = Swatch(name="straw", lab=(85.0, 0.0, 30.0), hex="#e4d49c", share=0.3)
    >>> rust = Swatch(name="rust", lab=(45.0, 35.0, 40.0), hex="#a84f28", share=0.2)
    >>> sheet = choices(Palette(swatches=(moss, straw, rust)), length_mm=1800, picks_per_cm=8)
    >>> sheet[4].number, sheet[4].how
    (5, 'mirrored about the middle')
    """
    if not count >= FEWEST:
        raise InputError("choices", f"must be at least {FEWEST}", got=f"{count}")

    def make(keywords: dict[str, Any]) -> StripePlan:
        return plan_stripes(
            palette,
            length_mm=length_mm,
            picks_per_cm=picks_per_cm,
            shrinkage_length=shrinkage_length,
            step=step,
            least=least,
            direction=direction,
            edges=edges,
            shuttles=shuttles,
            carry_picks=carry_picks,
            **{"seed": seed, **keywords},
        )

    first = make({"order": "photo"})
    passage = max(2 * step, round(first.total_picks * SOFT_PART / (2 * step)) * 2 * step)
    return _distinct(_recipes(palette, passage, seed), make, count)


def _distinct(
    recipes: Iterator[_Recipe], make: Callable[[dict[str, Any]], StripePlan], count: int
) -> tuple[Choice, ...]:
    """Weave the recipes one by one; those that cannot be woven or repeat another fall out."""
    found: list[Choice] = []
    seen: set[tuple[tuple[str, int], ...]] = set()
    for recipe in recipes:
        if len(found) == count:
            break
        try:
            plan = make(recipe.keywords)
        except WeavingError:
            continue
        key = tuple((stripe.colour, stripe.picks) for stripe in plan.stripes)
        if key not in seen:
            seen.add(key)
            settings = tuple(recipe.keywords.items())
            found.append(
                Choice(number=len(found) + 1, how=recipe.how, plan=plan, settings=settings)
            )
    return tuple(found)


def pick(sheet: tuple[Choice, ...], number: int) -> StripePlan:
    """Take one arrangement off the sheet by its number.

    Raises
    ------
    InputError
        The sheet has no such number.
    """
    for choice in sheet:
        if choice.number == number:
            return choice.plan
    raise InputError("pick", f"must be from 1 to {len(sheet)}", got=f"{number}")
