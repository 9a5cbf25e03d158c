"""The one list of orders: what each is called, what it does, and what it binds.

Nothing heavy is imported here, so a command can print its help from it.
"""

from __future__ import annotations

import difflib
from collections.abc import Callable
from dataclasses import dataclass

from palette.errors import InputError
from palette.stripes.lines import LINES, in_line
from palette.stripes.material import Material, Run
from palette.stripes.scattering import hit_and_miss, scattered
from palette.stripes.symmetry import counterchange, mirrored
from palette.stripes.widths import fibonacci, graded

__all__ = ["COMPOSED", "ORDERS", "Order", "order_named"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """A way to arrange colours.

    Attributes
    ----------
    name : str
        What is typed.
    line : str
        What it does, in one line.
    arrange : callable
        Material to runs, first woven first.
    binds : str
        Why it may move a colour from its share, or "" where it never does.
    repeats : int
        How often it is repeated where nothing else is asked.
    has_ground : bool
        Whether it sets the colours on a ground by itself.
    mirrors : bool
        Whether its widths read the same from both ends.
    """

    name: str
    line: str
    arrange: Callable[[Material], tuple[Run, ...]]
    binds: str = ""
    repeats: int = 1
    has_ground: bool = False
    mirrors: bool = False


def _composed(material: Material) -> tuple[Run, ...]:
    """Set the colours in the line that was asked for."""
    return in_line(LINES[material.inner])(material)


ORDERS: dict[str, Order] = {
    order.name: order
    for order in (
        Order(
            name="photo",
            line="as the colours stand in the photograph, from top to bottom",
            arrange=in_line(LINES["photo"]),
        ),
        Order(
            name="light-dark",
            line="from the lightest colour to the darkest",
            arrange=in_line(LINES["light-dark"]),
        ),
        Order(
            name="dark-light",
            line="from the darkest colour to the lightest",
            arrange=in_line(LINES["dark-light"]),
        ),
        Order(
            name="hue",
            line="round the circle of hues, greys last",
            arrange=in_line(LINES["hue"]),
        ),
        Order(
            name="nearest",
            line="each colour beside its nearest, no harsh jumps",
            arrange=in_line(LINES["nearest"]),
        ),
        Order(
            name="mirrored",
            line="mirrored about the middle",
            arrange=mirrored,
            mirrors=True,
            binds="both halves of a mirrored cloth must match",
        ),
        Order(
            name="repeated",
            line="one repeat woven several times over",
            arrange=_composed,
            repeats=3,
        ),
        Order(
            name="counterchange",
            line="mirrored, with two colours changing places in the second half",
            arrange=counterchange,
            mirrors=True,
            binds="two colours that change places come to the same number of picks",
        ),
        Order(
            name="graded",
            line="every colour in stripes that widen evenly: n, 2n, 3n, 4n, 5n",
            arrange=graded,
        ),
        Order(
            name="fibonacci",
            line="widths 1 1 2 3 5 8, every other colour from wide to narrow",
            arrange=fibonacci,
        ),
        Order(
            name="scattered",
            line="accents spread evenly on a ground",
            arrange=scattered,
            binds="the ground must reach between all the accents",
            has_ground=True,
        ),
        Order(
            name="hit-and-miss",
            line="widths and places by chance, no colour twice running",
            arrange=hit_and_miss,
        ),
    )
}


COMPOSED = frozenset(("mirrored", "repeated", "counterchange", "graded", "fibonacci", "scattered"))
"""Orders that set their colours in an inner line."""


def order_named(name: str) -> Order:
    """Order with this name.

    Raises
    ------
    InputError
        There is none.

    Examples
    --------
    >>> order_named("mirrored").line
    'mirrored about the middle'
    """
    if name not in ORDERS:
        near = difflib.get_close_matches(name.lower(), ORDERS, n=1)
        remedy = f"Did you mean {near[0]}?" if near else ""
        rule = f"must be one of {', '.join(ORDERS)}"
        raise InputError("order", rule, got=repr(name), remedy=remedy)
    return ORDERS[name]
