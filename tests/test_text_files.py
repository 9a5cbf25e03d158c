"""Text files that people give: ordinary ones, within a limit, with or without a mark."""

import os
from pathlib import Path

import pytest

from palette.errors import FileError, TableError
from palette.text_files import ordinary_file, read_file, read_text


def test_marks_and_line_ends_of_other_systems_are_left_out(tmp_path: Path) -> None:
    path = tmp_path / "brief.toml"
    path.write_bytes('name = "fjäll"\r\nseed = 1\rstep = 2\n'.encode("utf-8-sig"))
    assert read_text(path, most_bytes=100) == 'name = "fjäll"\nseed = 1\nstep = 2\n'


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("none", "none: must be a file; got nothing by that name. Check the name and the folder"),
        ("folder", "folder: must be a file; got a folder"),
        ("pipe", "pipe: must be an ordinary file; got a pipe or a device"),
        ("lost", "lost: must be a file; got a link that leads nowhere"),
        ("large", r"large: must be under 0\.001 MB; got 0\.0 MB"),
        ("latin", "latin: must be text; got bytes that are no text"),
        ("null\0", "must be a file; got nothing by that name"),
        ("file/under", "must be a file; got a path through a file"),
        ("x" * 300, "must be a file; got file name too long"),
    ],
)
def test_what_is_refused(tmp_path: Path, name: str, said: str) -> None:
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "lost").symlink_to("nowhere")
    (tmp_path / "large").write_bytes(b"x" * 2000)
    (tmp_path / "latin").write_bytes("fjäll".encode("latin-1"))
    (tmp_path / "file").touch()
    with pytest.raises(FileError, match=said):
        read_text(tmp_path / name, most_bytes=1000)


def test_a_device_that_never_ends_is_not_read() -> None:
    if not Path("/dev/zero").exists():
        pytest.skip("this system has no /dev/zero")
    with pytest.raises(TableError, match="/dev/zero: must be an ordinary file; got a pipe or a"):
        read_file(Path("/dev/zero"), most_bytes=1000, error=TableError)


def test_the_size_is_that_of_the_file(tmp_path: Path) -> None:
    path = tmp_path / "three"
    path.write_bytes(b"abc")
    assert ordinary_file(path) == 3
    assert read_file(path, most_bytes=3) == b"abc"
