"""How long the program takes to start and to do the whole job, as ratios within one run.

pytest -m bench -s tests/benchmarks/test_program.py
"""

import os
import platform
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

pytestmark = pytest.mark.bench

HELLO = """
import typer
app = typer.Typer()
@app.command()
def hello(name: str = "world", *, loud: bool = False) -> None:
    "Say hello."
    print(f"Hello {name}")
app()
"""
# What the job cannot do without, as it loads them: pictures, clustering, differences, PDF, files.
LIBRARIES = (
    "import numpy, PIL.Image, PIL.ImageCms, PIL.JpegImagePlugin, pi_heif, colour, "
    "scipy.optimize, scipy.ndimage, matplotlib.figure, matplotlib.backends.backend_agg, "
    "matplotlib.backends.backend_pdf, jinja2, typer; from pydantic import BaseModel, TypeAdapter"
)
RUNS = 7


def seconds(command: list[str]) -> float:
    """Shortest of a few runs, after one that warms the disk."""
    times = []
    for _ in range(RUNS + 1):
        begin = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True)
        times.append(time.perf_counter() - begin)
    return min(times[1:])


def program() -> str:
    """The installed command beside this interpreter."""
    return str(Path(sys.executable).with_name("leafweft"))


def report(name: str, ours: float, baseline: str, theirs: float) -> float:
    """Print one ratio with what it is made of."""
    ratio = ours / theirs
    print(f"\n{name}: {ours:.3f} s, {baseline}: {theirs:.3f} s, ratio {ratio:.2f}")
    return ratio


@pytest.fixture(scope="module", autouse=True)
def machine() -> None:
    """Say what the figures were measured on."""
    print(f"\n{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")


@pytest.fixture(scope="module")
def photograph(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A JPEG of 12 megapixels: soft shapes with grain, as a phone saves it."""
    rng = np.random.default_rng(1)
    coarse = rng.integers(20, 230, (30, 40, 3), dtype=np.uint8)
    picture = Image.fromarray(coarse).resize((4000, 3000), Image.Resampling.BICUBIC)
    grain = rng.normal(0, 5, (3000, 4000, 1))
    pixels = (np.asarray(picture) + grain).clip(0, 255).astype(np.uint8)
    path = tmp_path_factory.mktemp("photo") / "twelve.jpg"
    Image.fromarray(pixels).save(path, quality=92)
    return path


def test_help_against_a_hello_world(tmp_path: Path) -> None:
    script = tmp_path / "hello.py"
    script.write_text(HELLO, encoding="utf-8")
    ours = seconds([program(), "--help"])
    theirs = seconds([sys.executable, str(script), "--help"])
    assert report("leafweft --help", ours, "hello world --help", theirs) > 0


@pytest.mark.parametrize("name", ["spring-hedge-bank.jpg", "twelve"])
def test_whole_job_against_its_imports(name: str, photograph: Path, tmp_path: Path) -> None:
    sample = Path(__file__).parents[2] / "sample_images" / name
    picture = photograph if name == "twelve" else sample
    folder = tmp_path / "scarf"
    ours = seconds([program(), "plan", str(picture), "--out", str(folder), "--force"])
    theirs = seconds([sys.executable, "-c", LIBRARIES])
    assert report(f"leafweft plan {picture.name}", ours, "bare imports", theirs) > 0
    assert (folder / "sheet.pdf").is_file()


def peak_of_child(command: list[str]) -> int:
    """Peak resident memory of a command, started by a small process so that it inherits none."""
    code = (
        f"import resource, subprocess; subprocess.run({command!r}, check=True, capture_output=True)"
        "; print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)"
    )
    return int(subprocess.run([sys.executable, "-c", code], check=True, capture_output=True).stdout)


def test_peak_memory_of_the_whole_job(photograph: Path, tmp_path: Path) -> None:
    job = [program(), "plan", str(photograph), "--out", str(tmp_path / "scarf")]
    ours, theirs = peak_of_child(job), peak_of_child([sys.executable, "-c", LIBRARIES])
    unit = 1024 if sys.platform == "linux" else 1
    decoded = 12_000_000 * 3
    extra = (ours - theirs) * unit
    print(f"\npeak {ours * unit / 2**20:.0f} MB, bare imports {theirs * unit / 2**20:.0f} MB,")
    assert ours > theirs
    print(f"the rest is {extra / decoded:.1f} times the decoded picture")
