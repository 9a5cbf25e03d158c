"""Drafts that are ready to use, and a weaver's own read from text."""

from __future__ import annotations

import difflib
import re

from palette.errors import InputError, WeavingError
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.structure import structure_of

__all__ = ["WEAVES", "check_draft", "draft_text", "parse_draft", "weave_named"]

_TABBY_4 = ((1, 3), (2, 4))


def _straight(name: str, tie_up: tuple[tuple[int, ...], ...]) -> Draft:
    return Draft(
        name=name, threading=(1, 2, 3, 4), tie_up=(*tie_up, *_TABBY_4), treadling=(1, 2, 3, 4)
    )


_DRAFTS = (
    PLAIN_WEAVE,
    _straight("2/2 twill", ((1, 2), (2, 3), (3, 4), (1, 4))),
    _straight("1/3 twill", ((1,), (2,), (3,), (4,))),
    _straight("3/1 twill", ((1, 2, 3), (2, 3, 4), (1, 3, 4), (1, 2, 4))),
    Draft(
        name="point twill",
        threading=(1, 2, 3, 4, 3, 2),
        tie_up=((1, 2), (2, 3), (3, 4), (1, 4), *_TABBY_4),
        treadling=(1, 2, 3, 4, 3, 2),
    ),
    Draft(
        name="basket",
        threading=(1, 1, 2, 2),
        tie_up=((1,), (2,)),
        treadling=(1, 1, 2, 2),
    ),
    Draft(
        name="huck lace",
        # Two half units of five. Treadles 1 and 2 weave plain; 3 and 4 leave one half unit down,
        # so that the weft floats over its five ends.
        threading=(1, 3, 1, 3, 1, 2, 4, 2, 4, 2),
        tie_up=((1, 4), (2, 3), (2,), (1,)),
        treadling=(1, 3, 1, 3, 1, 2, 4, 2, 4, 2),
    ),
)
WEAVES: dict[str, Draft] = {draft.name: draft for draft in _DRAFTS}
"""Weaves by name; twills and the point twill carry two treadles for plain weave as well."""

_EXAMPLE = "Write it like '1 2 3 4; 1+2, 2+3, 3+4, 4+1; 1 2 3 4': threading; tie-up; treadling."
_RUN = re.compile(r"(\d+)-(\d+)")
_MOST_IN_REPEAT = 10_000  # more is a typing error, not a repeat


def weave_named(name: str) -> Draft:
    """Look up a weave by its name.

    Raises
    ------
    InputError
        Where there is none; the message lists them.

    Examples
    --------
    >>> weave_named("2/2 twill").shafts
    4
    """
    wanted = " ".join(name.lower().split())
    draft = WEAVES.get("plain weave" if wanted == "plain" else wanted)
    if draft is None:
        near = difflib.get_close_matches(wanted, WEAVES, n=1)
        hint = f"Did you mean {near[0]}? " if near else ""
        rule = f"must be one of {', '.join(WEAVES)}, or a draft as text"
        raise InputError("weave", rule, got=repr(name), remedy=hint + _EXAMPLE)
    return draft


def _unreadable(part: str, rule: str, got: str) -> InputError:
    return InputError(part, rule, got=repr(got), remedy=_EXAMPLE)


def _number(word: str, part: str) -> int:
    if not (word.isascii() and word.isdigit()):
        raise _unreadable(part, "must be numbers from 1", word)
    return int(word)


def _threads(text: str, part: str) -> tuple[int, ...]:
    """Read a row of numbers: ``1 2 3 4``, ``1,2,3,4``, ``1234`` or runs like ``1-4 3-2``."""
    words = re.split(r"[\s,]+", text.strip())
    if len(words) == 1 and words[0].isdigit():
        words = list(words[0])  # digits run together
    numbers: list[int] = []
    for word in words:
        run = _RUN.fullmatch(word)
        if run:
            first, last = int(run[1]), int(run[2])
            if abs(last - first) >= _MOST_IN_REPEAT:
                raise _unreadable(part, "run is too long", word)
            way = 1 if last >= first else -1
            numbers.extend(range(first, last + way, way))
        else:
            numbers.append(_number(word, part))
    if len(numbers) > _MOST_IN_REPEAT:
        raise _unreadable(part, f"must have at most {_MOST_IN_REPEAT} numbers", f"{len(numbers)}")
    return tuple(numbers)


def _treadle(word: str) -> tuple[int, ...]:
    """Read the shafts of one treadle: ``1+2``, ``12``, and ``12+`` for shaft 12 alone."""
    if "+" in word:
        shafts = [shaft for shaft in word.replace(" ", "").split("+") if shaft]
    else:
        shafts = [word] if "0" in word else list(word)
    if not shafts:
        raise _unreadable("tie-up", "each treadle must lift at least one shaft", word)
    return tuple(sorted({_number(shaft, "tie-up") for shaft in shafts}))


