"""Speed and memory of extraction as ratios, in one run.

Run with ``pytest -m bench -s tests/benchmarks/test_palette_speed.py``. The large pictures are the
two photographs of scikit-learn enlarged, with grain, and saved as JPEG of quality 90.
"""

import io
import platform
import time
import tracemalloc
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import sklearn.datasets
from PIL import Image

from palette.photo.photo import Photo
from palette.swatches.extraction import extract
from palette.swatches.many import extract_many
from palette.swatches.workers import worker_context

pytestmark = pytest.mark.bench

IMAGES = Path(sklearn.datasets.__file__).parent / "images"
SIZES = {12: (4000, 3000), 48: (8000, 6000)}


def say(text: str) -> None:
    print(f"{platform.processor() or platform.machine()}: {text}")


@cache
def jpeg(name: str, megapixels: int) -> bytes:
    image = Image.open(IMAGES / name).resize(SIZES[megapixels], Image.LANCZOS)
    pixels = np.asarray(image).astype(np.int16)
    generator = np.random.default_rng(0)
    for top in range(0, len(pixels), 500):
        band = pixels[top : top + 500]
        band += generator.normal(0, 3, band.shape).astype(np.int16)
    file = io.BytesIO()
    Image.fromarray(pixels.clip(0, 255).astype(np.uint8)).save(file, "JPEG", quality=90)
    return file.getvalue()


def decoded(data: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


def least(task, turns: int = 9, clock=time.process_time) -> float:
    """Least processor time of several runs, in seconds: what other programs take does not count."""
    times = []
    for _ in range(turns):
        start = clock()
        task()
        times.append(clock() - start)
    return min(times)


@pytest.mark.parametrize("megapixels", [12, 48])
@pytest.mark.parametrize("name", ["flower.jpg", "china.jpg"])
def test_against_decoding(name, megapixels) -> None:
    data = jpeg(name, megapixels)
    photo = Photo(name=name, pixels=np.asarray(decoded(data)))
    extract(photo)
    ours, decode = least(lambda: extract(photo)), least(lambda: decoded(data))
    say(
        f"{name} at {megapixels} MP: {ours / decode:.2f} of Pillow's decode ({decode * 1e3:.0f} ms)"
    )


@pytest.mark.parametrize("name", ["flower.jpg", "china.jpg"])
def test_against_k_means_over_all_pixels(name) -> None:
    from skimage.color import rgb2lab
    from sklearn.cluster import KMeans

    pixels = np.asarray(decoded(jpeg(name, 12)))
    photo = Photo(name=name, pixels=pixels)
    extract(photo)
    ours = least(lambda: extract(photo))
    labs = rgb2lab(pixels).reshape(-1, 3).astype(np.float32)
    one_start = least(lambda: KMeans(8, n_init=1, random_state=0).fit(labs), 1)
    say(f"{name} at 12 MP: {one_start / ours:.0f} times faster than one start of k-means")


@pytest.mark.parametrize("megapixels", [12, 48])
def test_memory(megapixels) -> None:
    photo = Photo(name="x", pixels=np.asarray(decoded(jpeg("china.jpg", megapixels))))
    extract(photo)
    tracemalloc.start()
    extract(photo)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    ratio = (photo.pixels.nbytes + peak) / photo.pixels.nbytes
    say(f"{megapixels} MP: peak {ratio:.2f} times the decoded picture, itself among it")
    assert ratio <= 3


def test_cost_grows_no_faster_than_the_pixels() -> None:
    times = {
        side: least(lambda photo=photo: extract(photo), 5)
        for side, photo in (
            (side, Photo(name="x", pixels=np.asarray(decoded(jpeg("china.jpg", side)))))
            for side in SIZES
        )
    }
    say(f"48 MP takes {times[48] / times[12]:.2f} times as long as 12 MP")


def taken(paths) -> int:
    """How many palettes came of some photographs; at the top so that another process finds it."""
    return sum(outcome.palette is not None for outcome in extract_many(paths))


def test_two_jobs(tmp_path) -> None:
    """A folder with two jobs and with one; and what two processes bring on this machine at all.

    Two that are loaded and warm, and have nothing to tell each other, are as good as it gets:
    cores share their memory, their cache and often their arithmetic.
    """
    paths = []
    for index in range(16):
        path = tmp_path / f"{index}.jpg"
        path.write_bytes(jpeg("china.jpg", 12))
        paths.append(path)

    def folder(jobs: int) -> None:
        assert all(outcome.palette for outcome in extract_many(paths, jobs=jobs))

    with worker_context().Pool(1) as one, worker_context().Pool(2) as two:

        def apart(pool, parts: int) -> None:
            shares = [paths[part::parts] for part in range(parts)]
            assert sum(pool.map(taken, shares, 1)) == len(paths)

        apart(two, 2)
        ways = {
            "one": lambda: folder(1),
            "two": lambda: folder(2),
            "one apart": lambda: apart(one, 1),
            "two apart": lambda: apart(two, 2),
        }
        seconds = dict.fromkeys(ways, np.inf)
        for _ in range(5):
            for name, way in ways.items():
                seconds[name] = min(seconds[name], least(way, 1, time.perf_counter))
    say(
        f"--jobs 2 is {seconds['one'] / seconds['two']:.2f} times as fast as one, its processes' "
        f"start among it; two ready processes {seconds['one apart'] / seconds['two apart']:.2f}"
    )
