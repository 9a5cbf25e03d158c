import itertools
import re
import subprocess
import sys
from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from palette.errors import InputError, WeavingError
from palette.measures import Units
from palette.stripes.edges import Edge
from palette.stripes.handling import handling_of
from palette.stripes.lines import DIRECTIONS, LINES
from palette.stripes.orders import ORDERS
from palette.stripes.plan import StripePlan
from palette.stripes.planning import plan_stripes
from palette.stripes.share_check import share_differences
from palette.stripes.soft import Soft
from palette.swatches.palette import Palette
from tests.strategies import palettes


@st.composite
def settings_of(draw: st.DrawFn) -> dict[str, object]:
    """Draw everything that may be asked of a plan, at once."""
    return {
        "length_mm": draw(st.floats(5, 4000)),
        "picks_per_cm": draw(st.floats(1, 20)),
        "shrinkage_length": draw(st.floats(0, 0.3)),
        "step": draw(st.integers(1, 6)),
        "least": draw(st.integers(0, 12)),
        "order": draw(st.sampled_from(list(ORDERS))),
        "inner": draw(st.sampled_from(list(LINES))),
        "direction": draw(st.sampled_from(list(DIRECTIONS))),
        "repeats": draw(st.integers(1, 4)),
        "seed": draw(st.integers(0, 99)),
        "soft": draw(
            st.none()
            | st.builds(
                Soft, picks=st.integers(1, 80), way=st.sampled_from(["alternate", "between"])
            )
        ),
        "edges": tuple(draw(st.lists(st.builds(Edge, picks=st.integers(1, 20)), max_size=2))),
        "shuttles": draw(st.none() | st.integers(2, 4)),
        "carry_picks": draw(st.none() | st.integers(0, 40)),
    }


def plan_or_pass(palette: Palette, asked: dict[str, object]) -> StripePlan:
    try:
        return plan_stripes(palette, **asked)
    except WeavingError:
        assume(False)
        raise


@settings(max_examples=150)
@given(palettes(), settings_of(), st.data())
def test_every_limit_is_kept_and_every_move_is_listed(
    palette: Palette, asked: dict[str, object], data: st.DataObject
) -> None:
    asked["ground"] = data.draw(st.sampled_from(["", palette.swatches[0].name]))
    plan = plan_or_pass(palette, asked)
    exact = plan.finished_length_mm / (1 - plan.shrinkage_length) * plan.picks_per_cm / 10
    assert abs(plan.total_picks - exact) <= plan.step / 2 + 1e-6
    assert all(stripe.picks % plan.step == 0 for stripe in plan.stripes)
    assert all(stripe.picks >= plan.least for stripe in plan.stripes if stripe.role == "stripe")
    for name, picks, share in share_differences(plan):
        known = name in {swatch.name for swatch in palette.swatches}
        if known and abs(picks - share) > plan.step + 1e-5:
            assert any(note.startswith(f"{name}: {picks} picks") for note in plan.warnings)
    handling = handling_of(plan)
    assert plan.shuttles is None or handling.most_in_play <= plan.shuttles
    assert all(carry.picks <= handling.carry_picks for carry in handling.carries)


@given(palettes(), settings_of())
def test_the_same_values_give_the_same_plan(palette: Palette, asked: dict[str, object]) -> None:
    assert plan_or_pass(palette, asked) == plan_stripes(palette, **asked)


@given(palettes(), st.integers(1, 5), st.integers(100, 3000), st.sampled_from(list(LINES)))
def test_alternating_soft_changes_move_no_colour(
    palette: Palette, step: int, length: int, order: str
) -> None:
    common = {"length_mm": length, "picks_per_cm": 8, "step": step, "order": order}
    hard = plan_stripes(palette, **common)
    soft = plan_stripes(palette, **common, soft=Soft(picks=30))
    assert all(hard.picks_of(c.name) == soft.picks_of(c.name) for c in palette.swatches)


