"""The yarn shelf: colours, weights and refusals."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from palette.errors import CountError, InputError, PhotoError, TableError
from palette.perception.difference import ciede2000
from palette.perception.spaces import lab_to_linear_srgb, linear_to_srgb, srgb8_to_lab
from palette.swatches.shelf import Shelf, ShelfYarn, read_shelf

GOOD = "name;colour;fibre;count;grams;kind\n"


def write(folder: Path, text: str) -> Path:
    path = folder / "shelf.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_every_way_to_give_a_colour(tmp_path: Path) -> None:
    (tmp_path / "photos").mkdir()
    (tmp_path / "photos" / "rust.JPG").write_bytes(b"not looked at")
    rows = [
        "moss;#5d733a;wool;Nm 2/8;250",
        "fern;5D733A;wool;;",
        "reed;45,5 -18,4 28,8;linen;;12,5",
        "twig;lab(45.5, -18.4, 28.8);wool;;8 oz",
        "sand;CIELAB 45.5/-18.4/28.8;wool;;0",
        "rust;photos/rust.JPG;wool;;100 g",
        "cream fleece;#efe6d2;wool;;900;Undyed fleece",
    ]
    seen = []

    def skein(path: Path) -> tuple[float, float, float]:
        seen.append(path)
        return (40.0, 30.0, 35.0)

    shelf = read_shelf(write(tmp_path, GOOD + "\n".join(rows)), read_skein=skein)
    assert seen == [(tmp_path / "photos" / "rust.JPG").resolve()]
    assert shelf["fern"].lab == pytest.approx(shelf["moss"].lab)
    assert shelf["reed"].lab == shelf["twig"].lab == shelf["sand"].lab == (45.5, -18.4, 28.8)
    assert shelf["reed"].hex == shelf["moss"].hex == "#5d733a"
    assert shelf["rust"].from_photo
    assert not shelf["moss"].from_photo
    assert shelf["fern"].mass_g is None
    assert shelf["reed"].mass_g == 12.5
    assert shelf["twig"].mass_g == pytest.approx(226.796185)  # 8 oz of 28.349523125 g, exact
    assert not shelf["sand"].in_hand
    assert (shelf["cream fleece"].kind, shelf["cream fleece"].undyed) == ("fleece", True)
    assert shelf["moss"].count == "Nm 2/8"
    assert shelf["moss"].tex is None
    assert [yarn.row for yarn in shelf.yarns] == [2, 3, 4, 5, 6, 7, 8]


def test_three_columns_and_other_spellings(tmp_path: Path) -> None:
    text = "Yarn,L*,a*,b*,Weight,Shop shelf\nmoss,45.5,-18.4,28.8,20,B3\n"
    shelf = read_shelf(write(tmp_path, text))
    assert shelf["moss"].lab == (45.5, -18.4, 28.8)
    assert shelf["moss"].mass_g == 20
    assert shelf.warnings == ("shelf.csv: not used: Shop shelf.",)


def test_counts_are_read_by_the_reader_given(tmp_path: Path) -> None:
    path = write(tmp_path, GOOD + "moss;#5d733a;wool;250 tex;\nfern;#5d733a;wool;;")
    shelf = read_shelf(path, read_count=lambda text: float(text.removesuffix(" tex")))
    assert (shelf["moss"].tex, shelf["fern"].tex) == (250.0, None)

    def refuse(text: str) -> float:
        raise CountError("yarn count", "must name its system", got=text, remedy="Say Nm 2/8.")

    message = r"shelf.csv, row 2, column count: must name its system; got '250 tex'\. Say Nm 2/8\."
    with pytest.raises(TableError, match=message):
        read_shelf(path, read_count=refuse)


@pytest.mark.parametrize(
    ("row", "message"),
    [
        (";#5d733a;;;;", "row 3, column name: must not be empty"),
        ("moss;#fff;;;;", "row 3, column name: names must differ; got 'moss', already in row 2"),
        ("fern;;;;;", "row 3, column colour: must not be empty. Write it like #5d733a"),
        ("fern;greenish;;;;", "row 3, column colour: must be a hex code, three CIELAB numbers or"),
        ("fern;#12345;;;;", "row 3, column colour: must be a hex code, .*; got '#12345'"),
        ("fern;45 -15;;;;", "row 3, column colour: must be a hex code"),
        ("fern;45,1,2,3,4,5;;;;", "row 3, column colour: must be a hex code"),
        ("fern;145 -15 30;;;;", "row 3, column colour: CIELAB must have L from 0 to 100"),
        ("fern;45 -315 30;;;;", "row 3, column colour: CIELAB must have L from 0 to 100"),
        ("fern;gone.jpg;;;;", "row 3, column colour: photo must be beside the table; got no file"),
        ("fern;../fern.jpg;;;;", "row 3, column colour: photo must be in the folder of the table"),
        ("fern;/fern.jpg;;;;", "row 3, column colour: photo must be in the folder of the table"),
        (r"fern;..\fern.jpg;;;;", "row 3, column colour: photo must be in the folder"),
        (r"fern;C:\fern.jpg;;;;", "row 3, column colour: photo must be in the folder"),
        ("fern;#fff;;;some;", "row 3, column grams: must be a number with a unit; got 'some'"),
        ("fern;#fff;;;-3;", "row 3, column grams: must be 0 or more, and finite; got '-3'"),
        ("fern;#fff;;;3 stone;", "row 3, column grams: unit must be one of"),
        ("fern;#fff;;;nan g;", "row 3, column grams: must be 0 or more, and finite"),
        ("fern;#fff;;;;roving stock", "row 3, column kind: must be yarn, fleece, undyed yarn or"),
    ],
)
def test_a_bad_row_names_itself_and_keeps_nothing(tmp_path: Path, row: str, message: str) -> None:
    path = write(tmp_path, f"{GOOD}moss;#5d733a;wool;;20;\n{row}\n")
    with pytest.raises(TableError, match=f"^shelf.csv, {message}"):
        read_shelf(path)


def test_a_link_does_not_lead_out_of_the_folder(tmp_path: Path) -> None:
    shelves, other = tmp_path / "shelves", tmp_path / "other"
    shelves.mkdir()
    other.mkdir()
    (other / "skein.jpg").write_bytes(b"")
    (shelves / "skein.jpg").symlink_to(other / "skein.jpg")
    with pytest.raises(TableError, match="photo must be in the folder of the table"):
        read_shelf(write(shelves, GOOD + "moss;skein.jpg;;;;\n"))


def test_a_photo_that_cannot_be_opened_names_its_row(tmp_path: Path) -> None:
    (tmp_path / "skein.jpg").write_bytes(b"")

    def broken(path: Path) -> tuple[float, float, float]:
        raise PhotoError(path.name, "must hold a picture", got="an empty file")

    message = "row 2, column colour: photo must be one that can be read; got skein.jpg: must hold"
    with pytest.raises(TableError, match=message):
        read_shelf(write(tmp_path, GOOD + "moss;skein.jpg;;;;\n"), read_skein=broken)


def test_a_table_without_colours_is_no_shelf(tmp_path: Path) -> None:
    with pytest.raises(
        TableError, match=r"shelf\.csv: must have a heading colour in its first row"
    ):
        read_shelf(write(tmp_path, "name;L;a\nmoss;1;2\n"))


def test_values_are_checked_when_made() -> None:
    with pytest.raises(InputError, match=r"shelf yarn 'moss': mass must be 0 g or more; got nan"):
        ShelfYarn(name="moss", lab=(1, 2, 3), hex="#000000", mass_g=float("nan"))
    with pytest.raises(InputError, match="shelf yarn 'moss': tex must be more than 0; got 0"):
        ShelfYarn(name="moss", lab=(1, 2, 3), hex="#000000", tex=0)
    with pytest.raises(InputError, match="shelf: must hold at least one yarn; got none"):
        Shelf(file="shelf.csv", yarns=())
    yarn = ShelfYarn(name="moss", lab=(1, 2, 3), hex="#000000")
    with pytest.raises(InputError, match="shelf: names must differ; got moss twice"):
        Shelf(file="shelf.csv", yarns=(yarn, yarn))
    with pytest.raises(KeyError):
        Shelf(file="shelf.csv", yarns=(yarn,))["rust"]


def test_a_photographed_skein_has_the_colour_of_its_strands(tmp_path: Path) -> None:
    """Strands with lit and dark sides across the middle, a pale table around them."""
    lab = (45.0, -18.4, 28.8)
    down, across = np.mgrid[0:240, 0:320]
    strands = (across + 6 * np.sin(down / 20)) % 8 / 8
    light = 0.4 + 0.6 * np.sin(np.pi * strands)
    yarn = np.clip(lab_to_linear_srgb(lab), 0, 1) * light[..., np.newaxis]
    skein = np.abs(across - 160) < 70
    linear = np.where(skein[..., np.newaxis], yarn, 0.7)
    codes = np.rint(linear_to_srgb(linear) * 255).astype(np.uint8)
    Image.fromarray(codes).save(tmp_path / "skein.png")
    Image.fromarray(codes[:1, 160:161]).save(tmp_path / "dot.png")
    rows = "moss;skein.png;wool;;50;\ndot;dot.png;wool;;50;\n"
    shelf = read_shelf(write(tmp_path, GOOD + rows))
    assert ciede2000(shelf["moss"].lab, lab) < 4
    assert shelf["moss"].from_photo
    assert shelf["dot"].lab == pytest.approx(srgb8_to_lab(codes[0, 160]), abs=1e-6)


def test_a_broken_photograph_names_its_row(tmp_path: Path) -> None:
    (tmp_path / "skein.jpg").write_bytes(b"no picture at all")
    with pytest.raises(TableError, match=r"shelf\.csv, row 2, column colour: photo must be one"):
        read_shelf(write(tmp_path, GOOD + "moss;skein.jpg;;;;\n"))


def test_a_shelf_without_end_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "dealer.csv"
    rows = "".join(f"yarn {number},#5d733a\n" for number in range(20_000))
    path.write_text(f"name,colour\n{rows}", encoding="utf-8")
    said = r"dealer\.csv: must hold at most 2,000 yarns; got 20,000\. Leave out what is not for"
    with pytest.raises(TableError, match=said):
        read_shelf(path)
