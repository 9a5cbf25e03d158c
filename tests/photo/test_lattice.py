import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from palette.photo import lattice
from palette.photo.lattice import MOST_POINTS, lattice_of
from palette.photo.photo import Photo
from palette.photo.profile import GREY


def photo_of(pixels: np.ndarray, **more) -> Photo:
    return Photo(name="x", pixels=pixels, **more)


def test_a_small_picture_has_a_point_for_every_pixel() -> None:
    pixels = np.random.default_rng(0).integers(0, 256, (70, 50, 3), dtype=np.uint8)
    brought = lattice_of(photo_of(pixels))
    assert (brought.cell, brought.kept) == (1, None)
    np.testing.assert_array_equal(np.moveaxis(brought.codes, 0, 2), pixels)


@pytest.mark.parametrize("shape", [(600, 800), (3000, 4000), (1, 2_000_000), (900, 20_000)])
def test_a_large_picture_keeps_to_the_points(shape) -> None:
    brought = lattice_of(photo_of(np.zeros((*shape, 1), dtype=np.uint8), profile=GREY))
    assert brought.codes[0].size <= MOST_POINTS or min(shape) == 1
    assert brought.codes[0].size > MOST_POINTS / 5


@settings(max_examples=40, deadline=None)
@given(st.integers(2, 60), st.integers(2, 60), st.integers(5, 4000), st.integers(0, 2**32 - 1))
def test_words_and_channels_agree(rows, columns, points, seed) -> None:
    pixels = np.random.default_rng(seed).integers(0, 256, (rows, columns, 3), dtype=np.uint8)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(lattice, "MOST_POINTS", points)
        by_words = lattice_of(photo_of(pixels))
        by_channels = lattice_of(photo_of(np.asfortranarray(pixels)))
    np.testing.assert_array_equal(by_words.codes, by_channels.codes)
    assert by_words.cell == by_channels.cell


@pytest.mark.parametrize("cell", range(2, 14))
def test_the_rows_take_pixels_from_all_over_the_cell(cell) -> None:
    places = lattice._places(cell)
    for axis in (0, 1):
        along = {place[axis] for place in places}
        assert min(along) < cell / 4
        assert max(along) >= cell * 3 / 4 - 0.5
        assert len(along) == min(cell, 5)


@pytest.mark.parametrize("period", [1, 2, 3, 4, 5, 8])
@pytest.mark.parametrize("axis", [0, 1, 2])
def test_no_stripe_hides_between_the_cells_of_a_large_picture(monkeypatch, period, axis) -> None:
    monkeypatch.setattr(lattice, "MOST_POINTS", 10_000)  # cells of 4 x 4
    rows, columns = np.indices((320, 480))
    along = (rows, columns, rows + columns)[axis]
    white = (along // period) % 2 == 0
    pixels = np.where(white[..., None], 255, 0).astype(np.uint8).repeat(3, axis=2)
    codes = lattice_of(photo_of(pixels)).codes
    assert codes.mean() / 255 == pytest.approx(white.mean(), abs=0.12)


def test_shares_of_a_large_picture(monkeypatch) -> None:
    monkeypatch.setattr(lattice, "MOST_POINTS", 20_000)
    rows, columns = np.indices((600, 800))
    disc = (rows - 200) ** 2 + (columns - 500) ** 2 < 130**2
    pixels = np.where(disc[..., None], (200, 40, 40), (60, 90, 50)).astype(np.uint8)
    codes = lattice_of(photo_of(pixels)).codes
    assert (codes[0] > 130).mean() == pytest.approx(disc.mean(), abs=2e-3)


def test_what_does_not_count_is_not_kept(monkeypatch) -> None:
    monkeypatch.setattr(lattice, "MOST_POINTS", 200)
    pixels = np.full((60, 90, 3), 250, dtype=np.uint8)
    pixels[:, :41] = 10
    kept = np.ones((60, 90), dtype=bool)
    kept[:, :41] = False
    brought = lattice_of(photo_of(pixels, kept=kept))
    assert brought.kept is not None
    assert 0 < brought.kept.mean() < 1
    assert (brought.codes[:, brought.kept] == 250).all()


def test_deep_codes_keep_their_depth() -> None:
    pixels = np.full((900, 700, 3), 30001, dtype=np.uint16)
    assert (lattice_of(photo_of(pixels)).codes == 30001).all()
