"""The README's commands run as they stand, and make what it says they make."""

import os
import re
import shlex
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```bash ?(\w*)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)


def commands() -> list[str]:
    """Commands of the tour in order, lines joined at a backslash."""
    text = "\n".join(body for label, body in BLOCKS if label == "tour")
    lines = text.replace("\\\n", " ").splitlines()
    return [line for line in lines if line.strip() and not line.startswith("#")]


def labelled(label: str) -> str:
    """The one block with this label."""
    (body,) = (body for name, body in BLOCKS if name == label)
    return body


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder as the reader has it: the sample images, and nothing else."""
    folder = tmp_path_factory.mktemp("desk")
    shutil.copytree(ROOT / "sample_images", folder / "sample_images")
    return folder


def run(command: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run one command with this interpreter's program first on the path."""
    places = os.pathsep.join([str(Path(sys.executable).parent), os.environ["PATH"]])
    words = shlex.split(command)
    if words[0].startswith(".venv/bin/"):
        words[0] = words[0].removeprefix(".venv/bin/")
    environment = {**os.environ, "PATH": places, "NO_COLOR": "1"}
    return subprocess.run(
        words, cwd=folder, env=environment, capture_output=True, text=True, check=False
    )


def test_the_job_stands_first() -> None:
    paragraphs = [part for part in README.split("\n\n") if not part.startswith(("#", "!"))]
    assert all(word in paragraphs[0] for word in ("photograph", "palette", "stripe", "yarn"))


def test_one_command_installs_and_does_the_job() -> None:
    body = labelled("start")
    assert "-m venv .venv" in body
    assert "pip install" in body
    assert ".venv/bin/leafweft plan sample_images/" in body


def test_the_command_that_installs_does_the_job(desk: Path) -> None:
    *_, command = labelled("start").strip().replace("\\\n", " ").split("&&")
    done = run(command.strip(), desk)
    assert done.returncode == 0, done.stderr
    folder = desk / re.search(r"--out (\S+)", command)[1]
    listed = set(re.findall(r"^\| `([a-z.]+)` \|", README, re.MULTILINE))
    made = {path.name for path in folder.iterdir()}
    assert {"plan.json", "brief.toml", "stripes.csv", "yarn.csv"} <= made
    assert made <= listed, "a file that the README does not explain"
    assert {"sheet.pdf", "sheet.html", "cloth.png"} <= made


def test_the_tour_runs_in_order(desk: Path) -> None:
    assert len(commands()) >= 8
    for command in commands():
        done = run(command, desk)
        assert done.returncode == 0, f"{command}\n{done.stderr}"
        assert "Traceback" not in done.stderr


def test_every_command_is_in_the_tour_or_named() -> None:
    done = run("leafweft --help", ROOT)
    names = set(re.findall(r"^│ ([a-z]+)\s{2,}", done.stdout, re.MULTILINE))
    assert names
    assert all(f"leafweft {name}" in README for name in names)


def test_every_picture_is_there() -> None:
    for target in re.findall(r"!\[[^\]]+\]\(([^)]+)\)", README):
        assert (ROOT / target).is_file(), target


def test_the_python_example_runs(desk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (code,) = re.findall(r"^```python\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    monkeypatch.chdir(desk)
    names: dict[str, object] = {}
    exec(code, names)  # our own README
    assert len(names["cloth_lab"]) == len(names["spring"].swatches)


def test_the_brief_example_is_a_brief() -> None:
    from palette.plans.brief import Brief
    from palette.plans.cloths import cloth_briefs

    (text,) = re.findall(r"^```toml\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
    assert len(cloth_briefs(Brief.of(tomllib.loads(text)))) == 3
