"""Reed numberings of the trade."""

import csv
import math
from pathlib import Path

import pytest

from palette.errors import InputError
from palette.loom.reeds import dents_per_cm, ends_for_width

DATA = Path(__file__).parents[1] / "data"
INCH = 2.54


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize(
    "row", rows("loom_reeds.csv"), ids=lambda r: f"{r['number']} {r['system']} {r['ends_per_inch']}"
)
def test_numberings(row):
    dents = dents_per_cm(float(row["number"]), row["system"]) * INCH
    ends = dents * int(row["ends_per_dent"])
    assert round(ends, int(row["decimals"])) == float(row["ends_per_inch"])


def test_a_bradford_reed_has_so_many_dents():
    """A dictionary of textile terms: 72s Bradford, 20 dents to the beer, 40 dents in an inch."""
    assert dents_per_cm(72, "Bradford") * INCH == pytest.approx(40)


def test_ends_in_a_width():
    """Brooks: 38 in of a 60s Stockport reed, 2280 ends; 1100 splits on 37 in, 2260 on 38 in.

    Taylor p.245: 30 in of a 70s Stockport reed, 2100 ends.
    """
    inch = 25.4
    assert ends_for_width(38 * inch, dents_per_cm(60, "Stockport")) == 2280
    assert ends_for_width(38 * inch, dents_per_cm(1100, "Scotch ell"), ends_per_dent=1) == 1130
    assert ends_for_width(38 * inch, dents_per_cm(1100, "Scotch ell")) == 2260
    assert ends_for_width(30 * inch, dents_per_cm(70, "Stockport")) == 2100


def test_refusals():
    with pytest.raises(
        InputError, match=r"reed numbering: must be one of dents per inch, .*'Lyon'"
    ):
        dents_per_cm(40, "Lyon")
    with pytest.raises(InputError, match="reed number: must be more than 0, and finite; got nan"):
        dents_per_cm(math.nan, "Leeds")
