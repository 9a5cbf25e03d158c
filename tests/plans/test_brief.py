import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import BriefError, CountError, FileError, InputError, LeafweftError, UnitError
from palette.measures import Units
from palette.plans.brief import Brief
from palette.plans.brief_file import brief_toml, read_brief
from palette.plans.options import OPTIONS


def brief_of(tmp_path: Path, text: str) -> Brief:
    path = tmp_path / "towels.toml"
    path.write_text(text, encoding="utf-8")
    values, where = read_brief(path)
    return Brief.of(values, where)


def test_the_model_has_a_field_for_every_option() -> None:
    aliases = {field.alias for field in Brief.model_fields.values()}
    assert aliases - {"photo", "palette", "stripes", "like", "cloth"} == set(OPTIONS)


def test_every_default_that_is_a_guess_says_where_it_comes_from() -> None:
    guesses = ("shrinkage", "draw-in", "take-up", "loom-waste", "tail", "allowance", "fringe")
    assert all(OPTIONS[key].label for key in guesses)


def test_a_brief_of_nothing_is_a_scarf() -> None:
    brief = Brief.of({})
    assert (brief.length.mm, brief.width.mm, brief.colours) == (1800.0, 250.0, 8)
    assert brief.unit_system is Units.METRIC


@pytest.mark.parametrize(
    ("asked", "units"),
    [
        ({"length": "72 in"}, Units.IMPERIAL),
        ({"picks": "20/in"}, Units.IMPERIAL),
        ({"length": "180cm", "picks": "20/in"}, Units.METRIC),
        ({"length": "72 in", "units": "metric"}, Units.METRIC),
        ({"colours": 5}, Units.METRIC),
    ],
)
def test_units_follow_what_was_typed(asked: dict[str, object], units: Units) -> None:
    assert Brief.of(asked).unit_system is units


def test_shrinkage_each_way_wins_over_both_ways() -> None:
    brief = Brief.of({"shrinkage": "8%", "shrinkage-width": "12%"})
    assert (brief.shrinkage_along, brief.shrinkage_across) == (0.08, 0.12)


