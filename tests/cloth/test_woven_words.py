"""How far the cloth is from its yarn, in words."""

from dataclasses import replace

from palette.cloth.prediction import SHIFT, predict
from palette.cloth.woven_words import part_lost_words, woven_words

NATURAL = (89.0, -3.0, 12.0)
RUST = (46.0, 26.0, 47.0)


def test_the_note_and_the_table_have_the_same_figure() -> None:
    rust = predict("rust", RUST, NATURAL)
    lost = 100 * (rust.yarn_chroma - rust.cloth_chroma) / rust.yarn_chroma
    assert part_lost_words(rust) == f"{lost:.0f} %"
    assert woven_words([rust, rust])[0] == (
        "Across this warp the cloth will be duller than the yarn. Of their brightness of colour "
        f"are lost: rust {lost:.0f} %. leafweft cloth shows it, and which weft to dye instead."
    )
    assert f"({lost:.0f} %)" in rust.warning


def test_a_grey_and_a_colour_that_gains_have_no_loss() -> None:
    grey = predict("grey", (50.0, 0.0, 1.0), NATURAL)
    assert (grey.part_lost, part_lost_words(grey)) == (0.0, "")
    pale = replace(predict("pale", (80.0, 6.0, 6.0), NATURAL), cloth_lab=(80.0, 20.0, 20.0))
    assert pale.chroma_lost < 0
    assert (pale.part_lost, part_lost_words(pale)) == (0.0, "")


def test_a_dark_weft_on_white_is_said_to_come_out_lighter() -> None:
    """From near black to mid grey: three and a half steps of Munsell value."""
    charcoal = predict("charcoal", (14.9, -9.6, 5.6), (93.4, -0.3, 4.9))
    assert charcoal.shifted
    assert not charcoal.dull
    assert woven_words([charcoal]) == (
        "Across this warp these will be much lighter than the yarn, from 0 for black to 100 for "
        f"white: charcoal from 15 to {charcoal.cloth_lab[0]:.0f}.",
    )


def test_a_pale_weft_on_black_is_said_to_come_out_darker() -> None:
    chalk = predict("chalk", (92.0, 0.0, 5.0), (15.0, 0.0, 0.0))
    (said,) = woven_words([chalk])
    assert "much darker than the yarn" in said
    assert f"chalk from 92 to {chalk.cloth_lab[0]:.0f}." in said


def test_what_hardly_changes_is_not_named() -> None:
    assert woven_words([predict("rust", RUST, RUST)]) == ()
    almost = predict("rust", RUST, NATURAL)
    moved = (46.0 + SHIFT - 0.1, *almost.yarn_lab[1:])
    assert woven_words([replace(almost, cloth_lab=moved)]) == ()
