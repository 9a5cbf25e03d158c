"""The program ``leafweft``: where it starts, and the one place where it ends."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from typing import TYPE_CHECKING, TextIO

if TYPE_CHECKING:
    from palette.errors import LeafweftError

__all__ = ["run"]

_TYPED, _FILE, _STOPPED = 2, 3, 130
_OPTIONS = {"inner order": "inner"}  # what the library calls otherwise
_LONGEST_WORD = 4000  # a draft typed out for 700 ends has 1400; no path has more than 4096


def run() -> None:
    """Run the program; whatever is refused becomes one line and its exit code."""
    try:
        code = _exit_code()
        sys.stdout.flush()
    except KeyboardInterrupt:
        code = _say("stopped before it was done.", _STOPPED)
    except BrokenPipeError:  # whoever reads what is printed has enough of it
        code = 0
    except OSError as error:
        code = _say(_unusable(error), _FILE)
    for stream in (sys.stdout, sys.stderr):
        _let_go(stream)
    if code:
        raise SystemExit(code)


def _exit_code() -> int:
    """Run the program on what was typed, and say what is refused."""
    if sys.stderr is None:  # closed: what is said there must not end up elsewhere
        sys.stderr = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - until the end
    if sys.stdout is None:
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: SIM115 - until the end
        return _say("standard output: must be open; got a closed one.", _FILE)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a name may hold what a terminal cannot show
            stream.reconfigure(errors="backslashreplace")
    os.environ["MPLBACKEND"] = "agg"  # read when the library of drawings is loaded
    from cli.application import exit_code_of
    from cli.usage import UsageError, check_length, refusal
    from palette.errors import LeafweftError

    try:
        words = sys.argv[1:]
        check_length(words, most=_LONGEST_WORD)
        return exit_code_of(words)
    except UsageError as error:
        return _say(str(refusal(error)), _TYPED)
    except MemoryError:
        return _say("there is not enough memory for this.", _FILE)
    except RecursionError:
        return _say("what was given nests too deep to be read.", _FILE)
    except LeafweftError as error:
        return _say(_as_typed(error, words), error.exit_code)


def _say(sentence: str, code: int) -> int:
    """Say on stderr why the program ends; where that cannot be said the code has to do."""
    from cli.output import talk

    talk("leafweft: " + sentence.replace("\n", "\\n"))
    return code


def _as_typed(error: LeafweftError, words: Sequence[str]) -> str:
    """Name an option with its dashes where it was typed with them."""
    option = f"--{_OPTIONS.get(error.thing, error.thing)}"
    typed = any(word == option or word.startswith(f"{option}=") for word in words)
    return option + str(error).removeprefix(error.thing) if typed else str(error)


def _unusable(error: OSError) -> str:
    """Say what the system would not do; without a name it is what is printed."""
    thing = error.filename or "standard output"
    reason = (error.strerror or "an error").lower()
    return f"{thing}: must be one that can be used; got {reason}."


def _let_go(stream: TextIO) -> None:
    """Send what cannot be written any more nowhere, so that Python does not try it once again."""
    try:
        stream.flush()
    except (OSError, ValueError):
        try:
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())
        except (OSError, ValueError):
            return