@given(palettes(), st.integers(100, 3000))
def test_a_mirrored_cloth_stays_a_palindrome_with_soft_changes_hems_and_ground(
    palette: Palette, length: int
) -> None:
    plan = plan_or_pass(
        palette,
        {
            "length_mm": length,
            "picks_per_cm": 8,
            "order": "mirrored",
            "ground": palette.swatches[0].name,
            "soft": Soft(picks=12),
            "edges": (Edge(picks=10),),
        },
    )
    keys = [(s.colour, s.picks, s.role) for s in plan.stripes]
    apart = [a[1] - b[1] for a, b in zip(keys, keys[::-1], strict=True)]
    assert [key[::2] for key in keys] == [key[::2] for key in keys[::-1]]
    assert sum(map(abs, apart)) <= 2 * plan.step  # an odd rest of ground, at the middle
    if share_differences(plan)[0][1] // plan.step % 2 == 0:
        assert not any(apart)


def test_scarf_in_photo_order(hedge: Palette) -> None:
    plan = plan_stripes(hedge, length_mm=1800, picks_per_cm=8)
    assert [(s.colour, s.picks) for s in plan.stripes] == [
        ("sky", 192),
        ("white", 32),
        ("fern", 352),
        ("straw", 160),
        ("primrose", 64),
        ("moss", 480),
        ("plum", 96),
        ("bark", 224),
    ]
    assert (plan.total_picks, plan.woven_length_mm, plan.warnings) == (1600, 2000.0, ())


def test_small_accent_is_widened_to_the_smallest_stripe_and_it_is_said(hedge: Palette) -> None:
    plan = plan_stripes(hedge, length_mm=360, picks_per_cm=8, least=12)
    assert plan.picks_of("white") == 12
    assert plan.warnings == (
        "white: 12 picks, where its share of 2.0 % asks for 6.4: the smallest stripe is 12 picks.",
    )


def test_yarn_in_hand_is_kept_hems_included(hedge: Palette) -> None:
    plan = plan_stripes(
        hedge,
        length_mm=1800,
        picks_per_cm=8,
        most={"moss": 300},
        edges=(Edge(length_mm=25, colour="moss"),),
    )
    assert plan.picks_of("moss") == 300
    assert plan.warnings[0] == (
        "moss: 256 picks, where its share of 30.0 % asks for 466.8: there is yarn for 256 picks."
    )
    assert "limits moved other colours" in plan.warnings[1]
    assert plan.total_picks == 1600


def test_photo_order_without_places_is_said(pair: Palette) -> None:
    palette = Palette(swatches=tuple(replace(s, place=(0.5, 0.5)) for s in pair.swatches))
    note = "The palette does not say where its colours stand; they follow it by share."
    for order, inner in (("photo", "hue"), ("mirrored", "photo")):
        plan = plan_stripes(palette, length_mm=900, picks_per_cm=8, order=order, inner=inner)
        assert plan.warnings == (note,)
    for order, inner in (("hue", "photo"), ("mirrored", "hue"), ("hit-and-miss", "photo")):
        plan = plan_stripes(palette, length_mm=900, picks_per_cm=8, order=order, inner=inner)
        assert plan.warnings == ()


def test_colour_without_a_share_is_left_out(pair: Palette) -> None:
    moss, sky = pair.swatches
    palette = Palette(swatches=(replace(moss, share=1.0), replace(sky, share=0.0)))
    plan = plan_stripes(palette, length_mm=90, picks_per_cm=8)
    assert plan.colours == ("moss",)
    assert plan.warnings == ("sky: left out of the stripes, its share is 0.",)


LONGER = re.compile(r"make the cloth at least ([\d.]+) cm long \((\d+) picks\)")


