"""Refusals of the library under the name of the option that was typed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager

__all__ = ["options_named", "refused"]


def refused(option: str, rule: str, *, got: str = "", remedy: str = "") -> Exception:
    """Make the refusal of something typed, to be raised."""
    from palette.errors import InputError

    return InputError(option, rule, got=got, remedy=remedy)


@contextmanager
def options_named(options: Mapping[str, str]) -> Iterator[None]:
    """Put the option before what the library refuses.

    Parameters
    ----------
    options : mapping of str to str
        Options by the words with which the library's name of the thing begins.
    """
    from palette.errors import InputError

    try:
        yield
    except InputError as problem:
        for words, option in options.items():
            if problem.thing.startswith(words):
                thing = option if problem.thing in option else f"{option}, {problem.thing}"
                raise type(problem)(
                    thing, problem.rule, got=problem.got, remedy=problem.remedy
                ) from None
        raise
