"""The stripes of a cloth in small rows, as many to a card as it holds."""

from __future__ import annotations

from dataclasses import dataclass

from palette.plans.plan import Plan
from palette.sheets.contrast import legible
from palette.sheets.legend import LegendEntry, legend, number_of, stripe_key
from palette.sheets.marks import role_note
from palette.sheets.page import Page
from palette.sheets.style import BOLD, HAIR, INK, QUIET, SMALL, TINY
from palette.stripes.plan import Stripe

__all__ = ["StripeRows", "draw_stripe_rows", "rows_within"]

_ROW_MM = 3.8
_NAMED = (3, 4)  # columns with the colours' names: the fewer, the more room for them
_BARE = 6  # columns of numbers alone, where the cards would be too many
_MOST_NAMED = 160


@dataclass(frozen=True, slots=True, kw_only=True)
class StripeRows:
    """A block of small rows: its columns, its rows, and the first stripe in it.

    Attributes
    ----------
    columns, rows : int
    first : int
        Stripe, from 0.
    left : int
        Stripes from there to the end of the cloth.
    named : bool
        Whether the colours' names stand beside their numbers.
    """

    columns: int
    rows: int
    first: int
    left: int
    named: bool

    @property
    def count(self) -> int:
        """Stripes in the block."""
        return min(self.left, self.columns * self.rows)


def rows_within(stripes: int, first: int, height_mm: float) -> StripeRows:
    """Lay the stripes from `first` on out in rows of a height; what is over is for another card.

    Examples
    --------
    >>> block = rows_within(55, 0, 33.0)
    >>> block.columns, block.rows, block.count
    (4, 8, 32)
    """
    rows = max(0, int(height_mm / _ROW_MM))
    left = stripes - first
    if stripes > _MOST_NAMED:
        return StripeRows(columns=_BARE, rows=rows, first=first, left=left, named=False)
    columns = next((count for count in _NAMED if count * rows >= left), _NAMED[-1])
    return StripeRows(columns=columns, rows=rows, first=first, left=left, named=True)


def draw_stripe_rows(
    page: Page, plan: Plan, cloth: int, block: StripeRows, x: float, y: float, width: float
) -> None:
    """Draw a block of stripes with its top left corner at (x, y), down the columns.

    Parameters
    ----------
    page : Page
    plan : Plan
    cloth : int
        From 0.
    block : StripeRows
    x, y, width : float
        Millimetres on the page.
    """
    entries = legend(plan)
    numbers = number_of(entries)
    stripes = plan.cloths[cloth].stripes
    step = width / block.columns
    down = -(-block.count // block.columns)
    for index in range(block.count):
        stripe = stripes[block.first + index]
        at = x + index // down * step
        top = y + index % down * _ROW_MM
        entry = entries[numbers[stripe_key(stripe)] - 1]
        _row(page, entry, stripe, block.first + index + 1, at, top, step, named=block.named)


def _row(
    page: Page,
    entry: LegendEntry,
    stripe: Stripe,
    number: int,
    x: float,
    y: float,
    width: float,
    *,
    named: bool,
) -> None:
    base = y + 2.8
    page.text(x + 4.5, base, f"{number}", TINY, ink=QUIET, align="right")
    page.box(x + 5.5, y + 0.3, 6, _ROW_MM - 0.6, fill=entry.hex, edge=INK, line_mm=0.1)
    page.text(x + 8.5, base, f"{entry.number}", SMALL, ink=legible(entry.hex), align="centre")
    page.text(x + 20, base, f"{stripe.picks}", BOLD, align="right")
    if named:
        role = role_note(stripe.role)
        words = f"{role}, {stripe.colour}" if role else stripe.colour
        page.text(x + 21.5, base, words, TINY, ink=QUIET, room_mm=width - 22.5)
    page.rule(x, y + _ROW_MM, width - 1.5, ink=HAIR, line_mm=0.06)
