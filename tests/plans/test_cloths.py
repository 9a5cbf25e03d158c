from dataclasses import replace
from pathlib import Path

import pytest

from palette.errors import BriefError, LeafweftError
from palette.perception.spaces import hex_to_lab
from palette.plans.brief import Brief
from palette.plans.cloth_keys import CLOTH_KEYS
from palette.plans.cloths import cloth_briefs, plan_cloths
from palette.plans.making import plan_from_stripes
from palette.plans.palette_contract import palette_to_json
from palette.plans.plan import Plan
from palette.sheets.tables import stripes_csv
from palette.swatches.palette import Palette


@pytest.fixture
def source(hedge: Palette, tmp_path: Path) -> str:
    """The palette in a file."""
    path = tmp_path / "hedge-palette.json"
    path.write_text(palette_to_json(hedge), encoding="utf-8")
    return str(path)


@pytest.fixture
def spring(hedge: Palette, tmp_path: Path) -> str:
    """Another photograph's colours: another green called moss, and the same straw as oat."""
    path = tmp_path / "spring.json"
    swatches = tuple(
        replace(swatch, **changes)
        for swatch, changes in zip(
            hedge.swatches,
            (
                {"hex": "#3f6b35", "lab": hex_to_lab("#3f6b35")},
                {"name": "oat", "hex": "#d9c27b", "lab": hex_to_lab("#d9c27b")},
                {},
                {},
            ),
            strict=True,
        )
    )
    path.write_text(palette_to_json(Palette(swatches=swatches)), encoding="utf-8")
    return str(path)


def test_one_brief_is_one_cloth() -> None:
    brief = Brief.of({})
    assert cloth_briefs(brief) == (brief,)


def test_each_cloth_has_its_own_values(source: str) -> None:
    brief = Brief.of(
        {
            "palette": source,
            "name": "towels",
            "length": "60cm",
            "cloth": [{"order": "mirrored"}, {"name": "short", "length": "40cm", "order": "hue"}],
        }
    )
    first, second = plan_cloths(brief)
    assert (first.name, first.order, first.finished_length_mm) == ("towels 1", "mirrored", 600)
    assert (second.name, second.order, second.finished_length_mm) == ("short", "hue", 400)


def test_a_cloth_like_another_may_be_longer_or_repeat_it(source: str) -> None:
    longer = {"name": "runner", "like": "towel", "length": "120cm"}
    twice = {**longer, "name": "twice", "repeats": 2}
    first = {"name": "towel", "order": "light-dark"}
    asked = {"palette": source, "length": "60cm", "cloth": [first, longer, twice]}
    towel, runner, double = plan_cloths(Brief.of(asked))
    assert runner.total_picks == pytest.approx(2 * towel.total_picks, abs=2)
    assert [s.colour for s in runner.stripes] == [s.colour for s in towel.stripes]
    assert [s.colour for s in double.stripes] == [s.colour for s in towel.stripes] * 2
    assert "woven once, 2.0 times as wide as they were" in runner.warnings[0]


def test_a_cloth_like_another_in_the_same_palette_is_the_same(source: str) -> None:
    again = [{"name": "one", "order": "hit-and-miss"}, {"name": "two", "like": "one"}]
    one, two = plan_cloths(Brief.of({"palette": source, "length": "60cm", "cloth": again}))
    assert two.stripes == one.stripes


def test_stripes_with_their_hex_need_no_photograph(tmp_path: Path) -> None:
    table = tmp_path / "semi.csv"
    table.write_text("colour,picks,hex\nmoss,30,#5d733a\nrust,10,#a84f28\n", encoding="utf-8")
    (cloth,) = plan_cloths(Brief.of({"stripes": str(table)}))
    assert [(s.colour, s.picks) for s in cloth.stripes] == [("moss", 30), ("rust", 10)]
    assert [(s.name, s.share) for s in cloth.palette.swatches] == [("moss", 0.75), ("rust", 0.25)]
    assert cloth.warnings == ()
    assert cloth.finished_length_mm == cloth.true_finished_length_mm


def test_all_cloths_share_one_warp(source: str) -> None:
    brief = Brief.of({"palette": source, "length": "60cm", "gap": "5cm", "cloth": [{}, {}, {}, {}]})
    four = plan_from_stripes(brief, plan_cloths(brief))
    one_brief = brief.changed({"cloth": []})
    one = plan_from_stripes(one_brief, plan_cloths(one_brief))
    woven = one.cloths[0].woven_length_mm / 0.92
    assert four.warp.ends == one.warp.ends
    extra = 3 * (woven + 2 * 150 + 50)
    assert four.warp.length_mm == pytest.approx(one.warp.length_mm + extra)


def test_a_cloth_like_another_has_its_stripes_in_other_colours(source: str, spring: str) -> None:
    brief = Brief.of(
        {"palette": source, "name": "t", "cloth": [{}, {"like": "t 1", "palette": spring}]}
    )
    first, second = plan_cloths(brief)
    assert [stripe.picks for stripe in first.stripes] == [s.picks for s in second.stripes]
    assert "second moss" in second.colours
    assert "second moss" not in first.colours


