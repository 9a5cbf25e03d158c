from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from palette.errors import InputError
from palette.swatches.many import extract_many, photo_files
from palette.swatches.palette import Palette


@pytest.fixture
def album(tmp_path):
    for index, colour in enumerate([(93, 115, 58), (110, 80, 60), (170, 200, 230)]):
        Image.new("RGB", (20, 20), colour).save(tmp_path / f"{index}.png")
    (tmp_path / "bad.png").write_text("no picture", encoding="utf-8")
    (tmp_path / "notes.txt").write_text("hazel", encoding="utf-8")
    (tmp_path / ".hidden.png").write_text("", encoding="utf-8")
    return tmp_path


def test_photo_files_by_name(album) -> None:
    assert [path.name for path in photo_files(album)] == ["0.png", "1.png", "2.png", "bad.png"]


def test_a_folder_without_photographs(tmp_path) -> None:
    (tmp_path / "empty").mkdir()
    with pytest.raises(InputError, match=r"^empty: must hold a photograph; got a folder without"):
        photo_files(tmp_path / "empty")


@pytest.mark.parametrize("jobs", [1, 2])
def test_one_bad_file_does_not_stop_the_rest(album, jobs) -> None:
    outcomes = list(extract_many(photo_files(album), 2, jobs=jobs))
    hexes = [one.palette.swatches[0].hex for one in outcomes if one.palette]
    assert hexes == ["#5d733a", "#6e503c", "#aac8e6"]
    [bad] = [one for one in outcomes if one.error]
    assert bad.path.endswith("bad.png")
    assert str(bad.error).startswith("bad.png: must be a picture; got text.")


def test_jobs_change_nothing(album) -> None:
    generator = np.random.default_rng(0)
    for index in range(2):
        noise = generator.integers(0, 256, (40, 40, 3), dtype=np.uint8)
        Image.fromarray(noise).save(album / f"noise{index}.png")
    paths = photo_files(album)
    one, two = (list(extract_many(paths, jobs=jobs)) for jobs in (1, 2))
    assert [o.palette for o in one] == [o.palette for o in two]


def name_and_hex(path: str, palette: Palette) -> tuple[str, str]:
    """Something made of a palette; at the top of a module so that a worker finds it."""
    return Path(path).name, palette.swatches[0].hex


def refused(path: str, palette: Palette) -> None:
    raise InputError("card", "must have room", got=Path(path).name)


@pytest.mark.parametrize("jobs", [1, 2])
def test_something_is_made_of_every_palette(album, jobs) -> None:
    outcomes = list(extract_many(photo_files(album), 2, jobs=jobs, make=name_and_hex))
    assert [one.made for one in outcomes] == [
        ("0.png", "#5d733a"),
        ("1.png", "#6e503c"),
        ("2.png", "#aac8e6"),
        None,
    ]


def test_what_cannot_be_made_is_an_error_of_its_photograph(album) -> None:
    outcomes = list(extract_many(photo_files(album), 2, make=refused))
    assert [one.palette for one in outcomes] == [None] * 4
    assert str(outcomes[1].error) == "card: must have room; got 1.png."


def test_names_in_any_script(tmp_path) -> None:
    names = ["Frühling 🌿.png", "كتان.png", "麻.png"]
    for name in names:
        Image.new("RGB", (20, 20), (93, 115, 58)).save(tmp_path / name)
    outcomes = list(extract_many(photo_files(tmp_path), 2, jobs=2))
    assert sorted(Path(one.path).name for one in outcomes) == sorted(names)
    assert all(one.palette for one in outcomes)


def test_no_jobs() -> None:
    with pytest.raises(InputError, match=r"^--jobs: must be at least 1; got 0"):
        list(extract_many(["a.jpg"], jobs=0))
