"""How often a cloth is read right: 20 renderings of every kind, and the time against the picture's.

Run with ``pytest -m bench -s tests/benchmarks/test_reading_hits.py``. Right means: the sequence
of yarns is the true one, and every width is within one pick or 3 per cent.
"""

import io
import time
from dataclasses import replace

import pytest
from PIL import Image

from palette.stripes.reading import read_cloth
from tests.stripes.rendered_cloth import Setting, render, verdict

pytestmark = pytest.mark.bench

BASE = Setting()
KINDS = {
    "as it comes": BASE,
    "twill": replace(BASE, weave="twill"),
    "warp showing": replace(BASE, warp_share=0.3),
    "near in lightness": replace(BASE, colours="near lightness"),
    "near in hue": replace(BASE, colours="near hue"),
    "dark": replace(BASE, colours="dark"),
    "pale": replace(BASE, colours="pale"),
    "narrow stripes": replace(BASE, picks=(2, 4), stripes=(40, 60)),
    "noise and blur": replace(BASE, noise=6, blur_px=1.6, jpeg=70),
    "perspective": replace(BASE, perspective=0.03),
    "ground": replace(BASE, margin=0.07),
    "ground and fringe": replace(BASE, margin=0.08, fringe=True),
    "upright stripes": replace(BASE, margin=0.06, upright=False),
}


@pytest.mark.parametrize("kind", KINDS)
def test_hits_of_twenty(kind):
    results = [verdict(render(5000 + seed, KINDS[kind])) for seed in range(20)]
    hits = sum(good for good, _ in results)
    print(f"\n{kind}: {hits} of 20", *(note for good, note in results if not good), sep="\n  ")
    assert hits >= 15


def test_time_against_decoding():
    cloth = render(1, BASE)
    store = io.BytesIO()
    Image.fromarray(cloth.pixels).save(store, format="JPEG", quality=90)
    start = time.perf_counter()
    Image.open(io.BytesIO(store.getvalue())).convert("RGB").load()
    decoded = time.perf_counter() - start
    start = time.perf_counter()
    reading = read_cloth(cloth.photo())
    taken = time.perf_counter() - start
    print(f"\nreading {taken:.2f} s, {taken / decoded:.0f} times the decoding of the same JPEG")
    assert len(reading.stripes) == len(cloth.sequence)