@settings(max_examples=60, deadline=None)
@given(palettes(), settings_of())
def test_what_a_refusal_offers_can_be_woven(palette: Palette, asked: dict[str, object]) -> None:
    asked |= {"length_mm": 20, "picks_per_cm": 6, "least": 9, "shuttles": None}
    try:
        plan_stripes(palette, **asked)
    except WeavingError as problem:
        offer = LONGER.search(str(problem))
        assert offer is not None
        longer = plan_stripes(palette, **asked | {"length_mm": float(offer[1]) * 10})
        assert longer.total_picks >= int(offer[2])
        least = re.search(r"lower the smallest stripe to (\d+) picks", str(problem))
        assert not least or plan_stripes(palette, **asked | {"least": int(least[1])})
        step = re.search(r"lower the step to (\d+)", str(problem))
        assert not step or plan_stripes(palette, **asked | {"step": int(step[1])})
        repeats = re.search(r"weave (\d+) repeats", str(problem))
        assert not repeats or plan_stripes(palette, **asked | {"repeats": int(repeats[1])})


def test_more_colours_than_picks_names_the_nearest_plan(hedge: Palette) -> None:
    with pytest.raises(
        WeavingError,
        match=r"8 colours in the order photo: must fit stripes of at least 20 picks into the "
        r"cloth; got 88 picks\. To weave it, make the cloth at least 18\.0 cm long \(160 picks\), "
        r"or lower the smallest stripe to 10 picks, or weave at most 4 colours\.",
    ):
        plan_stripes(hedge, length_mm=100, picks_per_cm=8, least=20)
    with pytest.raises(WeavingError, match=r"at least 7\.1 in long"):
        plan_stripes(hedge, length_mm=100, picks_per_cm=8, least=20, units=Units.IMPERIAL)


def test_cloth_shorter_than_its_hems_names_the_shortest(pair: Palette) -> None:
    with pytest.raises(
        WeavingError,
        match=r"got 22 picks, of which hems and borders take 44\. To weave it, make the cloth at "
        r"least 5\.4 cm long \(48 picks\), .*or leave out the hems and borders\.",
    ):
        plan_stripes(pair, length_mm=25, picks_per_cm=8, edges=(Edge(picks=22),))
    assert plan_stripes(pair, length_mm=54, picks_per_cm=8, edges=(Edge(picks=22),))


def test_too_little_yarn_says_how_much_more(pair: Palette) -> None:
    with pytest.raises(
        WeavingError,
        match=r"at most 60 picks of moss and at most 60 picks of sky into the cloth; got 160 picks"
        r"\. To weave it, make the cloth at most 13\.5 cm long \(120 picks\), .*have yarn for 100 "
        r"picks of moss instead of 60, or have yarn for 100 picks of sky instead of 60\.",
    ):
        plan_stripes(pair, length_mm=180, picks_per_cm=8, most={"moss": 60, "sky": 60})


def test_too_little_yarn_of_several_colours_says_so_for_each(hedge: Palette) -> None:
    most = {"moss": 8, "fern": 8, "bark": 400}
    with pytest.raises(
        WeavingError,
        match="have yarn for 240 picks of moss instead of 8 and 176 picks of fern instead of 8",
    ):
        plan_stripes(hedge, length_mm=900, picks_per_cm=8, least=10, most=most)


def test_one_shuttle_cannot_alternate(pair: Palette) -> None:
    with pytest.raises(
        WeavingError,
        match=r"soft changes: must have 2 shuttles in play; got 1\. Allow 1 shuttle more, or weave",
    ):
        plan_stripes(pair, length_mm=900, picks_per_cm=8, soft=Soft(picks=20), shuttles=1)
    between = Soft(picks=20, way="between")
    assert plan_stripes(pair, length_mm=900, picks_per_cm=8, soft=between, shuttles=1)


def test_few_shuttles_are_paid_for_in_cuts_and_listed(hedge: Palette) -> None:
    plan = plan_stripes(
        hedge, length_mm=300, picks_per_cm=8, order="hit-and-miss", shuttles=2, carry_picks=30
    )
    free = handling_of(replace(plan, shuttles=None))
    held = handling_of(plan)
    assert free.most_in_play > 2 >= held.most_in_play
    listed = {note.split(":")[0] for note in plan.warnings if "because at most 2 shuttles" in note}
    more = {name for name, count in held.starts if count > free.starts_of(name)}
    assert listed == more != set()


