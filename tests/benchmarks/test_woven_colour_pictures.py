"""How long pictures and searches take, as ratios within one run.

pytest -m bench -s tests/benchmarks/test_woven_colour_pictures.py
"""

import io
import os
import platform
import time
from collections.abc import Callable

import numpy as np
import pytest
from PIL import Image

from palette.cloth.across_room import across_room
from palette.cloth.close_up import CloseUp, close_up
from palette.cloth.mixing_law import mix_lab
from palette.cloth.wanted import weft_to_dye
from palette.cloth.woven_colour import woven_colour
from palette.loom.warp import Warp
from palette.perception.difference import ciede2000
from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, Swatch

pytestmark = pytest.mark.bench

LABS = {"moss": (45.5, -18.4, 28.8), "rust": (44.0, 32.0, 36.0)}
HEXES = {"moss": "#5d733a", "rust": "#a3522b"}
WARP_LAB = (92.0, 0.0, 6.0)
WARP = Warp(
    ends=468,
    ends_per_cm=7.9,
    width_in_reed_mm=591.0,
    woven_width_mm=556.0,
    finished_width_mm=500.0,
    length_mm=3224.0,
    cloth_lengths_mm=(2222.0,),
    fringe_mm=150.0,
)


def whole_cloth() -> StripePlan:
    """50 cm x 2 m in stripes of ten picks."""
    stripes = [
        Stripe(colour=name, hex=HEXES[name], lab=LABS[name], picks=10, first_pick=1 + 10 * number)
        for number, name in enumerate(["moss", "rust"] * 88)
    ]
    swatches = tuple(Swatch(name=n, lab=LABS[n], hex=HEXES[n], share=0.5) for n in LABS)
    return StripePlan(
        palette=Palette(swatches=swatches),
        stripes=tuple(stripes),
        picks_per_cm=7.92,
        finished_length_mm=2000.0,
        shrinkage_length=0.1,
    )


def seconds(work: Callable[[], object], runs: int = 3) -> float:
    """Shortest of a few runs, after one that warms up."""
    times = []
    for _ in range(runs + 1):
        begin = time.perf_counter()
        work()
        times.append(time.perf_counter() - begin)
    return min(times[1:])


def report(name: str, ours: float, baseline: str, theirs: float) -> None:
    """Print one ratio with what it is made of."""
    print(f"\n{name}: {ours:.3f} s, {baseline}: {theirs:.3f} s, ratio {ours / theirs:.2f}")


@pytest.fixture(scope="module", autouse=True)
def machine() -> None:
    """Say what the figures were measured on."""
    print(f"\n{platform.platform()}, Python {platform.python_version()}, {os.cpu_count()} cores")


def packed(pixels: np.ndarray) -> bytes:
    """The picture as PNG."""
    stream = io.BytesIO()
    Image.fromarray(pixels).save(stream, "png")
    return stream.getvalue()


def test_whole_cloth_against_packing_it() -> None:
    cloth = whole_cloth()
    pixels = across_room(cloth, WARP, WARP_LAB, pixels_per_cm=12)
    assert pixels.shape[0] > 2400
    ours = seconds(lambda: across_room(cloth, WARP, WARP_LAB, pixels_per_cm=12))
    report(
        "50 cm x 2 m at 12 pixels to the cm",
        ours,
        "Pillow packs it",
        seconds(lambda: packed(pixels)),
    )


def test_close_up_against_packing_it() -> None:
    cloth, view = whole_cloth(), CloseUp(width_mm=100, height_mm=100)
    arguments = {"warp_tex": 148.0, "weft_tex": 148.0, "view": view}
    pixels = close_up(cloth, WARP, WARP_LAB, **arguments)
    assert pixels.shape == (1181, 1181, 3)
    ours = seconds(lambda: close_up(cloth, WARP, WARP_LAB, **arguments))
    theirs = seconds(lambda: packed(pixels))
    report("10 x 10 cm close up, 300 dpi", ours, "Pillow packs it", theirs)


def test_prediction_against_the_law_alone() -> None:
    labs = np.random.default_rng(0).uniform((20, -40, -40), (90, 40, 40), (2000, 3))
    assert woven_colour(WARP_LAB, labs).shape == (2000, 3)
    ours = seconds(lambda: woven_colour(WARP_LAB, labs))
    theirs = seconds(lambda: mix_lab(np.array([WARP_LAB]), labs, np.array([0.5])))
    report("2000 cloths predicted", ours, "by the mixing law alone", theirs)


def test_search_against_trying_every_code() -> None:
    wanted = (62.0, 6.0, 18.0)
    assert weft_to_dye(wanted, WARP_LAB).reached
    codes = np.random.default_rng(0).uniform((16, -60, -60), (94, 60, 60), (32**3, 3))
    ours = seconds(lambda: weft_to_dye(wanted, WARP_LAB))
    theirs = seconds(lambda: ciede2000(woven_colour(WARP_LAB, codes), wanted).argmin(), runs=1)
    report("the weft for a wanted cloth", ours, "trying 32768 wefts", theirs)