def test_stripes_edited_by_hand_are_woven_as_they_stand(source: str, tmp_path: Path) -> None:
    table = tmp_path / "edited.csv"
    table.write_text("colour;picks\nmoss;100\nstraw;20\nmoss;80\n", encoding="utf-8")
    (cloth,) = plan_cloths(Brief.of({"palette": source, "stripes": str(table)}))
    assert [(stripe.colour, stripe.picks) for stripe in cloth.stripes] == [
        ("moss", 100),
        ("straw", 20),
        ("moss", 80),
    ]
    assert any("rust" in note for note in cloth.warnings)


@pytest.mark.parametrize(
    ("own", "said"),
    [
        ({"width": "20cm"}, "cloth 2, width: is not a key that one cloth of several may set"),
        ({"length": "20"}, "cloth 2, length: must carry a unit"),
        ({"like": "nothing"}, r"cloth 2 \(t 2\), like: must name an earlier cloth \(t 1\)"),
        ({"order": "zigzag"}, r"cloth 2 \(t 2\), order: must be one of"),
    ],
)
def test_a_fault_names_its_cloth(source: str, own: dict[str, object], said: str) -> None:
    with pytest.raises(LeafweftError, match=said):
        plan_cloths(Brief.of({"palette": source, "name": "t", "cloth": [{}, own]}))


def test_the_warp_is_set_once() -> None:
    assert not {"width", "sett", "weft", "warp", "weave"} & set(CLOTH_KEYS)


def test_two_cloths_of_one_name_are_refused(source: str) -> None:
    with pytest.raises(BriefError, match="cloth 2, name: must differ from the others"):
        plan_cloths(Brief.of({"palette": source, "cloth": [{"name": "a"}, {"name": "a"}]}))


def test_stripes_edited_by_hand_win_over_those_of_another_cloth(
    source: str, spring: str, tmp_path: Path
) -> None:
    own = [{}, {"like": "t 1", "palette": spring}]
    wishes = {"palette": source, "name": "t", "length": "60cm"}
    brief = Brief.of({**wishes, "cloth": own})
    plan = plan_from_stripes(brief, plan_cloths(brief))
    table = tmp_path / "stripes.csv"
    text = stripes_csv(plan).decode().replace("second moss", "ivy")
    table.write_text(text, encoding="utf-8", newline="")
    edited = plan_cloths(Brief.of({**wishes, "stripes": str(table), "cloth": own}))
    assert "ivy" in edited[1].colours
    first_alone = [line for line in text.splitlines() if not line.startswith("t 2")]
    table.write_text("\n".join(first_alone), encoding="utf-8")
    like = plan_cloths(Brief.of({**wishes, "stripes": str(table), "cloth": own}))
    assert like[1].stripes == plan.cloths[1].stripes


def two_towels(source: str, spring: str, **own: object) -> Plan:
    wishes = {"palette": source, "name": "t", "length": "60cm", "sampling": "20cm"}
    brief = Brief.of({**wishes, "cloth": [{}, {"palette": spring, **own}]})
    return plan_from_stripes(brief, plan_cloths(brief))


def test_every_yarn_of_several_cloths_has_one_name(source: str, spring: str) -> None:
    plan = two_towels(source, spring)
    wefts = {yarn.colour: yarn for yarn in plan.yarns if yarn.use == "weft"}
    assert set(wefts) == {"moss", "second moss", "straw", "rust", "chalk"}
    for colour, yarn in wefts.items():
        stripes = [s for cloth in plan.cloths for s in cloth.stripes if s.colour == colour]
        assert {stripe.hex for stripe in stripes} == {yarn.hex}
        assert sum(stripe.picks for stripe in stripes) == yarn.picks
    assert wefts["second moss"].hex == "#3f6b35"
    assert [note for note in plan.warnings if "called" in note] == [
        "t 2: moss is not the moss of t 1, so it is called second moss.",
        "t 2: oat is practically the straw of t 1: one yarn, called straw.",
    ]


def test_the_wishes_of_a_cloth_speak_of_its_own_colours(source: str, spring: str) -> None:
    plan = two_towels(source, spring, order="scattered", ground="moss", hem="3cm")
    named = two_towels(source, spring, **{"hem": "3cm", "hem-colour": "oat"})
    second = plan.cloths[1]
    assert second.picks_of("moss") == 0
    assert max(second.colours, key=second.picks_of) == "second moss"
    assert named.cloths[1].stripes[0].colour == "straw"


def test_stripes_edited_by_hand_are_known_by_the_names_of_the_plan(
    source: str, spring: str, tmp_path: Path
) -> None:
    plan = two_towels(source, spring)
    table = tmp_path / "stripes.csv"
    table.write_bytes(stripes_csv(plan))
    wishes = {"palette": source, "name": "t", "stripes": str(table)}
    again = plan_cloths(Brief.of({**wishes, "cloth": [{}, {"palette": spring}]}))
    assert [cloth.stripes for cloth in again] == [cloth.stripes for cloth in plan.cloths]
    assert not [note for cloth in again for note in cloth.warnings if "palette" in note]