def test_soft_changes_settle_how_far_wefts_are_carried(pair: Palette) -> None:
    plan = plan_stripes(pair, length_mm=1800, picks_per_cm=8, soft=Soft(picks=200))
    assert plan.carry_picks is not None
    assert plan.carry_picks > 8
    assert handling_of(plan).total_starts == 2
    assert plan.warnings[-1].startswith(
        f"soft changes: wefts are carried past up to {plan.carry_picks} picks"
    )
    cut = plan_stripes(pair, length_mm=1800, picks_per_cm=8, soft=Soft(picks=200), carry_picks=8)
    assert handling_of(cut).total_starts > 2
    assert "more than the 8 that it may be carried; it is cut there." in cut.warnings[-1]


@pytest.mark.parametrize(
    ("asked", "message"),
    [
        ({"step": 0}, "step: must be at least 1; got 0"),
        ({"least": -1}, "least: must be at least 0; got -1"),
        ({"repeats": 0}, "repeats: must be at least 1; got 0"),
        ({"seed": -1}, "seed: must be at least 0; got -1"),
        (
            {"ground": "teal"},
            r"ground: must name a colour of the palette \(moss, sky\); got 'teal'",
        ),
        ({"swap": ("moss",)}, "swap: must name two colours; got moss"),
        ({"most": {"moss": 0}}, "most of moss: must be at least 1 pick; got 0"),
        ({"most": {"teal": 9}}, "most: must name a colour of the palette"),
        ({"inner": "graded"}, "inner order: must be one of photo"),
        ({"direction": "up"}, "direction: must be one of top-bottom"),
        ({"shuttles": 0}, "shuttles: must be at least 1; got 0"),
        ({"carry_picks": -2}, "carry: must be 0 picks or more; got -2"),
    ],
)
def test_values_out_of_range_are_refused(
    pair: Palette, asked: dict[str, object], message: str
) -> None:
    with pytest.raises(InputError, match=message):
        plan_stripes(pair, **{"length_mm": 900, "picks_per_cm": 8} | asked)


def test_hem_that_leaves_no_yarn_for_the_stripes_is_refused(pair: Palette) -> None:
    with pytest.raises(WeavingError, match="most of moss: must leave yarn for the stripes beside"):
        plan_stripes(
            pair,
            length_mm=900,
            picks_per_cm=8,
            most={"moss": 30},
            edges=(Edge(picks=20, colour="moss"),),
        )


def test_stripes_follow_each_other_in_different_colours(hedge: Palette) -> None:
    for order in ORDERS:
        plan = plan_stripes(hedge, length_mm=1800, picks_per_cm=8, order=order)
        assert all(a.colour != b.colour for a, b in itertools.pairwise(plan.stripes))


def test_the_list_of_orders_loads_nothing_heavy() -> None:
    code = (
        "import sys, palette.stripes.orders, palette.stripes.lines;"
        "print(*{name.split('.')[0] for name in sys.modules})"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert not set(loaded.stdout.split()) & {"numpy", "scipy", "sklearn", "colour", "PIL"}


@pytest.mark.parametrize(("name", "value"), [("step", 2.0), ("least", 2.5), ("seed", 1.5)])
def test_what_is_counted_is_whole(hedge, name, value):
    with pytest.raises(InputError, match=f"{name}: must be a whole number; got {value}"):
        plan_stripes(hedge, length_mm=1000, picks_per_cm=8, **{name: value})


def test_counts_of_numpy_become_plain_numbers(hedge):
    import numpy as np

    plan = plan_stripes(hedge, length_mm=1000, picks_per_cm=8, step=np.int64(2))
    assert {type(stripe.picks) for stripe in plan.stripes} == {int}
