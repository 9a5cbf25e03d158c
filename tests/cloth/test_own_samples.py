import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.cloth.own_samples import fit_own_yarn, read_own_samples
from palette.cloth.woven_colour import woven_colour
from palette.errors import InputError, TableError
from palette.perception.difference import ciede2000


@pytest.mark.parametrize("seed", range(4))
def test_five_samples_are_enough_for_a_camera_with_a_cast(measured, samples_of, seed):
    chance, cast = np.random.default_rng(seed), np.array([4.0, 1.0, 5.0])
    rows = chance.choice(np.flatnonzero(~measured.flagged), 5, replace=False)
    own = fit_own_yarn(samples_of(measured, rows, cast))
    seen = measured.cloth_lab + cast
    plain = ciede2000(woven_colour(measured.warp_lab, measured.weft_lab), seen)
    shifted = ciede2000(woven_colour(measured.warp_lab, measured.weft_lab, own=own), seen)
    others = np.setdiff1d(np.arange(len(seen)), rows)
    assert shifted[others].mean() < 0.6 * plain[others].mean()
    assert own.helps
    assert own.after < own.before
    assert f"falls from {own.before:.1f} to {own.after:.1f}" in own.gain


def test_where_the_samples_do_not_help_the_shift_is_not_used(measured, samples_of):
    # Each sample off in a way that the others know nothing of.
    rows = np.flatnonzero(~measured.flagged)[[0, 60, 130, 200, 300, 420]]
    signs = np.array([1, -1, 1, -1, 1, -1])
    samples = [
        samples_of(measured, [row], (6.0 * sign, -5.0 * sign, 4.0 * sign))[0]
        for row, sign in zip(rows, signs, strict=True)
    ]
    own = fit_own_yarn(tuple(samples))
    assert not own.helps
    assert own.after >= own.before
    assert "predicted no better with a shift" in own.warnings[0]
    assert "would go from" in own.gain
    plain = woven_colour(measured.warp_lab, measured.weft_lab)
    assert np.array_equal(plain, woven_colour(measured.warp_lab, measured.weft_lab, own=own))


def test_a_shifted_model_is_still_symmetric(measured, samples_of):
    own = fit_own_yarn(samples_of(measured, [3, 77, 140, 260, 399], (3.0, 2.0, -4.0)))
    assert own.helps
    warp, weft = measured.warp_lab, measured.weft_lab
    there, back = woven_colour(warp, weft, own=own), woven_colour(weft, warp, own=own)
    assert there == pytest.approx(back, abs=1e-9)


@settings(max_examples=10)
@given(st.permutations(list(range(6))))
def test_the_order_of_the_samples_changes_nothing(measured, samples_of, order):
    rows = np.array([3, 77, 140, 260, 399, 450])
    first = fit_own_yarn(samples_of(measured, rows, (3.0, 2.0, -4.0)))
    second = fit_own_yarn(samples_of(measured, rows[order], (3.0, 2.0, -4.0)))
    assert first.after == pytest.approx(second.after)


def test_too_few_samples(measured, samples_of):
    message = r"own samples: must be at least 5: fewer cannot show whether a shift helps; got 4"
    with pytest.raises(InputError, match=message):
        fit_own_yarn(samples_of(measured, [1, 50, 200, 300]))


def test_samples_all_alike(measured, samples_of):
    message = r"must be of at least 3 different pairs of warp and weft; got 1"
    with pytest.raises(InputError, match=message):
        fit_own_yarn(samples_of(measured, [1] * 5))


def test_reading_hex_lab_and_shares(tmp_path):
    path = tmp_path / "mine.csv"
    path.write_text(
        "# woven in May\nWarp,weft,cloth,warp_share,note\n#ffffff,40 20 10,70 5 8,,first\n"
        '"90, 0, 5",#336699,#a0b0c0,30%,second\n',
        "utf-8-sig",
    )
    first, second = read_own_samples(path)
    assert first.warp_lab == pytest.approx((100, 0, 0), abs=0.01)
    assert (first.weft_lab, first.warp_share) == ((40, 20, 10), 0.5)
    assert (second.warp_lab, second.warp_share) == ((90, 0, 5), 0.3)


def test_reading_with_semicolons(tmp_path):
    path = tmp_path / "mine.csv"
    path.write_text("warp;weft;cloth\n#ffffff;#336699;70 5 8\n", "utf-8")
    assert read_own_samples(path)[0].cloth_lab == (70, 5, 8)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "warp,weft\n#fff000,#000000\n",
            r"must have the columns warp, weft and cloth; got warp, w",
        ),
        ("", r"must have the columns warp, weft and cloth; got nothing"),
        ("warp,weft,cloth\n#ffffff,#000000,\n", r"samples mine.csv, row 1, cloth: .*; got ''"),
        ("warp,weft,cloth,warp_share\n#ffffff,#000000,#808080,half\n", r"row 1: .* got 'half'"),
        ("warp,weft,cloth,warp_share\n#ffffff,#000000,#808080,130%\n", r"from 0 to 1; got 1.3"),
        ("warp,weft,cloth,warp_share\n#ffffff,#000000,#808080,nan\n", r"from 0 to 1; got nan"),
    ],
)
def test_bad_tables(tmp_path, text, message):
    path = tmp_path / "mine.csv"
    path.write_text(text, "utf-8")
    with pytest.raises(TableError, match=message):
        read_own_samples(path)


def test_a_file_that_is_not_there(tmp_path):
    said = r"samples none.csv: must be a file that can be read; got nothing by that name"
    with pytest.raises(TableError, match=said):
        read_own_samples(tmp_path / "none.csv")
