"""How long a plan takes, as ratios against the bare making of its stripes in the same run."""

from __future__ import annotations

import platform
import time
from collections.abc import Callable
from functools import partial

import numpy as np
import pytest

from palette.stripes.choices import choices
from palette.stripes.handling import handling_of
from palette.stripes.orders import ORDERS
from palette.stripes.plan import StripePlan
from palette.stripes.planning import plan_stripes
from palette.stripes.rescaling import rescale
from palette.stripes.shortest_path import EXACT_UP_TO, shortest_path
from palette.stripes.soft import Soft
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette, Swatch

pytestmark = pytest.mark.bench


def twelve() -> Palette:
    """Give twelve colours in seeded places."""
    chance = np.random.Generator(np.random.PCG64(12))
    labs = chance.uniform((20, -40, -40), (90, 40, 60), size=(12, 3))
    return Palette(
        swatches=tuple(
            Swatch(
                name=f"colour {i}",
                lab=(float(lab[0]), float(lab[1]), float(lab[2])),
                hex="#5d733a",
                share=(13 - i) / 78,
                place=(0.5, i / 12),
            )
            for i, lab in enumerate(labs, start=1)
        )
    )


def best_of(times: int, work: Callable[[], object]) -> float:
    """Shortest of several runs, in seconds of processor time."""
    spent = []
    for _ in range(times):
        start = time.process_time()
        work()
        spent.append(time.process_time() - start)
    return min(spent)


def stripes_of(count: int) -> StripePlan:
    """Give a plan of so many stripes in twelve colours."""
    palette = twelve()
    wefts = [Weft.of(swatch) for swatch in palette.swatches]
    chance = np.random.Generator(np.random.PCG64(1))
    pieces = [Piece(wefts[i], 2) for i in np.cumsum(chance.integers(1, 12, size=count)) % 12]
    return StripePlan(
        palette=palette,
        stripes=number_picks(pieces),
        picks_per_cm=8,
        finished_length_mm=1.0,
    )


def test_100_000_picks_in_12_colours() -> None:
    palette = twelve()
    print(f"\n{platform.machine()}, Python {platform.python_version()}")
    bare = best_of(5, lambda: stripes_of(1000))
    for order in ORDERS:
        spent = best_of(
            3,
            lambda order=order: plan_stripes(
                palette, length_mm=112_500, picks_per_cm=8, order=order, shrinkage_length=0.1
            ),
        )
        print(f"{order:14} {spent * 1000:8.2f} ms, {spent / bare:6.2f} x making 1000 stripes")
        assert spent > 0
    soft = best_of(
        3,
        lambda: plan_stripes(
            palette,
            length_mm=112_500,
            picks_per_cm=8,
            order="scattered",
            soft=Soft(picks=400),
            shuttles=3,
        ),
    )
    print(f"soft, shuttles {soft * 1000:8.2f} ms, {soft / bare:6.2f} x making 1000 stripes")


def test_cost_grows_linearly_in_stripes() -> None:
    print()
    for name, shuttles in (("no limit", None), ("three shuttles", 3)):
        spent = {}
        for count in (1000, 10_000, 100_000):
            plan = stripes_of(count)
            spent[count] = best_of(3, partial(handling_of, plan, carry_picks=40, shuttles=shuttles))
        ratio = spent[100_000] / spent[10_000]
        print(f"handling, {name}: ten times the stripes cost {ratio:.1f} times as much")
        assert spent[100_000] > spent[10_000]


def test_rescaling_grows_with_the_stripes() -> None:
    spent = {}
    for count in (1000, 10_000):
        plan = stripes_of(count)
        spent[count] = best_of(3, partial(rescale, plan, length_mm=count * 5.0))
    print(
        f"\nrescaling: ten times the stripes cost {spent[10_000] / spent[1000]:.1f} times as much"
    )
    assert spent[10_000] > spent[1000]


def test_exact_path_and_a_sheet_of_choices() -> None:
    palette = twelve()
    bare = best_of(5, lambda: stripes_of(1000))
    points = [tuple(2 * value for value in swatch.lab) for swatch in palette.swatches]
    assert len(points) == EXACT_UP_TO
    start = time.process_time()
    shortest_path(points)
    path = time.process_time() - start
    sheet = best_of(3, lambda: choices(palette, length_mm=1800, picks_per_cm=8))
    print(
        f"\npath through 12 colours {path / bare:.1f} x, 16 choices {sheet / bare:.1f} x, "
        f"of making 1000 stripes ({bare * 1000:.2f} ms)"
    )