@pytest.mark.parametrize(
    ("asked", "error", "said"),
    [
        ({"length": "180"}, UnitError, r"length: must carry a unit; got '180'"),
        ({"length": "0cm"}, UnitError, "length: must be more than 0; got '0cm'"),
        ({"length": "-3 m"}, UnitError, "length: must be 0 or more, and finite; got '-3 m'"),
        ({"length": "nan cm"}, UnitError, "length: must be 0 or more, and finite"),
        ({"picks": "8"}, UnitError, "picks: must carry a unit; got '8'"),
        ({"weft": "8/2"}, CountError, "weft: must name its system; got '8/2'"),
        ({"take-up": "8"}, UnitError, "take-up: must be a percentage; got '8'"),
        ({"take-up": "100%"}, UnitError, "take-up: must be from 0 % to under 100 %"),
        ({"length": 180}, UnitError, "length: must be text with a unit; got 180. Write it like"),
        ({"colours": 0}, BriefError, "colours: must be a whole number from 1 to 64, or auto; got"),
        ({"colours": "eight"}, BriefError, "colours: must be a whole number from 1 to 64, or auto"),
        ({"step": "2"}, BriefError, "step: must be a whole number; got '2'"),
        ({"step": 0}, BriefError, "step: must be at least 1; got 0"),
        ({"seed": -1}, BriefError, "seed: must be at least 0; got -1"),
        ({"keep": 3}, BriefError, "keep: must be a list of texts; got 3"),
        ({"photo": 3}, BriefError, "photo: must be a list of texts; got 3"),
        ({"name": 3}, BriefError, "name: must be text, in quotes; got 3"),
        ({"lenght": "1m"}, BriefError, "lenght: is not a key of a brief; .*Did you mean length?"),
        ({"xyzzy": 1}, BriefError, "xyzzy: is not a key of a brief.*leafweft plan --help"),
        ({"paper": "A3"}, BriefError, "paper: must be 'A4' or 'Letter'; got 'A3'"),
    ],
)
def test_a_wrong_value_is_refused(
    asked: dict[str, object], error: type[LeafweftError], said: str
) -> None:
    with pytest.raises(error, match=said):
        Brief.of(asked)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('name = "a"\n\nlength = "180"\n', r"towels\.toml, line 3, length: must carry a unit"),
        ('name = "a"\nlenght = "1m"\n', r"towels\.toml, line 2, lenght: is not a key of a brief"),
        ("step = 2.5\n", r"towels\.toml, line 1, step: must be a whole number; got 2\.5"),
        ("length = 180\n", r"towels\.toml, line 1, length: "),
        ("length =\n", r"must be TOML; got .*line 1"),
    ],
)
def test_a_wrong_line_is_named(tmp_path: Path, text: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        brief_of(tmp_path, text)


def test_a_missing_brief_is_a_file_error(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="must be a text file that can be read; got nothing"):
        read_brief(tmp_path / "none.toml")


def test_bytes_that_are_no_text_are_a_file_error(tmp_path: Path) -> None:
    path = tmp_path / "brief.toml"
    path.write_bytes(b"\xff\xfe\x00")
    with pytest.raises(FileError, match="bytes that are no text"):
        read_brief(path)


def test_a_brief_survives_its_file(tmp_path: Path) -> None:
    brief = Brief.of(
        {"length": "2 1/2 yd", "shrinkage": "12.5%", "keep": ["#aabbcc"], "shuttles": 3, "seed": 7}
    )
    assert brief_of(tmp_path, brief_toml(brief)) == brief


SHOWN = st.characters(exclude_categories=["Cc", "Cf", "Cs", "Zl", "Zp"])


@given(st.text(SHOWN, max_size=30))
def test_any_name_survives_the_file(tmp_path_factory: pytest.TempPathFactory, name: str) -> None:
    brief = Brief.of({"name": name})
    again = brief_of(tmp_path_factory.mktemp("brief"), brief_toml(brief))
    assert again.name == (name or None) or again.name == name


def test_the_file_says_what_is_common_practice() -> None:
    assert "(common practice)\ntake-up = " in brief_toml(Brief.of({}))


def remarks(text: str) -> dict[str, str]:
    """What stands above each key."""
    lines = text.splitlines()
    pairs = itertools.pairwise(lines)
    return {line.partition(" = ")[0]: above for above, line in pairs if above.startswith("# ")}


TYPED = {
    "length": "190cm",
    "picks": "5/cm",
    "least": 2,
    "width": "40cm",
    "sett": "6/cm",
    "shrinkage": "8%",
    "draw-in": "5%",
    "take-up": "9%",
    "fringe": "12cm",
    "loom-waste": "60cm",
    "shafts": 4,
    "warp-colour": "#5d733a",
    "weft": "Nm 2/12",
    "warp": "Nm 2/12",
    "fibre": "wool",
    "weft-take-up": "2%",
    "tail": "5cm",
    "allowance": "15%",
    "step": 1,
}


def test_a_source_stands_only_beside_a_value_that_was_left_alone() -> None:
    labelled = {key for key, option in OPTIONS.items() if option.label and not option.unset}
    assert set(TYPED) == labelled
    assert all(
        remarks(brief_toml(Brief.of(TYPED)))[key] == f"# {OPTIONS[key].says}" for key in TYPED
    )
    for key in labelled:
        kept = {name: value for name, value in TYPED.items() if name != key}
        said = remarks(brief_toml(Brief.of(kept)))
        assert said[key] == f"# {OPTIONS[key].says} ({OPTIONS[key].label})"
        assert not any(said[name].endswith(")") for name in kept)


def test_the_sources_are_still_there_when_the_file_is_run_again(tmp_path: Path) -> None:
    text = brief_toml(Brief.of({"width": "40cm", "warp": "Nm 2/12"}))
    assert brief_toml(brief_of(tmp_path, text)) == text


def test_a_changed_brief_keeps_the_rest() -> None:
    brief = Brief.of({"length": "72 in", "width": "10 in"}).changed({"width": "12 in"})
    assert (brief.length.text, brief.width.text) == ("72 in", "12 in")


def test_a_carry_that_was_not_set_is_told_with_what_is_done() -> None:
    told = "1 cm, or 4 picks if that is more (common practice)"
    assert OPTIONS["carry"].help.endswith(f"else cut. Without it: {told}.")
    assert f"# carry (not set): {OPTIONS['carry'].help}\n" in brief_toml(Brief.of({}))
    assert "not set" not in brief_toml(Brief.of({"carry": "2cm"}))
