"""What a check half way finds, colour by colour."""

from __future__ import annotations

from dataclasses import dataclass

from palette.stripes.plan import Stripe
from palette.yarn.halfway import NOISE_G

__all__ = ["Check", "ColourCheck", "Guess"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Guess:
    """What one colour would come to, if it took as much as the colours that were weighed.

    Attributes
    ----------
    left_g, needed_g : float
    runs_out_at_pick : int or None
    runs_out_at_mm : float or None
        As in `ColourCheck`.
    """

    left_g: float
    needed_g: float
    runs_out_at_pick: int | None = None
    runs_out_at_mm: float | None = None

    @property
    def lasts(self) -> bool:
        """Whether it would be enough for the cloth as planned."""
        return self.left_g - self.needed_g >= -NOISE_G


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourCheck:
    """What one colour has done so far, and whether it lasts.

    Attributes
    ----------
    colour, hex : str
    had_g : float or None
        At the start; None where it is not known.
    left_g : float
        Now.
    weighed : bool
        False where `left_g` was not given and is reckoned from the plan's use.
    begun : bool
        Whether any of it has been woven.
    own_use : bool
        Whether `needed_g` goes by what this colour was found to take; False: as planned.
    used_g : float or None
        So far; None where the start is not known.
    planned_used_g : float
        What the plan has for the same picks.
    g_per_pick, planned_g_per_pick : float
        One pick, from what was used, and in the plan.
    needed_g : float
        For the rest of the cloth at its planned length, and for the cloths after it.
    runs_out_at_pick : int or None
        Last pick that the yarn is enough for, counted from the first of the cloth; None where
        it lasts.
    runs_out_at_mm : float or None
        The same as woven length.
    guess : Guess or None
        The other answer, for a colour without a use of its own: with the use of the colours
        that were weighed. None where that is not more than planned.
    """

    colour: str
    hex: str
    had_g: float | None
    left_g: float
    weighed: bool
    begun: bool
    own_use: bool
    used_g: float | None
    planned_used_g: float
    g_per_pick: float
    planned_g_per_pick: float
    needed_g: float
    runs_out_at_pick: int | None = None
    runs_out_at_mm: float | None = None
    guess: Guess | None = None

    @property
    def balance_g(self) -> float:
        """Grams over at the end; negative where they are short."""
        return self.left_g - self.needed_g

    @property
    def lasts(self) -> bool:
        """Whether it is enough for the cloth as planned; where it was not weighed, by the plan."""
        return self.balance_g >= -NOISE_G


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """The state of a cloth half way.

    Attributes
    ----------
    woven_mm : float
        Woven so far, tension slackened.
    picks_woven : int
        Picks thrown so far.
    picks_per_cm, planned_picks_per_cm : float
        What is really on the loom, and in the plan.
    colours : tuple of ColourCheck
        In the order of the plan.
    rest_as_planned : tuple of Stripe
        What is still to be woven to reach the planned length, numbered on from the picks woven.
    rest : tuple of Stripe
        The same fitted to the yarn there is; equal to it where all weighed colours last. What
        was not weighed changes nothing.
    woven_length_mm : float
        Of the whole cloth with `rest`.
    planned_length_mm : float
    borrowed_ratio : float
        What the weighed colours take together for each gram planned, at least 1: the use that
        the guesses are made with.
    borrowed_from : tuple of str
        The colours that it comes from.
    warnings : tuple of str
        What was assumed and what was changed, as sentences.
    """

    woven_mm: float
    picks_woven: int
    picks_per_cm: float
    planned_picks_per_cm: float
    colours: tuple[ColourCheck, ...]
    rest_as_planned: tuple[Stripe, ...]
    rest: tuple[Stripe, ...]
    woven_length_mm: float
    planned_length_mm: float
    borrowed_ratio: float = 1.0
    borrowed_from: tuple[str, ...] = ()
    warnings: tuple[str, ...] = ()

    @property
    def lasts(self) -> bool:
        """Whether every colour is enough for the planned length."""
        return all(colour.lasts for colour in self.colours)

    @property
    def must_change(self) -> bool:
        """Whether a colour that was weighed is not enough for the planned length."""
        return any(colour.weighed and not colour.lasts for colour in self.colours)

    @property
    def first_to_run_out(self) -> ColourCheck | None:
        """The colour that runs out first, or None."""
        short = [colour for colour in self.colours if colour.runs_out_at_pick is not None]
        return min(short, key=lambda colour: colour.runs_out_at_pick or 0, default=None)
