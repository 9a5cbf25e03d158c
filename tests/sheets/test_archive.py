"""One archive, the same bytes every time."""

import io
import zipfile

import pytest

from palette.errors import InputError
from palette.sheets.archive import archive_bytes

FILES = {"plan.json": b"{}" * 500, "sheet.pdf": b"%PDF", "stripes.csv": b"number"}


def test_holds_the_files_without_dates() -> None:
    data = archive_bytes(FILES, folder="Frühling")
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert archive.testzip() is None
        assert archive.namelist() == [f"Frühling/{name}" for name in FILES]
        assert {info.date_time for info in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        assert archive.read("Frühling/plan.json") == FILES["plan.json"]
    assert data == archive_bytes(dict(FILES), folder="Frühling")
    assert len(data) < 1200


@pytest.mark.parametrize("name", ["../a", "/a", "a/b", "a\\b", "", ".."])
def test_no_name_leaves_the_archive(name: str) -> None:
    with pytest.raises(InputError, match="must be a plain name inside the archive"):
        archive_bytes({name: b""})
