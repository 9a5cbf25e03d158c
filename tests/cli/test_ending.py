"""However the program is ended, and wherever its output goes: one sentence, one exit code."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

START = "from cli.main import run; run()"
STOPPED = "leafweft: stopped before it was done.\n"


def program(*words: str | Path) -> list[str]:
    """Command line of the program in a process of its own."""
    return [sys.executable, "-c", START, *map(str, words)]


def shell(text: str, *words: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run the program as "$@" in a line of shell."""
    line = ["bash", "-o", "pipefail", "-c", text, "bash", *program(*words)]
    return subprocess.run(line, capture_output=True, text=True, cwd=cwd, timeout=120, check=False)


@pytest.mark.parametrize("words", [("--help",), ("--version",), ("stripes", "PLAN", "--json")])
def test_a_full_standard_output(plan_file: Path, tmp_path: Path, words: tuple[str, ...]) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    typed = [plan_file if word == "PLAN" else word for word in words]
    done = shell('"$@" > /dev/full', *typed, cwd=tmp_path)
    assert done.returncode == 3
    said = "leafweft: standard output: must be one that can be used; got no space left on device.\n"
    assert done.stderr.endswith(said)


def test_a_closed_standard_output(plan_file: Path, tmp_path: Path) -> None:
    done = shell('"$@" >&-', "stripes", plan_file, "--out", "new.json", cwd=tmp_path)
    assert done.returncode == 3
    assert done.stderr == "leafweft: standard output: must be open; got a closed one.\n"
    assert not (tmp_path / "new.json").exists()


@pytest.mark.parametrize("where", ["2>&-", "2>/dev/full", "2>/dev/null"])
def test_notes_that_cannot_be_said_stop_nothing(
    plan_file: Path, tmp_path: Path, where: str
) -> None:
    words = ("stripes", plan_file, "--reed", "10/in", "--json")
    done = shell(f'"$@" {where}', *words, cwd=tmp_path)
    assert done.returncode == 0
    assert json.loads(done.stdout)["kind"] == "leafweft/plan"
    refused = shell(f'"$@" {where}', "stripes", "none.json", cwd=tmp_path)
    assert (refused.returncode, refused.stdout) == (3, "")


def test_a_reader_that_has_enough(plan_file: Path, tmp_path: Path) -> None:
    done = shell('"$@" | head -1', "stripes", plan_file, "--json", cwd=tmp_path)
    assert (done.returncode, done.stdout, done.stderr) == (0, "{\n", done.stderr)
    assert "Error" not in done.stderr
    gone = shell('"$@" | true', "stripes", plan_file, "--json", cwd=tmp_path)
    assert gone.returncode == 0


@pytest.mark.parametrize("seconds", [0.0, 0.05, 0.1, 0.3, 0.8])
def test_being_stopped_is_said_whenever_it_comes(
    bank: Path, tmp_path: Path, seconds: float
) -> None:
    # The first line says that Python has started: before that nothing of ours runs.
    code = f"import sys; sys.stdout.write('on\\n'); sys.stdout.flush()\n{START}"
    command = [sys.executable, "-c", code, "plan", str(bank), "--length", "4m", "--out", "scarf"]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=tmp_path
    ) as process:
        assert process.stdout is not None
        process.stdout.readline()
        time.sleep(seconds + 0.03)
        process.send_signal(signal.SIGINT)
        _, said = process.communicate(timeout=120)
    assert (process.returncode, said) == (130, STOPPED)
    assert not list(tmp_path.iterdir())


def test_workers_leave_the_stopping_to_the_program(bank: Path, tmp_path: Path) -> None:
    for number in range(6):
        (tmp_path / f"{number}.png").write_bytes(bank.read_bytes())
    words = ("palette", *(f"{number}.png" for number in range(6)), "--each", "--jobs", "2")
    with subprocess.Popen(
        program(*words),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=tmp_path,
        start_new_session=True,
    ) as process:
        deadline = time.monotonic() + 60
        while not list(tmp_path.glob("palettes/*.json")) and time.monotonic() < deadline:
            time.sleep(0.02)
        os.killpg(process.pid, signal.SIGINT)
        _, said = process.communicate(timeout=120)
    assert process.returncode in {0, 130}
    assert "Traceback" not in said
    if process.returncode == 130:
        assert said.endswith(STOPPED)


@pytest.mark.parametrize("backend", ["nonsense", "module://no_such_module"])
def test_a_setting_of_the_drawing_library_is_ignored(
    bank: Path, tmp_path: Path, backend: str
) -> None:
    done = subprocess.run(
        program("palette", bank, "--out", "p.json"),
        capture_output=True,
        text=True,
        cwd=tmp_path,
        env={**os.environ, "MPLBACKEND": backend},
        check=False,
    )
    assert done.returncode == 0, done.stderr


def test_letters_that_a_terminal_lacks(plan_file: Path, tmp_path: Path) -> None:
    done = subprocess.run(
        program("yarn", plan_file),
        capture_output=True,
        cwd=tmp_path,
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        check=False,
    )
    assert done.returncode == 0
    assert done.stdout.isascii()


def test_what_a_terminal_would_obey_is_written_out(leafweft: Callable) -> None:
    done = leafweft("stripes", "a\nb\x1b[31m\u202e.json")
    assert done.code == 3
    assert done.err.startswith(r"leafweft: a\nb\u001b[31m\u202e.json: must be a file; got nothing")
    assert done.err.count("\n") == 1


def test_a_word_longer_than_anything_meant(leafweft: Callable, plan_file: Path) -> None:
    done = leafweft("choices", plan_file, "--pick", "9" * 5000)
    assert done.code == 2
    assert "must be at most 4,000 characters; got 5,000, '99999999999999999999' ..." in done.err
    assert len(done.err) < 200
