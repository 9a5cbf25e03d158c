"""What is wrong with a command line, in the sentence form of every other refusal."""

from __future__ import annotations

import difflib
import re
import sys
from collections.abc import Iterable
from typing import Any

import typer

from palette.errors import InputError

__all__ = ["UsageError", "check_length", "refusal"]

UsageError: type[Exception] = typer.BadParameter.__bases__[0]

_RULES = (
    (r"valid integer|not a valid int", "must be a whole number"),
    (r"valid number|not a valid float", "must be a number"),
    (r"greater than or equal to (\S+)", r"must be at least \1"),
    (r"x>=(\d+)", r"must be at least \1"),
    (r"not one of (.+?)\.?$", r"must be one of \1"),
)


def check_length(words: Iterable[str], *, most: int) -> None:
    """Refuse a word that is longer than anything that can be meant; raises InputError."""
    for word in words:
        if len(word) > most:
            rule = f"must be at most {most:,} characters"
            raise InputError("what was typed", rule, got=f"{len(word):,}, {word[:20]!r} ...")


def refusal(error: Any, words: Iterable[str] | None = None) -> InputError:  # noqa: ANN401 - Typer's own
    """Say what is wrong with a command line: which word, the rule, what came, what to do.

    Parameters
    ----------
    error : UsageError
        What Typer raised.
    words : iterable of str, optional
        The command line; that of this process where it is left out.
    """
    typed = list(sys.argv[1:] if words is None else words)
    command = error.ctx.command_path if error.ctx is not None else "leafweft"
    option = getattr(error, "option_name", "")
    if hasattr(error, "possibilities"):
        return _unknown_option(option, error.possibilities or (), command)
    message = error.format_message()
    if option and "not take a value" in message:
        return InputError(option, "must stand alone", got="a value", remedy="Leave the value out.")
    if option:
        return InputError(option, "must be followed by a value", got="none")
    if unknown := re.search(r"No such command '(.*?)'", message):
        return _unknown_command(unknown[1], error.ctx.command.list_commands(error.ctx))
    if extra := re.search(r"unexpected extra argument.*\((.*)\)$", message):
        remedy = f'Put quotes around what has blanks in it, like "72 in"; see {command} --help.'
        return InputError(command, "must get no more words", got=repr(extra[1]), remedy=remedy)
    if not hasattr(error, "param"):
        return InputError(command, message.rstrip("."))
    thing = _thing(error)
    if hasattr(error, "param_type"):
        example = _example(error.ctx)
        return InputError(thing, "must be given", got="none", remedy=example)
    return InputError(thing, _rule(message), got=_got(thing, typed))


def _unknown_option(option: str, possibilities: Iterable[str], command: str) -> InputError:
    near = difflib.get_close_matches(option, possibilities, n=1, cutoff=0.7)
    remedy = f"Did you mean {near[0]}?" if near else f"See {command} --help for its options."
    return InputError(option, f"must be an option of {command}", remedy=remedy)


def _unknown_command(word: str, commands: list[str]) -> InputError:
    near = difflib.get_close_matches(word, commands, n=1)
    remedy = f"Did you mean leafweft {near[0]}?" if near else f"There are {', '.join(commands)}."
    return InputError("command", "must be one that leafweft has", got=repr(word), remedy=remedy)


def _thing(error: Any) -> str:  # noqa: ANN401 - Typer's own
    """Name what is wrong as it is typed: ``--step``, or the capitals of the help."""
    param = error.param
    if param is None:
        return "what was typed"
    if param.param_type_name == "option":
        return str(max(param.opts, key=len))
    return str(param.metavar or param.name.upper())


def _example(context: Any) -> str:  # noqa: ANN401 - Typer's own
    """Take the example from the help of the command, as something to do."""
    _, mark, example = (context.command.help or "").partition("Example:")
    line = " ".join(example.split())
    return f"Write it like: {line}" if mark else ""


def _rule(message: str) -> str:
    for pattern, rule in _RULES:
        if found := re.search(pattern, " ".join(message.split())):
            return found.expand(rule)
    return message.rpartition(": ")[2].rstrip(".")


def _got(option: str, typed: list[str]) -> str:
    """Find what was typed for an option, empty where it cannot be told."""
    for word, following in zip(typed, [*typed[1:], ""], strict=True):
        if word == option:
            return repr(following)
        if word.startswith(f"{option}="):
            return repr(word.partition("=")[2])
    return ""
