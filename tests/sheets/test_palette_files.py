from pathlib import Path

import pytest

from palette.errors import OutputError
from palette.perception.spaces import hex_to_lab
from palette.sheets import palette_files, writing
from palette.sheets.palette_files import write_palette_files
from palette.swatches.palette import Palette, Swatch

MOSS = Palette(swatches=(Swatch(name="moss", lab=hex_to_lab("#5d733a"), hex="#5d733a", share=1.0),))


def test_file_and_card_stand_beside_each_other(tmp_path: Path) -> None:
    paths = write_palette_files(MOSS, tmp_path / "moss-palette.json")
    assert [path.name for path in paths] == ["moss-palette.json", "moss-palette.png"]
    assert all(path.is_file() for path in paths)


def test_a_card_in_the_way_keeps_the_file_from_being_written(tmp_path: Path) -> None:
    (tmp_path / "moss.png").write_bytes(b"another picture")
    with pytest.raises(OutputError, match="must not exist yet"):
        write_palette_files(MOSS, tmp_path / "moss.json")
    assert not (tmp_path / "moss.json").exists()
    write_palette_files(MOSS, tmp_path / "moss.json", force=True)
    assert (tmp_path / "moss.png").read_bytes() != b"another picture"


def test_a_full_disk_leaves_neither(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = writing._write_through

    def full(path: Path, data: bytes) -> None:
        if path.suffix == ".png":
            raise OSError(28, "No space left on device")
        whole(path, data)

    monkeypatch.setattr(writing, "_write_through", full)
    with pytest.raises(OutputError, match="the disk is full"):
        palette_files.write_palette_files(MOSS, tmp_path / "moss.json")
    assert list(tmp_path.iterdir()) == []
