"""A dyer's own samples."""

from pathlib import Path

import pytest

from palette.dyeing.samples import DyeSample, DyeSamples, read_samples
from palette.errors import InputError, TableError


def read(folder: Path, text: str) -> DyeSamples:
    path = folder / "samples.csv"
    path.write_text(text, encoding="utf-8")
    return read_samples(path, read_skein=lambda path: (50.0, 10.0, 20.0))


def sample(*percents: float) -> DyeSample:
    return DyeSample(name=f"{percents}", percents=percents, lab=(50.0, 0.0, 0.0), hex="#777777")


def test_every_column_that_is_not_known_is_a_dye(tmp_path: Path) -> None:
    (tmp_path / "olive.jpg").write_bytes(b"not looked at")
    text = (
        "Sample,yellow %,% blue,Colour,Notes\n"
        "plain,0,0,#efe6d2,undyed\n"
        'pale,"0,5",,82 -4 60,\n'
        "olive,1 %,0.5,olive.jpg,second try\n"
    )
    samples = read(tmp_path, text)
    assert samples.dyes == ("yellow", "blue")
    assert [each.percents for each in samples.samples] == [(0.0, 0.0), (0.5, 0.0), (1.0, 0.5)]
    assert [each.name for each in samples.samples] == ["plain", "pale", "olive"]
    assert samples.samples[1].lab == (82.0, -4.0, 60.0)
    assert samples.samples[0].undyed
    assert [each.from_photo for each in samples.samples] == [False, False, True]


def test_samples_without_a_name_are_called_by_their_row(tmp_path: Path) -> None:
    assert read(tmp_path, "colour;red\n#efe6d2;1\n").samples[0].name == "row 2"


def test_a_dye_that_is_never_used_is_left_out_and_said(tmp_path: Path) -> None:
    samples = read(tmp_path, "colour;red;green\n#efe6d2;1;\n#a02020;2;0\n")
    assert samples.dyes == ("red",)
    assert samples.warnings == ("samples.csv: no sample holds green; left out.",)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("red;blue\n1;2\n", "samples.csv: must have a heading colour in its first row"),
        ("colour;name\n#fff;a\n", "samples.csv, row 1: must have a column for each dye, with"),
        ("colour;red;red %\n#fff;1;1\n", "samples.csv, row 1: must have a column for each dye"),
        ("colour;red\n#fff;some\n", "samples.csv, row 2, column red: must be one number, .*Every"),
        ("colour;red\n#fff;-1\n", "samples.csv, row 2, column red: must be from 0 to 400 %; got"),
        ("colour;red\n#fff;4000\n", "samples.csv, row 2, column red: must be from 0 to 400 %"),
        ("colour;red\n;1\n", "samples.csv, row 2, column colour: must not be empty"),
        ("colour;red\n#fff;0\n", "samples.csv: must hold at least 3 dyed samples; got 0"),
    ],
)
def test_a_bad_table_is_refused(tmp_path: Path, text: str, message: str) -> None:
    with pytest.raises(TableError, match=message):
        read(tmp_path, text)


@pytest.mark.parametrize(
    ("percents", "message"),
    [
        ([(0.0,), (1.0,), (2.0,)], "must hold at least 3 dyed samples; got 2. Dye each colour in"),
        ([(0.0,), (1.0,), (1.0,), (1.0,)], "must hold red in at least 2 strengths; got 1"),
        (
            [(1.0, 0.0), (2.0, 0.0), (0.0, 1.0), (0.0, 2.0)],
            "must hold the undyed yarn, or 5 dyed samples; got 4 dyed samples. Add a row for the",
        ),
    ],
)
def test_too_few_samples_are_refused_with_the_reason(percents, message: str) -> None:
    dyes = ("red", "blue")[: len(percents[0])]
    samples = DyeSamples(
        file="samples.csv", dyes=dyes, samples=tuple(sample(*each) for each in percents)
    )
    with pytest.raises(TableError, match=f"samples.csv: {message}"):
        samples.check_enough()


def test_values_are_checked_when_made() -> None:
    with pytest.raises(InputError, match="must have an amount of each dye; got 2 amounts for 1"):
        DyeSamples(file="s.csv", dyes=("red",), samples=(sample(1.0, 2.0),))
    with pytest.raises(InputError, match="amounts must be from 0 to 400 %; got"):
        DyeSamples(file="s.csv", dyes=("red",), samples=(sample(float("nan")),))