def _tie_up(text: str) -> tuple[tuple[int, ...], ...]:
    """Read the treadles: shafts joined by ``+`` or run together, treadles apart by commas."""
    joined = re.sub(r"\s*\+\s*(?=\d)", "+", text.strip())
    return tuple(_treadle(word) for word in re.split(r"\s*,\s*|\s+", joined))


def parse_draft(text: str, *, name: str = "own draft") -> Draft:
    """Read a weave by its name, or a draft from text.

    Parameters
    ----------
    text : str
        ``2/2 twill``, or ``threading; tie-up; treadling``. Threading and treadling are numbers
        with spaces or commas, digits run together (``1234``) or runs (``1-4 3-2``); in the
        tie-up the shafts of a treadle are joined by ``+`` (``1+2``) or run together (``12``),
        treadles are apart by commas or spaces.
    name : str
        What to call a draft that is not one of `WEAVES`.

    Returns
    -------
    Draft

    Raises
    ------
    InputError
        Where it cannot be read, or names treadles or shafts that it does not have.

    Examples
    --------
    >>> parse_draft("1-4; 12 23 34 14; 1-4 3-2").treadling
    (1, 2, 3, 4, 3, 2)
    """
    if ";" not in text:
        return weave_named(text)
    parts = [part.strip() for part in text.split(";")]
    if len(parts) != 3 or not all(parts):
        raise _unreadable("draft", "must have three parts with semicolons between", text)
    draft = Draft(
        name=name,
        threading=_threads(parts[0], "threading"),
        tie_up=_tie_up(parts[1]),
        treadling=_threads(parts[2], "treadling"),
    )
    lifted = {shaft for treadle in draft.tie_up for shaft in treadle}
    idle = sorted(set(draft.threading) - lifted)
    if idle:
        rule = "must lift every shaft that is threaded"
        raise _unreadable("tie-up", rule, f"no treadle for shaft {', '.join(map(str, idle))}")
    return draft


def draft_text(draft: Draft) -> str:
    """Write a draft as `parse_draft` reads it.

    Examples
    --------
    >>> draft_text(PLAIN_WEAVE)
    '1 2; 1, 2; 1 2'
    """
    threading, treadling = (_row(row) for row in (draft.threading, draft.treadling))
    return f"{threading}; {', '.join(map(_lifted, draft.tie_up))}; {treadling}"


def _row(numbers: tuple[int, ...]) -> str:
    if len(numbers) == 1:  # 12 alone would read as 1 and 2
        return f"{numbers[0]}-{numbers[0]}"
    return " ".join(map(str, numbers))


def _lifted(shafts: tuple[int, ...]) -> str:
    return "+".join(map(str, shafts)) + ("+" if len(shafts) == 1 and shafts[0] > 9 else "")


def check_draft(
    draft: Draft,
    *,
    shafts: int | None = None,
    treadles: int | None = None,
    longest_float: int | None = None,
) -> None:
    """Refuse a draft that the loom or the cloth cannot take.

    Parameters
    ----------
    draft : Draft
    shafts, treadles : int, optional
        What the loom has; only treadles that the treadling presses count.
    longest_float : int, optional
        Threads that a float may pass over at most.

    Raises
    ------
    WeavingError
        More shafts or treadles than the loom has; a thread that is never caught; a float
        longer than allowed.

    Examples
    --------
    >>> check_draft(weave_named("point twill"), shafts=4, treadles=6, longest_float=3)
    """
    thing = f"draft {draft.name!r}"
    if shafts is not None and draft.shafts > shafts:
        remedy = f"Choose a weave on {shafts} shafts or fewer."
        rule = f"must not need more than the loom's {shafts} shafts"
        raise WeavingError(thing, rule, got=f"{draft.shafts}", remedy=remedy)
    pressed = len(set(draft.treadling))
    if treadles is not None and pressed > treadles:
        remedy = "Press two treadles together where their shafts add up, or lift shafts by hand."
        rule = f"must not press more than the loom's {treadles} treadles"
        raise WeavingError(thing, rule, got=f"{pressed}", remedy=remedy)
    _check_floats(draft, thing, longest_float)


def _check_floats(draft: Draft, thing: str, longest_float: int | None) -> None:
    structure = structure_of(draft)
    sides = (("end", structure.warp_float, "picks"), ("pick", structure.weft_float, "ends"))
    for thread, longest, over in sides:
        if longest.threads == 0:
            rule = f"must catch every thread; {thread} {longest.thread} never changes sides"
            remedy = "Lift it in at least one pick and leave it down in at least one."
            if thread == "pick":
                remedy = "Lift at least one shaft and leave at least one down."
            raise WeavingError(thing, rule, remedy=remedy)
        if longest_float is not None and longest.threads > longest_float:
            rule = f"floats must pass over at most {longest_float} {over}"
            got = f"{longest.threads} {over} at {thread} {longest.thread}"
            raise WeavingError(
                thing, rule, got=got, remedy="Allow a longer float, or another weave."
            )
