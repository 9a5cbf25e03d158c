from pathlib import Path

import pytest

from palette.errors import BriefError, LeafweftError
from palette.plans.brief import Brief
from palette.plans.cloths import CLOTH_KEYS, cloth_briefs, plan_cloths
from palette.plans.making import plan_from_stripes
from palette.plans.palette_contract import palette_to_json
from palette.swatches.palette import Palette


@pytest.fixture
def source(hedge: Palette, tmp_path: Path) -> str:
    """The palette in a file."""
    path = tmp_path / "hedge-palette.json"
    path.write_text(palette_to_json(hedge), encoding="utf-8")
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


def test_all_cloths_share_one_warp(source: str) -> None:
    brief = Brief.of({"palette": source, "length": "60cm", "gap": "5cm", "cloth": [{}, {}, {}, {}]})
    four = plan_from_stripes(brief, plan_cloths(brief))
    one_brief = brief.changed({"cloth": []})
    one = plan_from_stripes(one_brief, plan_cloths(one_brief))
    woven = one.cloths[0].woven_length_mm / 0.92
    assert four.warp.ends == one.warp.ends
    extra = 3 * (woven + 2 * 150 + 50)
    assert four.warp.length_mm == pytest.approx(one.warp.length_mm + extra)


def test_a_cloth_like_another_has_its_stripes_in_other_colours(source: str, tmp_path: Path) -> None:
    other = tmp_path / "other.json"
    text = Path(source).read_text(encoding="utf-8")
    other.write_text(text.replace('"moss"', '"blue"'), encoding="utf-8")
    brief = Brief.of(
        {"palette": source, "name": "t", "cloth": [{}, {"like": "t 1", "palette": str(other)}]}
    )
    first, second = plan_cloths(brief)
    assert [stripe.picks for stripe in first.stripes] == [s.picks for s in second.stripes]
    assert "blue" in second.colours
    assert "blue" not in first.colours


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
