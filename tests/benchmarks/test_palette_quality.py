"""Palettes against k-means over every pixel, side by side in one run.

Run with ``pytest -m bench -s tests/benchmarks/test_palette_quality.py``. The pictures are the two
photographs of scikit-learn, four of scikit-image, and the rendered samples of this project,
brought to at most 700 pixels so that k-means over all pixels ends within minutes.
"""

import io
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import skimage
import sklearn.datasets
from PIL import Image

from palette.perception.device import codes_to_lab
from palette.perception.difference import ciede2000
from palette.perception.spaces import srgb8_to_lab
from palette.photo.photo import Photo
from palette.photo.reading import read_photo
from palette.swatches.extraction import extract

pytestmark = pytest.mark.bench

LEARN = Path(sklearn.datasets.__file__).parent / "images"
SKIMAGE = Path(skimage.__file__).parent / "data"
SAMPLES = Path(__file__).parents[2] / "sample_images"
PICTURES = [
    LEARN / "flower.jpg",
    LEARN / "china.jpg",
    *(SKIMAGE / name for name in ("coffee.png", "astronaut.png", "chelsea.png", "rocket.jpg")),
    *sorted(SAMPLES.glob("*.jpg")),
]
COLOURS = 8
PLANTINGS = 20
LONGEST = 700


@cache
def photo_of(path: Path) -> Photo:
    photo = read_photo(path)
    step = -(-max(photo.width_px, photo.height_px) // LONGEST)
    pixels = np.ascontiguousarray(photo.pixels[::step, ::step])
    return Photo(name=photo.name, pixels=pixels, profile=photo.profile)


@cache
def labs_of(path: Path) -> np.ndarray:
    photo = photo_of(path)
    return codes_to_lab(photo.profile, photo.pixels.reshape(-1, 3) / photo.top_code)


@cache
def k_means(path: Path) -> np.ndarray:
    from sklearn.cluster import KMeans

    return KMeans(COLOURS, n_init=10, random_state=0).fit(labs_of(path)).cluster_centers_


def differences(labs: np.ndarray, swatches: np.ndarray) -> np.ndarray:
    return np.concatenate(
        [
            ciede2000(labs[i : i + 100_000, None], swatches[None])
            for i in range(0, len(labs), 100_000)
        ]
    )


def of(photo: Photo, pixels: np.ndarray, **settings):
    other = Photo(name=photo.name, pixels=np.ascontiguousarray(pixels), profile=photo.profile)
    return extract(other, COLOURS, **settings)


def say(path: Path, text: str) -> None:
    print(f"{path.name:22s} {text}")


@pytest.mark.parametrize("path", PICTURES, ids=lambda path: path.stem)
def test_mean_difference_and_clean_colours(path) -> None:
    palette = extract(photo_of(path), COLOURS)
    labs = labs_of(path)
    ours = differences(labs, np.array([swatch.lab for swatch in palette.swatches]))
    theirs = differences(labs, k_means(path)[: len(palette.swatches)])
    ratio = ours.min(axis=1).mean() / differences(labs, k_means(path)).min(axis=1).mean()
    masses = [not swatch.accent for swatch in palette.swatches]
    unclean = int(((ours <= 4).mean(axis=0) < 0.005)[masses].sum())
    greyed = int(((theirs <= 4).mean(axis=0) < 0.005).sum())
    say(
        path,
        f"{len(palette.swatches)} swatches, {len(masses) - sum(masses)} of them accents; mean "
        f"CIEDE2000 {ratio:.3f} of k-means; unclean {unclean}, of k-means {greyed}",
    )
    assert ratio <= 1.10
    assert unclean == 0


@pytest.mark.parametrize("path", PICTURES, ids=lambda path: path.stem)
def test_steady(path) -> None:
    photo = photo_of(path)
    pixels = photo.pixels
    rows, columns = pixels.shape[0] // 50, pixels.shape[1] // 50
    image = Image.fromarray(pixels)
    file = io.BytesIO()
    image.save(file, "JPEG", quality=70)
    variants = {
        "half size": np.asarray(image.resize((image.width // 2, image.height // 2), Image.LANCZOS)),
        "quality 70": np.asarray(Image.open(file)),
        "crop": pixels[rows:-rows, columns:-columns],
    }
    before = extract(photo, COLOURS)
    moved = {}
    for name, changed in variants.items():
        labs = [swatch.lab for swatch in of(photo, changed).swatches]
        moved[name] = [
            float(ciede2000(s.lab, labs).min()) for s in before.swatches if s.share >= 0.05
        ]
    say(
        path,
        "; ".join(
            f"{n}: most {max(m):.1f}, {sum(v > 2 for v in m)} of {len(m)} over 2"
            for n, m in moved.items()
        ),
    )
    assert extract(photo, COLOURS) == before  # there is no chance in it


def foreign(labs: np.ndarray, generator: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Colour that next to nothing in the picture is within CIEDE2000 15 of."""
    some = labs[generator.integers(0, len(labs), 4000)]
    while True:
        code = generator.integers(0, 256, 3)
        lab = srgb8_to_lab(code)
        if (ciede2000(some, lab) < 15).mean() <= 0.0005:
            return code, lab


def ellipse(shape: tuple[int, int], area: float, generator: np.random.Generator) -> np.ndarray:
    rows, columns = shape
    size = area * rows * columns / np.pi
    high = np.sqrt(size * generator.uniform(0.5, 2))
    wide = size / high
    down = generator.uniform(high, rows - high)
    across = generator.uniform(wide, columns - wide)
    y, x = np.ogrid[:rows, :columns]
    return ((y - down) / high) ** 2 + ((x - across) / wide) ** 2 <= 1


@pytest.mark.parametrize("path", PICTURES, ids=lambda path: path.stem)
def test_accents(path) -> None:
    photo = photo_of(path)
    if photo.profile.kind != "srgb":
        pytest.skip("planted colours are sRGB")
    generator = np.random.default_rng(11)
    plain = sum(swatch.accent for swatch in extract(photo, COLOURS).swatches)
    found = invented = other = 0
    for turn in range(PLANTINGS):
        code, lab = foreign(labs_of(path), generator)
        area = generator.uniform(0.0015, 0.01)
        planted = photo.pixels.copy()
        patch = ellipse(planted.shape[:2], area, generator)
        planted[patch] = np.clip(code + generator.normal(0, 2, (patch.sum(), 3)), 0, 255)
        palette = of(photo, planted)
        found += any(s.accent and ciede2000(s.lab, lab) <= 6 for s in palette.swatches)
        speckled = photo.pixels.copy()
        blob = 1 + turn % 3
        dots = generator.random((-(-planted.shape[0] // blob), -(-planted.shape[1] // blob))) < area
        dots = dots.repeat(blob, axis=0).repeat(blob, axis=1)[
            : planted.shape[0], : planted.shape[1]
        ]
        speckled[dots] = code
        accents = [s for s in of(photo, speckled).swatches if s.accent]
        made = any(ciede2000(s.lab, lab) <= 10 for s in accents)
        invented += made
        other += len(accents) > plain and not made
    say(
        path,
        f"{found} of {PLANTINGS} planted accents found; with speckle, {invented} made an "
        f"accent of it, and {other} found one more of the picture's own",
    )
    assert found >= 0.95 * PLANTINGS
    assert invented <= 0.05 * PLANTINGS
