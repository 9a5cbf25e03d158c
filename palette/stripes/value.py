"""Value: neighbouring stripes too near in lightness to tell apart, or too far apart."""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from typing import Literal

from palette.stripes.plan import Stripe, StripePlan

__all__ = ["DISTINCT_COLOUR", "NEAR_LIGHTNESS", "STRONG_LIGHTNESS", "ValueNote", "value_notes"]

NEAR_LIGHTNESS = 5.0  # L*, common practice: stripes nearer than this merge when one squints
STRONG_LIGHTNESS = 45.0  # L*, common practice: past this the stripe is seen before the weave
DISTINCT_COLOUR = 25.0  # CIELAB, common practice: hues this far apart never read as one


@dataclass(frozen=True, slots=True, kw_only=True)
class ValueNote:
    """Two colours that lie side by side, and how their lightness differs.

    Attributes
    ----------
    colours : tuple of 2 str
        The lighter first.
    kind : {"near", "strong"}
    lightness_difference : float
        CIELAB L*, 0 or more.
    colour_difference : float
        CIELAB Euclidean (CIE 1976), lightness included.
    places : tuple of int
        Numbers of the stripes, from 1, after which the two meet.
    """

    colours: tuple[str, str]
    kind: Literal["near", "strong"]
    lightness_difference: float
    colour_difference: float
    places: tuple[int, ...]

    @property
    def sentence(self) -> str:
        """What to look at, with figures."""
        lighter, darker = self.colours
        meet = f"{len(self.places)} time{'s' * (len(self.places) > 1)}"
        figures = (
            f"{lighter} and {darker} lie side by side {meet} and differ by "
            f"{self.lightness_difference:.1f} in lightness (L*)"
        )
        if self.kind == "near" and self.colour_difference > DISTINCT_COLOUR:
            return (
                f"{figures}, though {self.colour_difference:.1f} in colour: the edge between "
                "them will be soft, for the eye draws edges by lightness."
            )
        if self.kind == "near":
            return (
                f"{figures}, {self.colour_difference:.1f} in colour: from some way off they "
                "will read as one stripe."
            )
        return f"{figures}: a contrast this strong will swallow the weave's own pattern."


def value_notes(
    plan: StripePlan, *, near: float = NEAR_LIGHTNESS, strong: float = STRONG_LIGHTNESS
) -> tuple[ValueNote, ...]:
    """Point out neighbouring stripes that read as one, and those that drown the weave.

    Parameters
    ----------
    plan : StripePlan
        Soft changes are left out: there the colours are meant to run together.
    near, strong : float
        Differences of CIELAB lightness L*: at most `near` reads as one, at least `strong` is
        seen before the weave. Both are common practice, without a published source.

    Returns
    -------
    tuple of ValueNote
        Each pair of colours once, in the order in which they first meet.

    Examples
    --------
    >>> from palette.stripes.weft import Piece, Weft, number_picks
    >>> from palette.swatches.palette import Palette, Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> pieces = (Piece(Weft.of(moss), 20), Piece(Weft("plum", "#7c5a72", (43.0, 18.0, -9.0)), 20))
    >>> plan = StripePlan(palette=Palette(swatches=(moss,)), stripes=number_picks(pieces),
    ...     picks_per_cm=8, finished_length_mm=50)
    >>> [(note.kind, note.lightness_difference) for note in value_notes(plan)]
    [('near', 2.0)]
    """
    meetings: dict[tuple[str, str], list[int]] = defaultdict(list)
    wefts: dict[str, Stripe] = {}
    for number, (one, other) in enumerate(
        zip(plan.stripes, plan.stripes[1:], strict=False), start=1
    ):
        if one.colour == other.colour or "blend" in (one.role, other.role):
            continue
        lighter, darker = sorted((one, other), key=lambda stripe: (-stripe.lab[0], stripe.colour))
        meetings[lighter.colour, darker.colour].append(number)
        wefts |= {one.colour: one, other.colour: other}
    notes = []
    for pair, places in meetings.items():
        first, second = wefts[pair[0]].lab, wefts[pair[1]].lab
        difference = abs(first[0] - second[0])
        if difference <= near or difference >= strong:
            notes.append(
                ValueNote(
                    colours=pair,
                    kind="near" if difference <= near else "strong",
                    lightness_difference=difference,
                    colour_difference=math.dist(first, second),
                    places=tuple(places),
                )
            )
    return tuple(notes)
