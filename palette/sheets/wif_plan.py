"""From a weaving information file to a plan: its weft colours and its draft."""

from __future__ import annotations

from collections import Counter
from itertools import groupby

from palette.errors import ContractError, InputError
from palette.loom.draft import Draft
from palette.perception.names import colour_names
from palette.perception.spaces import hex_to_lab
from palette.sheets.wif import WeavingFile
from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, PaletteSource, Swatch

__all__ = ["draft_of_wif", "stripe_plan_of_wif"]


_MOST_NAMED = 100


def stripe_plan_of_wif(
    file: WeavingFile,
    *,
    picks_per_cm: float | None = None,
    shrinkage_length: float = 0.0,
    source: str = "",
) -> StripePlan:
    """Turn the weft colours of a weaving information file into a stripe plan.

    Parameters
    ----------
    file : WeavingFile
    picks_per_cm : float, optional
        On the loom; None: from the file's weft spacing.
    shrinkage_length : float
        Share of the woven length lost in washing.
    source : str
        Name of the file, for the palette's source.

    Returns
    -------
    StripePlan
        A stripe for each run of one colour; the palette holds the colours that are woven, their
        shares by picks, the largest first.

    Raises
    ------
    ContractError
        If the file has no weft colours.
    InputError
        If the picks per cm are neither given nor in the file, or are not more than 0.
    """
    if not file.weft_colours:
        rule = "must hold weft colours: WEFT, COLOR TABLE, WEFT COLORS"
        raise ContractError(source or "weaving file", rule, got="none")
    density = file.picks_per_cm if picks_per_cm is None else picks_per_cm
    if not density > 0:
        remedy = "Give it with --picks: the file has no weft spacing."
        raise InputError("picks per cm", "must be more than 0", got=f"{density:g}", remedy=remedy)
    swatches = _swatches(file)
    stripes, first = [], 1
    for number, run in groupby(file.weft_colours):
        picks = sum(1 for _ in run)
        swatch = swatches[number]
        stripes.append(
            Stripe(
                colour=swatch.name, hex=swatch.hex, lab=swatch.lab, picks=picks, first_pick=first
            )
        )
        first += picks
    ordered = sorted(swatches, key=lambda number: (-swatches[number].share, number))
    palette = Palette(
        swatches=tuple(swatches[number] for number in ordered),
        source=PaletteSource(photos=(source,) if source else ()),
    )
    return StripePlan(
        palette=palette,
        stripes=tuple(stripes),
        picks_per_cm=density,
        finished_length_mm=(first - 1) / density * 10 * (1 - shrinkage_length),
        shrinkage_length=shrinkage_length,
        step=1 if any(stripe.picks % 2 for stripe in stripes) else 2,
        order="read",
        name=file.title,
    )


def _swatches(file: WeavingFile) -> dict[int, Swatch]:
    """Swatch of each colour that is woven, by its number; every name once."""
    picks = Counter(file.weft_colours)
    used = sorted(picks)
    labs = [hex_to_lab(file.colours[number - 1]) for number in used]
    return {
        number: Swatch(
            name=name,
            lab=lab,
            hex=file.colours[number - 1],
            share=picks[number] / len(file.weft_colours),
        )
        for number, name, lab in zip(used, _names(file, used, labs), labs, strict=True)
    }


def _names(file: WeavingFile, used: list[int], labs: list[tuple[float, float, float]]) -> list[str]:
    """Names from the file where it has all of them and no two alike, else from the survey."""
    given = [file.names[number - 1] if number <= len(file.names) else "" for number in used]
    if all(given) and len(set(given)) == len(given):
        return given
    if len(used) <= _MOST_NAMED:
        return list(colour_names(labs))
    return [f"colour {number}" for number in used]


def _repeat(rows: tuple[int, ...]) -> tuple[int, ...]:
    """Shortest run that gives the whole by repeating, a last one cut short allowed.

    By the border of each beginning (Knuth, Morris and Pratt, 1977), in one pass.
    """
    border = [0] * len(rows)
    length = 0
    for index in range(1, len(rows)):
        while length and rows[index] != rows[length]:
            length = border[length - 1]
        length += rows[index] == rows[length]
        border[index] = length
    return rows[: len(rows) - border[-1]] if rows else rows


def draft_of_wif(file: WeavingFile) -> Draft:
    """Turn threading, tie-up and treadling (or lift plan) of a file into a draft.

    Where several treadles are pressed for one pick, or a lift plan is given, each set of shafts
    that rises together becomes a treadle. A tie-up for a sinking shed is turned over.

    Parameters
    ----------
    file : WeavingFile

    Returns
    -------
    Draft
        Threading and treadling cut to their shortest repeat.

    Raises
    ------
    ContractError
        If a part is missing, or an end is on no shaft or on several.
    """
    thing = file.title or "weaving file"
    if not file.threading or not (file.lift_plan or (file.tie_up and file.treadling)):
        rule = "must hold a threading, and a tie-up with treadling or a lift plan"
        raise ContractError(thing, rule)
    for number, shafts in enumerate(file.threading, start=1):
        if len(shafts) != 1:
            raise ContractError(thing, f"end {number} must be on one shaft", got=f"{len(shafts)}")
    threading = _repeat(tuple(shafts[0] for shafts in file.threading))
    tie_up, treadling = _treadles(file, thing)
    return Draft(name=thing, threading=threading, tie_up=tie_up, treadling=_repeat(treadling))


def _treadles(file: WeavingFile, thing: str) -> tuple[tuple[tuple[int, ...], ...], tuple[int, ...]]:
    """Tie-up for a rising shed, and one treadle for each pick."""
    every = frozenset(range(1, file.shafts + 1))
    if not file.lift_plan and all(len(treadles) == 1 for treadles in file.treadling):
        rising = (
            file.tie_up
            if file.rising
            else tuple(tuple(sorted(every - set(shafts))) for shafts in file.tie_up)
        )
        return rising, tuple(treadles[0] for treadles in file.treadling)
    sheds: dict[tuple[int, ...], int] = {}
    treadling = []
    for pick in range(len(file.lift_plan or file.treadling)):
        if file.lift_plan:
            lifted = set(file.lift_plan[pick])
        else:
            pressed = file.treadling[pick]
            if any(treadle > len(file.tie_up) for treadle in pressed):
                rule = f"treadles go up to {len(file.tie_up)} in its tie-up"
                raise ContractError(thing, rule, got=f"{max(pressed)} at pick {pick + 1}")
            lifted = {shaft for treadle in pressed for shaft in file.tie_up[treadle - 1]}
            lifted = lifted if file.rising else set(every) - lifted
        treadling.append(sheds.setdefault(tuple(sorted(lifted)), len(sheds) + 1))
    return tuple(sheds), tuple(treadling)
