from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from palette.errors import InputError
from palette.plans.brief import Brief
from palette.plans.palette_contract import palette_to_json
from palette.plans.taking import palette_of, photos_of
from palette.swatches.palette import Palette


@pytest.fixture
def halves(tmp_path: Path) -> Path:
    """Green on the left, grey on the right, both under yellow light."""
    pixels = np.zeros((60, 80, 3), np.uint8)
    pixels[:, :40] = [110, 130, 30]
    pixels[:, 40:] = [190, 180, 120]
    path = tmp_path / "halves.png"
    Image.fromarray(pixels).save(path)
    return path


def test_a_palette_file_is_read(hedge: Palette, tmp_path: Path) -> None:
    path = tmp_path / "p.json"
    path.write_text(palette_to_json(hedge), encoding="utf-8")
    assert palette_of((path,), Brief.of({})) == hedge


def test_nothing_is_refused() -> None:
    with pytest.raises(InputError, match="photograph: must be given; got none"):
        palette_of((), Brief.of({}))


def test_a_palette_file_stands_alone(halves: Path) -> None:
    with pytest.raises(InputError, match="a palette file must stand alone"):
        palette_of((Path("p.json"), halves), Brief.of({}))


def test_only_the_region_counts(halves: Path) -> None:
    palette = palette_of((halves,), Brief.of({"region": "0,0,50,100"}))
    assert len(palette.swatches) == 1
    assert palette.swatches[0].hex == "#6e821e"


def test_a_neutral_place_comes_out_neutral(halves: Path) -> None:
    palette = palette_of((halves,), Brief.of({"neutral": "75,50", "colours": 2}))
    grey = max(palette.swatches, key=lambda swatch: swatch.lab[0])
    assert np.hypot(*grey.lab[1:]) < 1


def test_two_ways_to_name_the_light_are_refused(halves: Path) -> None:
    with pytest.raises(InputError, match="--light: must stand without --neutral; got both"):
        palette_of((halves,), Brief.of({"neutral": "75,50", "light": "A"}))


def test_a_left_out_colour_does_not_count(halves: Path) -> None:
    palette = palette_of((halves,), Brief.of({"leave-out": ["#bcb478"], "colours": 2}))
    assert [swatch.hex for swatch in palette.swatches] == ["#6e821e"]


def test_a_kept_colour_is_there(halves: Path) -> None:
    palette = palette_of((halves,), Brief.of({"keep": ["#112244"], "colours": 3}))
    assert "#112244" in {swatch.hex for swatch in palette.swatches}


def test_open_photographs_are_not_opened_again(halves: Path) -> None:
    brief = Brief.of({"colours": 2})
    photos = photos_of((halves,), brief)
    assert palette_of((Path("not there.png"),), brief, photos=photos) == palette_of(
        (halves,), brief
    )
