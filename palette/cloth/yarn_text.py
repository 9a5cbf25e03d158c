"""A weft of several colours as a person types it."""

from __future__ import annotations

from palette.cloth.weft_yarns import MarledYarn, PlainYarn, VariegatedYarn, WeftYarn
from palette.errors import InputError
from palette.measures import parse_length
from palette.perception.colour_text import parse_colour

__all__ = ["parse_weft_yarn"]

_WAYS = (
    "Write a variegated yarn like #5d733a 50cm / #c8b45a 35cm, a marled one like #a3522b & #e8d9b0."
)


def parse_weft_yarn(text: str, *, thing: str = "weft yarn") -> WeftYarn:
    """Read a weft of one colour, of several along its length, or of two plies.

    Parameters
    ----------
    text : str
        ``#5d733a``; ``#5d733a 50cm / #c8b45a 35cm`` (variegated: every colour with its length,
        over and over); ``#a3522b & #e8d9b0`` (marled: two plies). A colour is a hex code, three
        CIELAB numbers or a name.
    thing : str
        What is being read, for the message.

    Raises
    ------
    InputError
        A colour or a length that cannot be read, one length missing, more than two plies.

    Examples
    --------
    >>> parse_weft_yarn("45 -15 29 50cm / moss green 12 in").repeat_mm
    804.8
    >>> parse_weft_yarn("#a3522b & #e8d9b0").first_lab == parse_weft_yarn("#a3522b").lab
    True
    """
    if "&" in text:
        plies = [part.strip() for part in text.split("&")]
        if len(plies) != 2 or "/" in text:
            raise InputError(thing, "must be marled of two colours", got=repr(text), remedy=_WAYS)
        first, second = (parse_colour(ply, thing=thing) for ply in plies)
        return MarledYarn(first_lab=first, second_lab=second)
    parts = [part.strip() for part in text.split("/")]
    if len(parts) == 1:
        return PlainYarn(lab=parse_colour(text, thing=thing))
    colours, lengths = zip(*(_run(part, thing) for part in parts), strict=True)
    shortest = min(lengths)
    return VariegatedYarn(colours_lab=colours, lengths_mm=lengths, soft_mm=min(20.0, shortest / 4))


def _run(part: str, thing: str) -> tuple[tuple[float, float, float], float]:
    """Colour and length of one run: the length is the last word, or the last two."""
    words = part.split()
    for length_words in (1, 2):
        colour, length = " ".join(words[:-length_words]), " ".join(words[-length_words:])
        # "50cm" carries its unit; "50 cm" has it in the next word.
        if colour and length[0].isdigit() and not length[-1].isdigit():
            return parse_colour(colour, thing=thing), parse_length(length, thing=thing).mm
    rule = "must give a length with every colour"
    raise InputError(thing, rule, got=repr(part), remedy=_WAYS)
