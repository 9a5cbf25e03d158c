"""Hems and borders: plain picks at both ends of a cloth, in a yarn of their own."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from palette.errors import InputError
from palette.stripes.lengths import picks_for_length
from palette.stripes.weft import Piece, Weft
from palette.swatches.palette import Palette

__all__ = ["Edge", "edge_picks", "edge_pieces"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A hem or border, woven in plain weave at both ends of the cloth.

    Attributes
    ----------
    role : {"hem", "border"}
    picks : int
        At each end; rounded up to a whole step.
    length_mm : float
        Finished length at each end, instead of `picks`; rounded to the nearest step.
    colour : str
        A colour of the palette, or the name of its own yarn; "": the colour of the first stripe.
    hex : str
        ``#rrggbb`` of its own yarn; "": the colour is one of the palette's.
    lab : tuple of 3 float, optional
        CIELAB D65 of its own yarn; None: from `hex`.
    """

    role: Literal["hem", "border"] = "hem"
    picks: int = 0
    length_mm: float = 0.0
    colour: str = ""
    hex: str = ""
    lab: tuple[float, float, float] | None = None

    def __post_init__(self) -> None:
        """Refuse an edge that has no size, or two."""
        if not (self.picks >= 0 and self.length_mm >= 0 and math.isfinite(self.length_mm)):
            raise InputError(self.role, "must be 0 or more", got=f"{self.picks or self.length_mm}")
        if (self.picks > 0) == (self.length_mm > 0):
            raise InputError(self.role, "must have picks or a length, one of the two")
        if self.hex and not self.colour.strip():
            raise InputError(self.role, "a yarn of its own must have a name", got="none")


def edge_picks(edge: Edge, picks_per_cm: float, shrinkage_length: float, step: int) -> int:
    """Give the picks of an edge at one end of the cloth, a multiple of the step.

    Examples
    --------
    >>> edge_picks(Edge(length_mm=25), 8, 0.1, 2)
    22
    >>> edge_picks(Edge(picks=9), 8, 0.1, 2)
    10
    """
    if edge.picks:
        return -(-edge.picks // step) * step
    picks = picks_for_length(
        edge.length_mm, picks_per_cm, shrinkage_length=shrinkage_length, step=step
    )
    return max(picks, step)


def _weft(edge: Edge, palette: Palette, beside: Weft) -> Weft:
    """Yarn of an edge: its own, one of the palette's, or the one beside it."""
    known = {swatch.name: Weft.of(swatch) for swatch in palette.swatches}
    if not edge.colour:
        return beside
    if edge.hex:
        from palette.perception.spaces import hex_to_lab

        own = Weft(edge.colour, edge.hex, edge.lab or hex_to_lab(edge.hex))
        if edge.colour in known and known[edge.colour].hex != edge.hex:
            rule = "a yarn of its own must not have the name of another colour"
            raise InputError(edge.role, rule, got=edge.colour, remedy="Give it another name.")
        return own
    if edge.colour not in known:
        rule = f"must name a colour of the palette ({', '.join(known)}), or give its hex"
        raise InputError(edge.role, rule, got=repr(edge.colour))
    return known[edge.colour]


def edge_pieces(
    edges: Iterable[Edge], palette: Palette, *, beside: Weft, picks: Iterable[int]
) -> tuple[Piece, ...]:
    """Pieces of the edges at the beginning of the cloth, from the outside in.

    Parameters
    ----------
    edges : iterable of Edge
        From the outside in.
    palette : Palette
        Whose colours they may use.
    beside : Weft
        Yarn of an edge that names none: that of the first stripe.
    picks : iterable of int
        Picks of each, from `edge_picks`.

    Returns
    -------
    tuple of Piece
        At the end of the cloth they follow in reverse.
    """
    return tuple(
        Piece(_weft(edge, palette, beside), count, edge.role)
        for edge, count in zip(edges, picks, strict=True)
    )
