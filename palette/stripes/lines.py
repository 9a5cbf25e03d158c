"""Lines: every colour once, one after the other."""

from __future__ import annotations

import math
from collections.abc import Callable

from palette.errors import InputError
from palette.stripes.material import Material, Run
from palette.stripes.shortest_path import shortest_path

__all__ = [
    "DIRECTIONS",
    "LINES",
    "dark_to_light",
    "hue_circle",
    "in_line",
    "light_to_dark",
    "line_of",
    "nearest_neighbours",
    "photo_order",
]

DIRECTIONS = {
    "top-bottom": "the top of the photograph is woven first",
    "bottom-top": "the foot of the photograph is woven first",
    "left-right": "the left of the photograph is woven first",
    "right-left": "the right of the photograph is woven first",
}

NEUTRAL_CHROMA = 5.0  # CIELAB chroma under which a hue angle says little; common practice


def photo_order(material: Material) -> tuple[int, ...]:
    """Order the colours as they stand in the photograph, along `material.direction`."""
    if material.direction not in DIRECTIONS:
        rule = f"must be one of {', '.join(DIRECTIONS)}"
        raise InputError("direction", rule, got=repr(material.direction))
    axis = 1 if material.direction in ("top-bottom", "bottom-top") else 0
    sign = 1 if material.direction in ("top-bottom", "left-right") else -1
    return tuple(sorted(range(material.count), key=lambda i: (sign * material.places[i][axis], i)))


def light_to_dark(material: Material) -> tuple[int, ...]:
    """Order by CIELAB lightness, lightest first."""
    return tuple(sorted(range(material.count), key=lambda i: (-material.labs[i][0], i)))


def dark_to_light(material: Material) -> tuple[int, ...]:
    """Order by CIELAB lightness, darkest first."""
    return light_to_dark(material)[::-1]


def hue_circle(material: Material) -> tuple[int, ...]:
    """Go round the CIELAB hue circle, and end with the greys from light to dark.

    The circle is opened at its widest gap, so that neighbouring hues stay together.
    """
    chroma = [math.hypot(a, b) for _, a, b in material.labs]
    hued = [i for i in range(material.count) if chroma[i] >= NEUTRAL_CHROMA]
    greys = [i for i in light_to_dark(material) if chroma[i] < NEUTRAL_CHROMA]
    angle = {i: math.atan2(material.labs[i][2], material.labs[i][1]) % math.tau for i in hued}
    hued.sort(key=lambda i: (angle[i], i))
    gaps = [(angle[hued[k]] - angle[hued[k - 1]]) % math.tau for k in range(len(hued))]
    opening = gaps.index(max(gaps)) if gaps else 0
    return (*hued[opening:], *hued[:opening], *greys)


def nearest_neighbours(material: Material) -> tuple[int, ...]:
    """Take the shortest path through CIELAB, beginning at its lighter end.

    Distances are CIELAB Euclidean (CIE 1976): the path spans large differences, for which
    CIEDE2000 was not fitted, and it does not keep the triangle inequality.
    """
    path = shortest_path(material.labs)
    first, last = material.labs[path[0]][0], material.labs[path[-1]][0]
    return path if (first, path[-1]) >= (last, path[0]) else path[::-1]


LINES: dict[str, Callable[[Material], tuple[int, ...]]] = {
    "photo": photo_order,
    "light-dark": light_to_dark,
    "dark-light": dark_to_light,
    "hue": hue_circle,
    "nearest": nearest_neighbours,
}


def line_of(material: Material) -> tuple[int, ...]:
    """Colours in the line that a composed order was asked to use."""
    if material.inner not in LINES:
        rule = f"must be one of {', '.join(LINES)}"
        raise InputError("inner order", rule, got=repr(material.inner))
    return LINES[material.inner](material)


def in_line(
    line: Callable[[Material], tuple[int, ...]],
) -> Callable[[Material], tuple[Run, ...]]:
    """Make a sequence of a line: each colour is one stripe with all of its steps."""

    def arrange(material: Material) -> tuple[Run, ...]:
        steps = material.steps()
        return tuple(Run(i, steps[i]) for i in line(material))

    arrange.__doc__ = line.__doc__
    return arrange
