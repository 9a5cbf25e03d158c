import math

import pytest

from palette.errors import InputError
from palette.stripes.edges import Edge, edge_picks
from palette.stripes.planning import plan_stripes
from palette.swatches.palette import Palette


def test_hem_and_border_stand_at_both_ends_in_their_own_yarns(pair: Palette) -> None:
    plan = plan_stripes(
        pair,
        length_mm=900,
        picks_per_cm=8,
        edges=(
            Edge(length_mm=25, colour="natural", hex="#ece7db"),
            Edge(role="border", picks=6, colour="sky"),
        ),
    )
    ends = [(s.colour, s.picks, s.role) for s in (*plan.stripes[:2], *plan.stripes[-2:])]
    hem, border = ("natural", 22, "hem"), ("sky", 6, "border")
    assert ends == [hem, border, border, hem]
    assert plan.total_picks == 800
    assert plan.stripes[0].lab == pytest.approx((91.8, -0.2, 6.2), abs=0.5)
    body = 800 - 2 * 28
    assert sum(s.picks for s in plan.stripes if s.role == "stripe") == body
    assert (plan.stripes[2].colour, plan.stripes[2].picks) == ("sky", body // 4)


def test_hem_without_a_colour_is_woven_in_the_stripe_beside_it(pair: Palette) -> None:
    plan = plan_stripes(pair, length_mm=900, picks_per_cm=8, edges=(Edge(picks=9),))
    first, last = plan.stripes[0], plan.stripes[-1]
    assert (first.colour, first.picks, first.role) == (plan.stripes[1].colour, 10, "hem")
    assert (last.colour, last.picks) == (plan.stripes[-2].colour, 10)


def test_lengths_are_finished_lengths() -> None:
    # 25 mm / 0.9 x 8 per cm = 22.2 picks
    assert edge_picks(Edge(length_mm=25), 8, 0.1, 1) == 22
    assert edge_picks(Edge(length_mm=0.1), 8, 0.1, 2) == 2


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ({}, "hem: must have picks or a length, one of the two"),
        ({"picks": 4, "length_mm": 20}, "hem: must have picks or a length, one of the two"),
        ({"picks": -4}, "hem: must be 0 or more; got -4"),
        ({"length_mm": math.nan}, "hem: must be 0 or more; got nan"),
        ({"picks": 4, "hex": "#ffffff"}, "hem: a yarn of its own must have a name; got none"),
    ],
)
def test_edges_are_checked(values: dict[str, object], message: str) -> None:
    with pytest.raises(InputError, match=message):
        Edge(**values)


def test_yarns_of_edges_are_checked(pair: Palette) -> None:
    for edge, message in (
        (Edge(picks=4, colour="teal"), r"hem: must name a colour of the palette \(moss, sky\)"),
        (Edge(picks=4, colour="sky", hex="#000000"), "must not have the name of another colour"),
    ):
        with pytest.raises(InputError, match=message):
            plan_stripes(pair, length_mm=900, picks_per_cm=8, edges=(edge,))
