"""Pictures of other things are refused, striped cloths are not."""

from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from skimage import data

from palette.errors import PhotoError
from palette.photo.photo import Photo
from palette.photo.reading import read_photo
from palette.stripes.reading import read_cloth
from palette.stripes.reading_refusal import check_read
from palette.stripes.reading_values import ReadStripe

SAMPLES = Path(__file__).parents[2] / "sample_images"
REFUSED = r"must show a cloth with stripes from side to side; got colours that change along the"


@pytest.mark.parametrize("name", ["spring-hedge-bank.jpg", "autumn-hedge-bank.jpg"])
def test_foliage_is_no_striped_cloth(name: str) -> None:
    with pytest.raises(PhotoError, match=rf"{name}: {REFUSED}"):
        read_cloth(read_photo(SAMPLES / name))


@pytest.mark.parametrize("name", ["coffee", "astronaut", "chelsea"])
def test_nor_are_people_cats_and_cups(name: str) -> None:
    pixels: NDArray[np.uint8] = getattr(data, name)()
    with pytest.raises(PhotoError, match=REFUSED):
        read_cloth(Photo(name=name, pixels=pixels))


def test_bands_across_a_striped_warp_are_read() -> None:
    rng = np.random.default_rng(3)
    weft = np.repeat(rng.permutation([40, 90, 150, 60, 110, 70, 130, 50]), 40)[:, None, None]
    warp = np.repeat(rng.permutation([30, 45, 60, 35, 50]), 80)[None, :, None]
    picture = weft + warp + rng.normal(0, 2.5, (320, 400, 3))
    photo = Photo(name="check.png", pixels=picture.clip(0, 255).astype(np.uint8))
    assert len(read_cloth(photo, upright=False).stripes) >= 7  # two are nearly alike


def _stripes(colours: int, unsure: int, count: int = 12) -> tuple[ReadStripe, ...]:
    return tuple(
        ReadStripe(
            colour=f"yarn {k % colours}",
            hex="#808080",
            lab=(53.6, 0.0, 0.0),
            share=1 / count,
            doubt="is not one even colour" if k < unsure else "",
        )
        for k in range(count)
    )


def test_many_colours_and_hardly_one_sure_is_no_cloth() -> None:
    match = r"flower\.jpg: must show a cloth .*; got 12 bands in 10 colours, 9 of them unsure\. Giv"
    with pytest.raises(PhotoError, match=match):
        check_read(_stripes(10, 9), thing="flower.jpg")


@pytest.mark.parametrize(("colours", "unsure", "count"), [(10, 3, 12), (4, 12, 12), (6, 6, 6)])
def test_a_cloth_may_be_unsure_or_colourful(colours: int, unsure: int, count: int) -> None:
    stripes = _stripes(colours, unsure, count)
    assert check_read(stripes, thing="cloth.jpg") == stripes
