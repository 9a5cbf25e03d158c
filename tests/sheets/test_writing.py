"""Files are written whole or not at all, and never over another one unasked."""

import errno
import os
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError, OutputError
from palette.sheets import places, writing
from palette.sheets.writing import (
    check_file,
    check_folder,
    file_name,
    write_folder,
    write_whole,
)


def leftovers(folder: Path) -> list[str]:
    return [path.name for path in folder.rglob("*") if path.name.endswith(".part")]


def test_writes_bytes(tmp_path: Path) -> None:
    write_whole(tmp_path / "a.csv", b"moss")
    assert (tmp_path / "a.csv").read_bytes() == b"moss"
    assert leftovers(tmp_path) == []


def test_a_new_file_may_be_read_as_the_umask_says(tmp_path: Path) -> None:
    before = os.umask(0o022)
    try:
        write_whole(tmp_path / "a.csv", b"moss")
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "a.csv").stat().st_mode) == 0o644


def test_refuses_to_replace(tmp_path: Path) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(b"old")
    with pytest.raises(
        OutputError, match=r"must not exist yet; got one that is there\. Give --force"
    ):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    write_whole(path, b"new", force=True)
    assert path.read_bytes() == b"new"


def test_refuses_a_dangling_link(tmp_path: Path) -> None:
    link = tmp_path / "a.csv"
    link.symlink_to(tmp_path / "nowhere.csv")
    with pytest.raises(OutputError, match="must not exist yet"):
        write_whole(link, b"new")


def test_force_writes_through_a_link(tmp_path: Path) -> None:
    target, link = tmp_path / "real.csv", tmp_path / "a.csv"
    target.write_bytes(b"old")
    link.symlink_to(target)
    write_whole(link, b"new", force=True)
    assert link.is_symlink()
    assert target.read_bytes() == b"new"


def test_refuses_a_folder_and_a_device(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="must be a file; got a folder"):
        write_whole(tmp_path, b"x", force=True)
    with pytest.raises(OutputError, match="must be an ordinary file; got a device or pipe"):
        write_whole("/dev/null", b"x", force=True)


def test_refuses_a_missing_folder(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="must be in a folder that exists; got no such folder"):
        write_whole(tmp_path / "none" / "a.csv", b"x")


def test_refuses_a_path_through_a_file(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(OutputError, match="must be in a folder; got a path through a file"):
        write_whole(tmp_path / "file" / "a.csv", b"x")


def test_refuses_a_name_too_long_or_with_a_null(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="must have a name that the disk can hold"):
        write_whole(tmp_path / ("a" * 300), b"x")
    with pytest.raises(OutputError, match="without a null character"):
        write_whole(tmp_path / "a\0b", b"x")


@pytest.mark.parametrize(
    ("code", "words"),
    [
        (errno.ENOSPC, "needs room on the disk; got the disk is full. Free some space"),
        (errno.EROFS, "must be in a place that can be written; got a read-only disk"),
        (errno.EACCES, "must be in a place that can be written; got permission refused"),
        (errno.EIO, "must be writable"),
    ],
)
def test_a_failing_disk_leaves_the_old_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int, words: str
) -> None:
    path = tmp_path / "a.csv"
    path.write_bytes(b"old")

    def fail(*_: object) -> None:
        raise OSError(code, os.strerror(code))

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(OutputError, match=words):
        write_whole(path, b"new", force=True)
    assert path.read_bytes() == b"old"
    assert leftovers(tmp_path) == []


def test_a_really_full_disk() -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    with pytest.raises(OSError, match="No space") as caught:
        Path("/dev/full").write_bytes(b"x" * 100_000)
    assert "the disk is full" in str(places.refused(Path("a.csv"), caught.value))


