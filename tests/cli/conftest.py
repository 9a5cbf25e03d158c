"""What the tests of the command line share: one way to run it, and a small photograph."""

import io
import sys
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from cli import main


@dataclass(frozen=True)
class Done:
    """What a command left behind."""

    code: int
    out: str
    err: str


@pytest.fixture
def leafweft(
    monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str], tmp_path: Path
) -> Callable[..., Done]:
    """Run the program in this process, in an empty folder, as the installed command would."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "120")

    def run(*words: str | Path) -> Done:
        monkeypatch.setattr(sys, "argv", ["leafweft", *map(str, words)])
        capfd.readouterr()
        try:
            main.run()
            code = 0
        except SystemExit as ended:
            code = ended.code if isinstance(ended.code, int) else int(bool(ended.code))
        out, err = capfd.readouterr()
        return Done(code, out, err)

    return run


@pytest.fixture(scope="session")
def bank(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A photograph of bands: sky, leaf, moss, earth and a few flowers."""
    rng = np.random.default_rng(3)
    colours = np.array([[196, 214, 226], [122, 158, 62], [74, 96, 44], [92, 70, 50]])
    rows = np.repeat(colours, 60, axis=0)
    pixels = np.repeat(rows[:, None], 320, axis=1).astype(float)
    pixels[150:160, 40:70] = [214, 60, 120]
    pixels += rng.normal(0, 4, pixels.shape)
    path = tmp_path_factory.mktemp("photos") / "bank.png"
    Image.fromarray(pixels.clip(0, 255).astype(np.uint8)).save(path)
    return path


def quietly(*words: str | Path) -> Done:
    """Run the program in this process for a fixture that lasts the session."""
    out, err = io.StringIO(), io.StringIO()
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(out), redirect_stderr(err):
        patch.setenv("COLUMNS", "120")
        patch.setattr(sys, "argv", ["leafweft", *map(str, words)])
        main.run()
    return Done(0, out.getvalue(), err.getvalue())


@pytest.fixture(scope="session")
def plan_file(bank: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A plan file made from the photograph."""
    path = tmp_path_factory.mktemp("plans") / "bank-plan.json"
    quietly("stripes", bank, "--colours", "5", "--out", path)
    return path


@pytest.fixture(scope="session")
def small_plan(plan_file: Path) -> Path:
    """A small cloth in the same colours: pictures of it are soon drawn."""
    path = plan_file.with_name("small-plan.json")
    quietly("stripes", plan_file, "--length", "30cm", "--width", "12cm", "--out", path)
    return path


@pytest.fixture(scope="session")
def made_scarf(bank: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Done]:
    """The folder of a plan made from the photograph, and what was said; not to be changed."""
    folder = tmp_path_factory.mktemp("folders") / "scarf"
    return folder, quietly("plan", bank, "--out", folder)
