"""A dyer's own samples: how much of each dye, and the colour that came of it."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from palette.errors import InputError, TableError
from palette.perception.spaces import lab_to_hex
from palette.swatches.colour_cell import (
    COLOUR_COLUMNS,
    check_colour_columns,
    read_colour,
    skein_lab,
)
from palette.swatches.table import TableRow, parse_number, read_table

__all__ = ["DyeSample", "DyeSamples", "read_samples"]

Lab = tuple[float, float, float]

_COLUMNS: dict[str, tuple[str, ...]] = {
    **COLOUR_COLUMNS,
    "name": ("sample", "swatch"),
    "fibre": ("fiber",),
    "notes": ("note", "remarks", "date"),
}
_MOST_PERCENT = 400.0  # natural dyestuff by weight; dye powder stays under 10


@dataclass(frozen=True, slots=True, kw_only=True)
class DyeSample:
    """One dyed sample.

    Attributes
    ----------
    name : str
    percents : tuple of float
        Of each dye, per cent of the dry fibre, in the order of the dyes; all 0: undyed yarn.
    lab : tuple of 3 float
        CIELAB D65 of the dry, rinsed sample.
    hex : str
    from_photo : bool
    """

    name: str
    percents: tuple[float, ...]
    lab: Lab
    hex: str
    from_photo: bool = False

    @property
    def undyed(self) -> bool:
        """Whether it holds no dye at all."""
        return not any(self.percents)


@dataclass(frozen=True, slots=True, kw_only=True)
class DyeSamples:
    """All the samples of one set of dyes on one yarn.

    Attributes
    ----------
    file : str
        Name of the table.
    dyes : tuple of str
        What the dyer calls them.
    samples : tuple of DyeSample
    warnings : tuple of str
    """

    file: str
    dyes: tuple[str, ...]
    samples: tuple[DyeSample, ...]
    warnings: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse samples whose amounts do not go with the dyes, or are out of range."""
        for sample in self.samples:
            thing = f"sample {sample.name!r}"
            if len(sample.percents) != len(self.dyes):
                got = f"{len(sample.percents)} amounts for {len(self.dyes)} dyes"
                raise InputError(thing, "must have an amount of each dye", got=got)
            if not all(0 <= percent <= _MOST_PERCENT for percent in sample.percents):
                rule = f"amounts must be from 0 to {_MOST_PERCENT:g} %"
                raise InputError(thing, rule, got=f"{sample.percents}")

    def check_enough(self) -> None:
        """Refuse, with the reason, where the samples cannot tell what the dyes do.

        Raises
        ------
        TableError
            Fewer than three dyed samples, a dye in fewer than two strengths, or too few of them
            to do without the undyed yarn.
        """
        dyed = [sample for sample in self.samples if not sample.undyed]
        if len(dyed) < 3:
            remedy = "Dye each colour in three strengths, such as 0.5, 1 and 2 %."
            rule = "must hold at least 3 dyed samples"
            raise TableError(self.file, rule, got=f"{len(dyed)}", remedy=remedy)
        for i, dye in enumerate(self.dyes):
            strengths = {sample.percents[i] for sample in dyed if sample.percents[i] > 0}
            if len(strengths) < 2:
                rule = f"must hold {dye} in at least 2 strengths"
                remedy = "One strength does not tell how the colour grows with the dye."
                raise TableError(self.file, rule, got=f"{len(strengths)}", remedy=remedy)
        if len(dyed) == len(self.samples) and len(dyed) < len(self.dyes) + 3:
            raise TableError(
                self.file,
                f"must hold the undyed yarn, or {len(self.dyes) + 3} dyed samples",
                got=f"{len(dyed)} dyed samples",
                remedy="Add a row for the undyed yarn with 0 of every dye.",
            )


def read_samples(path: str | Path, *, read_skein: Callable[[Path], Lab] = skein_lab) -> DyeSamples:
    r"""Read a table of dye samples.

    Parameters
    ----------
    path : str or Path
        CSV with a column colour (hex, CIELAB or a photo beside the table; or columns L, a, b),
        and one column for each dye with its per cent of the dry fibre; an empty cell is 0. Columns
        name, fibre and notes may be there. Comma, semicolon or tab.
    read_skein : callable of Path to CIELAB
        How a photograph becomes a colour.

    Returns
    -------
    DyeSamples

    Raises
    ------
    TableError
        The first bad row, by row and column; no column for a dye.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder) / "samples.csv"
    ...     text = "colour;yellow %;blue %\n#efe6d2;0;0\n#d8b93c;0,5;\n#5f8a4a;0,5;0,5\n"
    ...     _ = path.write_text(text, encoding="utf-8")
    ...     samples = read_samples(path)
    >>> samples.dyes, samples.samples[2].percents, samples.samples[0].undyed
    (('yellow', 'blue'), (0.5, 0.5), True)
    """
    path = Path(path)
    table = read_table(path, columns=_COLUMNS, required=())
    check_colour_columns(table)
    headings = [column for column in table.columns if column not in _COLUMNS]
    dyes = tuple(heading.strip("% ").strip() or heading for heading in headings)
    if not dyes or len(set(dyes)) < len(dyes):
        rule = "must have a column for each dye, with different headings"
        remedy = "Head it with what you call the dye, such as yellow %."
        raise TableError(f"{table.file}, row 1", rule, got=", ".join(table.columns), remedy=remedy)
    samples = tuple(_sample(row, headings, path.parent, read_skein) for row in table.rows)
    used = [i for i in range(len(dyes)) if any(sample.percents[i] for sample in samples)]
    warnings = list(table.warnings)
    if len(used) < len(dyes):
        idle = ", ".join(dyes[i] for i in range(len(dyes)) if i not in used)
        warnings.append(f"{table.file}: no sample holds {idle}; left out.")
    if not used:
        raise TableError(table.file, "must hold at least 3 dyed samples", got="0")
    return DyeSamples(
        file=table.file,
        dyes=tuple(dyes[i] for i in used),
        samples=tuple(_only(sample, used) for sample in samples),
        warnings=tuple(warnings),
    )


def _sample(
    row: TableRow, headings: list[str], folder: Path, read_skein: Callable[[Path], Lab]
) -> DyeSample:
    lab, from_photo = read_colour(row, folder, read_skein=read_skein)
    return DyeSample(
        name=row["name"] or f"row {row.number}",
        percents=tuple(_percent(row, heading) for heading in headings),
        lab=lab,
        hex=lab_to_hex(lab)[0],
        from_photo=from_photo,
    )


def _only(sample: DyeSample, used: list[int]) -> DyeSample:
    return DyeSample(
        name=sample.name,
        percents=tuple(sample.percents[i] for i in used),
        lab=sample.lab,
        hex=sample.hex,
        from_photo=sample.from_photo,
    )


def _percent(row: TableRow, heading: str) -> float:
    """Per cent of one dye; an empty cell is 0."""
    text = row[heading].rstrip("%").strip()
    if not text:
        return 0.0
    try:
        value = parse_number(text)
    except ValueError as problem:
        remedy = "Every column but name, colour, fibre and notes is a dye, in per cent."
        raise row.error(heading, str(problem), got=repr(row[heading]), remedy=remedy) from None
    if not 0 <= value <= _MOST_PERCENT or math.isnan(value):
        rule = f"must be from 0 to {_MOST_PERCENT:g} %"
        raise row.error(heading, rule, got=repr(row[heading]))
    return value
