"""Tables for spreadsheets: the stripes and the yarn, as CSV.

Comma-separated after RFC 4180, in UTF-8. A spreadsheet guesses: one set to decimal commas reads
``12.5`` as a date, and one on Windows reads UTF-8 without its mark as something else. So every
number in these tables is whole (millimetres, metres, grams; the exact ones are in the plan
file), and the mark is written only where a name is not plain ASCII. Where the list separator is
the semicolon, ask for that. No cell can start a formula, in whichever way the line is split.
"""

from __future__ import annotations

import csv
import io
import math
import re
from collections.abc import Iterable, Sequence

from palette.errors import InputError
from palette.plans.plan import Plan
from palette.plans.skeins import skeins_of
from palette.stripes.plan import StripePlan
from palette.stripes.table import STRIPE_COLUMNS
from palette.yarn.amounts import YarnAmount

__all__ = ["SKEIN_COLUMNS", "YARN_COLUMNS", "plain_cell", "safe_cell", "stripes_csv", "yarn_csv"]

YARN_COLUMNS = (
    "colour",
    "hex",
    "use",
    "count",
    "picks",
    "starts",
    "net_length_m",
    "length_m",
    "mass_g",
)
SKEIN_COLUMNS = ("skeins", "skeins_mass_g")
"""Further columns where the plan names a size of skein."""
_FORMULA = re.compile(r"(^|[;,|])(\s*)([=+\-@＝＋－＠])")
_GUARDED = re.compile(r"(^|[;,|])(\s*)'([=+\-@＝＋－＠])")
_BREAKS = re.compile(r"[\x00-\x1f\x7f\x85\u2028\u2029]+")
_SEPARATORS = (",", ";", "\t")


def safe_cell(value: object) -> str:
    """Text of a cell that no spreadsheet takes for a formula.

    An apostrophe goes before ``=``, ``+``, ``-`` and ``@`` at the start of the cell, and after
    a separator inside it, where a spreadsheet that splits lines differently would start a
    cell. Line breaks and control characters become spaces.

    Examples
    --------
    >>> safe_cell("=SUM(A1)"), safe_cell("moss;=1"), safe_cell(12)
    ("'=SUM(A1)", "moss;'=1", '12')
    """
    if isinstance(value, int):
        return str(value)
    return _FORMULA.sub(r"\1\2'\3", _BREAKS.sub(" ", str(value)).strip())


def plain_cell(text: str) -> str:
    """Take the guard of `safe_cell` away again.

    Examples
    --------
    >>> plain_cell("'=moss")
    '=moss'
    """
    return _GUARDED.sub(r"\1\2\3", text.strip())


def _table(columns: Sequence[str], rows: Iterable[Sequence[object]], separator: str) -> bytes:
    if separator not in _SEPARATORS:
        rule = "must be a comma, a semicolon or a tab"
        raise InputError("table separator", rule, got=repr(separator))
    stream = io.StringIO()
    writer = csv.writer(stream, delimiter=separator, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows([safe_cell(cell) for cell in row] for row in rows)
    text = stream.getvalue()
    return text.encode("utf-8" if text.isascii() else "utf-8-sig")


def stripes_csv(plan: Plan | StripePlan, *, separator: str = ",") -> bytes:
    """Write the stripes of a plan as a table, one row each, in weaving order.

    Parameters
    ----------
    plan : Plan or StripePlan
        With several cloths a column ``cloth`` comes first.
    separator : str
        Between the cells: a comma, a semicolon or a tab.

    Returns
    -------
    bytes
        CSV; `woven_mm` and `finished_mm` are to the nearest millimetre, halves up. Running
        lengths follow from the picks, not from their sum.
    """
    cloths = plan.cloths if isinstance(plan, Plan) else (plan,)
    several = len(cloths) > 1
    rows: list[list[object]] = []
    for cloth_number, cloth in enumerate(cloths, start=1):
        name = cloth.name or f"cloth {cloth_number}"
        rows += [[name, *row] if several else row for row in _stripe_rows(cloth)]
    return _table((("cloth",) if several else ()) + STRIPE_COLUMNS, rows, separator)


def _stripe_rows(cloth: StripePlan) -> list[list[object]]:
    mm_per_pick = 10 / cloth.picks_per_cm
    kept = 1 - cloth.shrinkage_length
    return [
        [
            number,
            stripe.colour,
            stripe.hex,
            stripe.picks,
            stripe.first_pick,
            stripe.last_pick,
            _whole(stripe.picks * mm_per_pick),
            _whole(stripe.picks * mm_per_pick * kept),
            stripe.role,
        ]
        for number, stripe in enumerate(cloth.stripes, start=1)
    ]


def _whole(value: float) -> int:
    """Nearest whole number, halves up."""
    return math.floor(round(value, 6) + 0.5)


def _up(value: float) -> int:
    """Whole number above, so that yarn is never short."""
    return math.ceil(round(value, 6))


def yarn_csv(yarns: Plan | Iterable[YarnAmount], *, separator: str = ",") -> bytes:
    """Write the yarn to have ready as a table, one row for each yarn and use.

    Parameters
    ----------
    yarns : Plan or iterable of YarnAmount
    separator : str
        Between the cells: a comma, a semicolon or a tab.

    Returns
    -------
    bytes
        CSV; metres and grams are rounded up, so that none is short. Whole skeins stand in the
        last columns where the plan names their size.
    """
    amounts = yarns.yarns if isinstance(yarns, Plan) else yarns
    skeins = skeins_of(yarns) if isinstance(yarns, Plan) else ()
    rows = [
        [
            yarn.colour,
            yarn.hex,
            yarn.use,
            yarn.count,
            yarn.picks,
            yarn.starts,
            _up(yarn.net_length_m),
            _up(yarn.length_m),
            _up(yarn.mass_g),
        ]
        for yarn in amounts
    ]
    if not skeins:
        return _table(YARN_COLUMNS, rows, separator)
    whole = [[each.number, _up(each.mass_g)] for each in skeins]
    rows = [[*row, *more] for row, more in zip(rows, whole, strict=True)]
    return _table((*YARN_COLUMNS, *SKEIN_COLUMNS), rows, separator)
