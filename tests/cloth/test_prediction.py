import pytest

from palette.cloth.own_samples import fit_own_yarn
from palette.cloth.prediction import GUIDE, dull_warnings, predict, woven_stripes
from palette.cloth.woven_colour import woven_colour
from palette.perception.spaces import hex_to_lab

NATURAL = (89.0, -3.0, 12.0)


def test_every_prediction_is_a_guide_with_its_error():
    woven = predict("rust", (46.0, 26.0, 47.0), NATURAL)
    assert GUIDE in woven.note
    assert f"Typical error {woven.typical_error:.1f}" in woven.note
    assert "sample" in woven.note
    assert woven.cloth_lab == pytest.approx(woven_colour(NATURAL, (46, 26, 47))[0])


def test_far_colours_say_so():
    woven = predict("neon", (88.0, -80.0, 83.0), NATURAL)
    assert woven.outside > 22
    assert f"It lies {woven.outside:.0f} outside the measured yarns" in woven.note
    assert "outside" not in predict("rust", (46.0, 26.0, 47.0), NATURAL).note


def test_faces_that_were_not_measured_say_so():
    woven = predict("rust", (46.0, 26.0, 47.0), NATURAL, 0.2)
    assert "balanced plain weave; here 20 % of the face is warp" in woven.note
    assert "balanced" not in predict("rust", (46.0, 26.0, 47.0), NATURAL, 0.45).note


def test_bright_weft_on_white_is_warned_of_with_figures():
    woven = predict("rust", (46.0, 26.0, 47.0), NATURAL)
    lost = woven.yarn_chroma - woven.cloth_chroma
    assert woven.dull
    assert f"loses {lost:.0f} of its {woven.yarn_chroma:.0f} brightness" in woven.warning
    assert f"{woven.lightness_change:.0f} lighter on the lightness scale" in woven.warning


def test_no_warning_where_the_weft_keeps_its_colour():
    assert predict("rust", (46.0, 26.0, 47.0), (46.0, 26.0, 47.0)).warning == ""
    assert predict("rust", (46.0, 26.0, 47.0), NATURAL, 0.05).warning == ""
    assert predict("grey", (50.0, 0.0, 1.0), NATURAL).warning == ""


def test_stripes_in_weaving_order(plan):
    cloth = plan([("moss", 10), ("rust", 4), ("moss", 6)])
    stripes = woven_stripes(cloth, NATURAL)
    assert [stripe.colour for stripe in stripes] == ["moss", "rust", "moss"]
    assert stripes[0] is stripes[2]
    assert stripes[1].yarn_lab == hex_to_lab("#a3522b")


def test_a_weft_is_warned_of_once(plan):
    stripes = woven_stripes(plan([("moss", 10), ("rust", 4), ("moss", 6)]), NATURAL)
    assert [text.split(":")[0] for text in dull_warnings(stripes)] == ["moss", "rust"]
    assert dull_warnings(woven_stripes(plan([("moss", 10)]), NATURAL, 0.0)) == ()


def test_own_samples_are_named_with_their_gain(measured, samples_of):
    rows = [3, 77, 140, 260, 399]
    own = fit_own_yarn(samples_of(measured, rows, (4.0, 1.0, 5.0)))
    shifted = predict("rust", (46.0, 26.0, 47.0), NATURAL, own=own)
    assert own.gain in shifted.note
    assert shifted.cloth_lab[0] > predict("rust", (46.0, 26.0, 47.0), NATURAL).cloth_lab[0] + 2
