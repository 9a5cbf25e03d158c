"""Names that people give: letters and signs that can be shown, nothing that a terminal obeys."""

from __future__ import annotations

import re

from palette.errors import InputError

__all__ = ["check_plain", "plain", "whole_characters"]

_UNSEEN = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]+")
"""Control characters, line ends, turns of the reading direction, halves of characters."""


def plain(text: str) -> str:
    r"""Give a text without what cannot be shown; a blank stands in its place.

    Examples
    --------
    >>> plain("hedge\x1b[31m bank")
    'hedge [31m bank'
    """
    return _UNSEEN.sub(" ", text).strip()


def check_plain(text: str, *, thing: str) -> None:
    r"""Refuse a name with characters that cannot be shown.

    Raises
    ------
    InputError

    Examples
    --------
    >>> check_plain("pine\x00", thing="swatch")
    Traceback (most recent call last):
    palette.errors.InputError: swatch: name must hold no control characters; got 'pine\x00'. Type
    the name again.
    """
    if _UNSEEN.search(text):
        rule = "name must hold no control characters"
        raise InputError(thing, rule, got=repr(text), remedy="Type the name again.")


def whole_characters(text: str) -> str:
    r"""Text that UTF-8 can hold: a file name in another encoding gets ``?`` for what it cannot.

    Examples
    --------
    >>> whole_characters("fj\udce4ll.jpg")
    'fj?ll.jpg'
    """
    return text.encode("utf-8", errors="replace").decode("utf-8")
