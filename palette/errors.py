"""The one tree of errors, and the one sentence they speak in.

::

    LeafweftError                     exit code 1
    ├── InputError (ValueError)       exit code 2: what was typed
    │   ├── UnitError                 a length, density or mass without a unit or out of range
    │   ├── CountError                a yarn count that is ambiguous or unreadable
    │   └── BriefError                a brief with an unknown key or a wrong value
    ├── FileError (OSError)           exit code 3: a file that cannot be used
    │   ├── PhotoError                a picture that cannot be opened or holds no colour
    │   ├── ContractError             a palette or plan file that breaks its contract
    │   ├── TableError                a table (shelf, stripes, samples) with a bad row
    │   └── OutputError               a place that cannot be written, or holds a file already
    └── WeavingError (ValueError)     exit code 4: a plan that cannot be woven

Every message says which thing, the rule, what came, and what to do:
``stripe 3 (rust): picks must be at least 2; got 1. Ask for fewer stripes or a longer cloth.``
"""

from __future__ import annotations

__all__ = [
    "BriefError",
    "ContractError",
    "CountError",
    "FileError",
    "InputError",
    "LeafweftError",
    "OutputError",
    "PhotoError",
    "TableError",
    "UnitError",
    "WeavingError",
]


class LeafweftError(Exception):
    """Base of every error that the library raises on purpose.

    Parameters
    ----------
    thing : str
        Which thing is wrong: an option, a file, a stripe.
    rule : str
        The rule that it breaks, as a clause: "must be at least 2".
    got : str, optional
        What came instead.
    remedy : str, optional
        What to do about it, as a sentence.

    Examples
    --------
    >>> raise InputError("--length", "must be more than 0", got="0 cm", remedy="Give a length.")
    Traceback (most recent call last):
    palette.errors.InputError: --length: must be more than 0; got 0 cm. Give a length.
    """

    exit_code = 1
    _LONGEST_GOT = 200

    def __init__(self, thing: str, rule: str, *, got: str = "", remedy: str = "") -> None:
        self.thing = thing
        self.rule = rule
        self.got = got if len(got) <= self._LONGEST_GOT else f"{got[: self._LONGEST_GOT]} ..."
        self.remedy = remedy
        came = f"; got {self.got}" if got else ""
        todo = f" {remedy}" if remedy else ""
        super().__init__(f"{thing}: {rule}{came}.{todo}")

    def __reduce__(self) -> tuple[object, ...]:
        """Pickle by the four facts, so that the error survives a process pool."""
        return (_rebuild, (type(self), self.thing, self.rule, self.got, self.remedy))


def _rebuild(
    kind: type[LeafweftError], thing: str, rule: str, got: str, remedy: str
) -> LeafweftError:
    return kind(thing, rule, got=got, remedy=remedy)


class InputError(LeafweftError, ValueError):
    """Something typed cannot be used as it stands."""

    exit_code = 2


class UnitError(InputError):
    """A quantity has no unit, an unknown unit, or a value outside its range."""


class CountError(InputError):
    """A yarn count is ambiguous or cannot be read."""


class BriefError(InputError):
    """A brief has an unknown key or a value of the wrong kind."""


class FileError(LeafweftError, OSError):
    """A file cannot be used."""

    exit_code = 3

    @staticmethod
    def why(error: OSError) -> str:
        """Say in plain words why a file cannot be opened, to stand after "got".

        Examples
        --------
        >>> FileError.why(FileNotFoundError(2, "No such file or directory"))
        'nothing by that name'
        """
        words = {
            FileNotFoundError: "nothing by that name",
            IsADirectoryError: "a folder",
            NotADirectoryError: "a path through a file",
            PermissionError: "one that may not be read",
        }
        return words.get(type(error)) or (error.strerror or type(error).__name__).lower()


class PhotoError(FileError):
    """A picture cannot be opened, or holds no colour to take."""


class ContractError(FileError):
    """A palette or plan file breaks its contract."""


class TableError(FileError):
    """A table has a row or column that cannot be used."""


class OutputError(FileError):
    """A place cannot be written, or holds a file already."""


class WeavingError(LeafweftError, ValueError):
    """A plan cannot be woven; the message names the nearest one that can."""

    exit_code = 4
