"""A weft yarn, and a length of it while a plan is put together."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from palette.stripes.plan import Role, Stripe
from palette.swatches.palette import Swatch

__all__ = ["Piece", "Weft", "join_pieces", "number_picks"]


class Weft(NamedTuple):
    """A yarn that is thrown: its name, ``#rrggbb``, and CIELAB D65."""

    name: str
    hex: str
    lab: tuple[float, float, float]

    @classmethod
    def of(cls, swatch: Swatch | Stripe) -> Weft:
        """Give the yarn of a swatch or of a stripe."""
        name = swatch.name if isinstance(swatch, Swatch) else swatch.colour
        return cls(name, swatch.hex, swatch.lab)


class Piece(NamedTuple):
    """Picks of one weft in a row, and what they are for."""

    weft: Weft
    picks: int
    role: Role = "stripe"


def join_pieces(pieces: Iterable[Piece]) -> tuple[Piece, ...]:
    """Make one piece of neighbours that share weft and role, and leave out empty ones."""
    joined: list[Piece] = []
    for piece in pieces:
        if piece.picks == 0:
            continue
        if joined and joined[-1].weft == piece.weft and joined[-1].role == piece.role:
            joined[-1] = joined[-1]._replace(picks=joined[-1].picks + piece.picks)
        else:
            joined.append(piece)
    return tuple(joined)


def number_picks(pieces: Iterable[Piece]) -> tuple[Stripe, ...]:
    """Make stripes of pieces: the first begins at pick 1, each where the one before ends.

    Examples
    --------
    >>> moss = Weft("moss", "#5d733a", (45.0, -15.0, 30.0))
    >>> [(stripe.first_pick, stripe.last_pick) for stripe in
    ...     number_picks((Piece(moss, 4, "hem"), Piece(moss, 6)))]
    [(1, 4), (5, 10)]
    """
    first, stripes = 1, []
    for weft, picks, role in pieces:
        stripes.append(
            Stripe(
                colour=weft.name,
                hex=weft.hex,
                lab=weft.lab,
                picks=picks,
                first_pick=first,
                role=role,
            )
        )
        first += picks
    return tuple(stripes)
