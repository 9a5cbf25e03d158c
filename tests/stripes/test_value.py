import pytest

from palette.stripes.plan import StripePlan
from palette.stripes.value import value_notes
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette, Swatch

GREY = Palette(swatches=(Swatch(name="g", lab=(50.0, 0.0, 0.0), hex="#777777", share=1.0),))


def plan_of(*colours: tuple[str, float], role: str = "stripe") -> StripePlan:
    pieces = [Piece(Weft(name, "#777777", (L, 20.0, 0.0)), 10, role) for name, L in colours]
    return StripePlan(
        palette=GREY, stripes=number_picks(pieces), picks_per_cm=8, finished_length_mm=50
    )


def test_near_values_are_pointed_out_once_with_figures() -> None:
    notes = value_notes(plan_of(("plum", 42.0), ("moss", 45.5), ("plum", 42.0), ("straw", 70.0)))
    assert [note.sentence for note in notes] == [
        "moss and plum lie side by side 2 times and differ by 3.5 in lightness (L*), 3.5 in "
        "colour: from some way off they will read as one stripe."
    ]
    assert notes[0].places == (1, 2)


def test_strong_contrast_is_pointed_out() -> None:
    (note,) = value_notes(plan_of(("white", 95.0), ("bark", 30.0)))
    assert note.kind == "strong"
    assert note.sentence == (
        "white and bark lie side by side 1 time and differ by 65.0 in lightness (L*): a contrast "
        "this strong will swallow the weave's own pattern."
    )


def test_thresholds_can_be_set_and_soft_changes_are_left_out() -> None:
    colours = (("a", 50.0), ("b", 60.0))
    assert value_notes(plan_of(*colours)) == ()
    assert value_notes(plan_of(*colours), near=10)[0].kind == "near"
    assert value_notes(plan_of(*colours), strong=10)[0].kind == "strong"
    assert value_notes(plan_of(*colours, role="blend"), near=10) == ()


@pytest.mark.parametrize("role", ["hem", "border"])
def test_hems_and_borders_count_as_neighbours(role: str) -> None:
    assert len(value_notes(plan_of(("a", 50.0), ("b", 51.0), role=role))) == 1


def test_neighbours_of_one_lightness_and_two_hues_have_a_soft_edge() -> None:
    from palette.stripes.value import ValueNote

    note = ValueNote(
        colours=("leaf", "plum"),
        kind="near",
        lightness_difference=1.2,
        colour_difference=70.4,
        places=(1,),
    )
    assert "the edge between them will be soft" in note.sentence
    assert "read as one" not in note.sentence
