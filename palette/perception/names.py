"""Names that a person would say, from a published survey of colour names."""

from __future__ import annotations

import re
from functools import cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from palette.perception.difference import ciede2000
from palette.perception.even import lab_to_even
from palette.perception.spaces import srgb8_to_lab

__all__ = ["colour_names", "survey"]

# Words that nobody wants on a sheet (matched inside a name), names of firms, teams and figures,
# misspellings, and colours run together that have a name of two words beside them.
_RUDE = re.compile(
    r"shit|poo|puke|vomit|barf|snot|booger|piss|pee\b|urine|diarrhea|fecal|faec|sick|nasty|gross"
    r"|icky|ugly|bile|nude|flesh|skin|(?<!olive )drab|bland|dirty|spew|toxic|radioactive|nuclear"
    r"|camo|army|military|battleship|mud|murky|slime|dirt|indian|poison|boring|weird|nice"
    r"|barbie|dodger|carolina|racing|hospital|hunter|adobe|pig |highlighter|fire engine|burple"
    r"|kermit|barney|windows|tiffany|perrywinkle|bruise|blood|purpleish|bluegrey|mac and|macaroni"
    r"|urple\b(?<!purple)|blue blue|light light|^(dark|pale|royal|dusk|swamp)$|^flat "
    r"|^off (?!white)|fluro|forrest|liliac|lavendar|\bocre|ocher|toupe|terracota|siena\b|creme"
    r"|kelley|robin egg"
    r"|lightblue|lightgreen|darkblue|darkgreen|bluegreen|greenblue|greyblue|orangered|yellowgreen"
)

_NEAR_NAMES = 12


@cache
def survey() -> tuple[tuple[str, ...], NDArray[np.float64]]:
    """Names of the survey and their CIELAB colours.

    Returns
    -------
    names : tuple of str
    labs : ndarray of shape (n, 3)

    References
    ----------
    The xkcd colour name survey (2010), the most common names of monitor colours, 949 of them as
    matplotlib carries them; the rude ones and those of firms and figures are left out.

    Examples
    --------
    >>> names, labs = survey()
    >>> "moss green" in names, len(names) == len(labs)
    (True, True)
    """
    from matplotlib.colors import XKCD_COLORS

    named = ((name.removeprefix("xkcd:"), code) for name, code in sorted(XKCD_COLORS.items()))
    chosen = {name.replace("/", " "): code for name, code in named if not _RUDE.search(name)}
    codes = [tuple(bytes.fromhex(code.removeprefix("#"))) for code in chosen.values()]
    labs = srgb8_to_lab(codes)
    labs.flags.writeable = False  # every caller gets the same one
    return tuple(chosen), labs


def colour_names(labs: ArrayLike) -> tuple[str, ...]:
    """Name of each colour, every name once: the best naming of them all together.

    Parameters
    ----------
    labs : array_like of shape (n, 3)
        CIELAB D65.

    Returns
    -------
    tuple of n str

    Notes
    -----
    The names are dealt out so that the sum of CIEDE2000 between colours and names is least
    (assignment problem, Kuhn 1955), which a name-by-name choice would not reach.

    Examples
    --------
    >>> colour_names([[100.0, 0.0, 0.0], [0.0, 0.0, 0.0]])
    ('white', 'black')
    """
    from scipy.optimize import linear_sum_assignment

    colours = np.asarray(labs, dtype=float).reshape(-1, 3)
    names, anchors = survey()
    likely = _likely(colours)
    cost = ciede2000(colours[:, None], anchors[likely][None])
    rows, columns = linear_sum_assignment(cost)
    dealt = dict(zip(rows.tolist(), columns.tolist(), strict=True))
    return tuple(names[likely[dealt[row]]] for row in range(len(colours)))


@cache
def _even_survey() -> NDArray[np.float64]:
    return lab_to_even(survey()[1])


def _likely(colours: NDArray[np.float64]) -> NDArray[np.intp]:
    """Rows of the names that come near any of the colours, enough for each to get its own."""
    anchors = _even_survey()
    square = ((lab_to_even(colours)[:, None] - anchors[None]) ** 2).sum(axis=2)
    most = min(len(anchors), len(colours) + _NEAR_NAMES)
    return np.unique(np.argsort(square, axis=1, kind="stable")[:, :most])