def test_does_not_replace_a_file_made_meanwhile(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.csv"
    through = writing._write_through

    def slow(part: Path, data: bytes) -> None:
        through(part, data)
        path.write_bytes(b"another program's")

    monkeypatch.setattr(writing, "_write_through", slow)
    with pytest.raises(OutputError, match="must not exist yet"):
        write_whole(path, b"ours")
    assert path.read_bytes() == b"another program's"
    assert leftovers(tmp_path) == []


def test_works_where_hard_links_do_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise OSError(errno.EPERM, "no hard links")

    monkeypatch.setattr(os, "link", refuse)
    write_whole(tmp_path / "a.csv", b"moss")
    assert (tmp_path / "a.csv").read_bytes() == b"moss"
    assert leftovers(tmp_path) == []


def test_writes_a_folder(tmp_path: Path) -> None:
    paths = write_folder(tmp_path / "scarf", {"a.csv": b"a", "b.pdf": b"b"})
    assert [path.read_bytes() for path in paths] == [b"a", b"b"]
    assert leftovers(tmp_path) == []


def test_refuses_a_folder_that_exists(tmp_path: Path) -> None:
    (tmp_path / "scarf").mkdir()
    with pytest.raises(OutputError, match="must be a folder that does not exist yet; got one that"):
        write_folder(tmp_path / "scarf", {"a.csv": b"a"})
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(OutputError, match="got a file of that name"):
        write_folder(tmp_path / "file", {"a.csv": b"a"}, force=True)


def test_force_replaces_the_same_names_and_keeps_the_rest(tmp_path: Path) -> None:
    place = tmp_path / "scarf"
    place.mkdir()
    (place / "a.csv").write_bytes(b"old")
    (place / "my notes.txt").write_bytes(b"mine")
    write_folder(place, {"a.csv": b"new", "b.csv": b"b"}, force=True)
    assert {path.name: path.read_bytes() for path in place.iterdir()} == {
        "a.csv": b"new",
        "b.csv": b"b",
        "my notes.txt": b"mine",
    }
    assert leftovers(tmp_path) == []


def test_a_folder_that_fails_half_way_is_as_before(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "scarf"
    place.mkdir()
    (place / "a.csv").write_bytes(b"old a")
    (place / "b.csv").write_bytes(b"old b")
    rename = os.rename

    def fails_at_c(source: Path, target: Path) -> None:
        if Path(target).name == "c.csv":
            raise OSError(errno.ENOSPC, "No space left")
        rename(source, target)

    monkeypatch.setattr(os, "rename", fails_at_c)
    with pytest.raises(OutputError, match="the disk is full"):
        write_folder(place, {"a.csv": b"1", "b.csv": b"2", "c.csv": b"3"}, force=True)
    assert {path.name: path.read_bytes() for path in place.iterdir()} == {
        "a.csv": b"old a",
        "b.csv": b"old b",
    }
    assert leftovers(tmp_path) == []


def test_a_new_folder_that_fails_is_not_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object) -> None:
        raise OSError(errno.ENOSPC, "No space left")

    monkeypatch.setattr(os, "fsync", fail)
    with pytest.raises(OutputError, match="the disk is full"):
        write_folder(tmp_path / "scarf", {"a.csv": b"1"})
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["../a", "a/b", "", ".", "..", "/etc/passwd", "a\\b", "a\0b"])
def test_a_name_must_not_leave_the_folder(tmp_path: Path, name: str) -> None:
    with pytest.raises(InputError, match="must be a plain name inside the folder"):
        write_folder(tmp_path / "scarf", {name: b""})
    assert list(tmp_path.iterdir()) == []


@given(st.text())
def test_a_file_name_is_always_plain(text: str) -> None:
    name = file_name(text)
    assert name == Path(name).name
    assert name not in {"", ".", ".."}
    assert not name.startswith((".", "-"))
    assert len(name.encode()) <= 170
    assert not any(c in name for c in '/\\:*?"<>|\0')


def test_file_names_keep_what_a_person_typed() -> None:
    assert file_name("Frühlingsgrün 2") == "Frühlingsgrün-2"
    assert file_name("con") == "con-"
    assert file_name("", default="palette") == "palette"


@pytest.mark.parametrize(
    ("place", "rule"),
    [
        ("there", "must be a folder that does not exist yet"),
        ("file", "must be a folder that does not exist yet"),
        ("none/new", "must be in a folder that exists; got no such folder"),
        ("file/new", "must be in a folder; got a path through a file"),
        ("file/new/newer", "must be in a folder; got a path through a file"),
    ],
)
def test_a_place_is_refused_before_the_work_as_it_would_be_after(
    tmp_path: Path, place: str, rule: str
) -> None:
    (tmp_path / "there").mkdir()
    (tmp_path / "file").touch()
    with pytest.raises(OutputError, match=rule) as early:
        check_folder(tmp_path / place)
    with pytest.raises(OutputError, match=rule) as late:
        write_folder(tmp_path / place, {"a.csv": b""})
    assert str(early.value) == str(late.value)


def test_a_place_that_is_free_passes(tmp_path: Path) -> None:
    check_folder(tmp_path / "new")
    check_folder(tmp_path, force=True)
    check_file(tmp_path / "new.zip")
    (tmp_path / "old.zip").touch()
    check_file(tmp_path / "old.zip", force=True)
    with pytest.raises(OutputError, match=r"old\.zip: must not exist yet; got one that is there"):
        check_file(tmp_path / "old.zip")
