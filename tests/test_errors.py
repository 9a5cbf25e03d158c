"""The error tree: one sentence form, exit codes, and errors that survive a process pool."""

import pickle
import re

import pytest

from palette import errors
from palette.errors import (
    BriefError,
    ContractError,
    CountError,
    FileError,
    InputError,
    LeafweftError,
    OutputError,
    PhotoError,
    TableError,
    UnitError,
    WeavingError,
)

LEAVES = [getattr(errors, name) for name in errors.__all__]


def test_one_sentence_form():
    error = InputError("--length", "must be more than 0", got="0 cm", remedy="Give a length.")
    assert str(error) == "--length: must be more than 0; got 0 cm. Give a length."
    assert str(InputError("plan", "must hold a cloth")) == "plan: must hold a cloth."
    assert str(InputError("a", "b", got="c")) == "a: b; got c."
    assert str(InputError("a", "b", remedy="D.")) == "a: b. D."
    assert (error.thing, error.rule, error.got, error.remedy) == (
        "--length",
        "must be more than 0",
        "0 cm",
        "Give a length.",
    )


@pytest.mark.parametrize(
    ("kind", "code", "builtin"),
    [
        (LeafweftError, 1, Exception),
        (InputError, 2, ValueError),
        (UnitError, 2, ValueError),
        (CountError, 2, ValueError),
        (BriefError, 2, ValueError),
        (FileError, 3, OSError),
        (PhotoError, 3, OSError),
        (ContractError, 3, OSError),
        (TableError, 3, OSError),
        (OutputError, 3, OSError),
        (WeavingError, 4, ValueError),
    ],
)
def test_exit_codes_and_what_they_refine(kind, code, builtin):
    assert kind.exit_code == code
    assert issubclass(kind, LeafweftError)
    assert issubclass(kind, builtin)


@pytest.mark.parametrize("kind", LEAVES, ids=lambda kind: kind.__name__)
def test_pickles_with_its_facts(kind):
    error = kind("stripe 3 (rust)", "picks must be at least 2", got="1", remedy="Weave longer.")
    again = pickle.loads(pickle.dumps(error))
    assert type(again) is kind
    assert str(again) == str(error)
    assert again.remedy == "Weave longer."


def test_the_picture_of_the_tree_is_the_tree():
    """The drawing at the top of the module names every error with the exit code of its branch."""
    drawn = re.findall(r"(\w+Error)\b(?: \(\w+\))?(?:\s+exit code (\d))?", errors.__doc__)
    names = [name for name, _ in drawn if name in errors.__all__]
    assert sorted(names) == sorted(errors.__all__)
    for name, code in drawn:
        if code:
            assert getattr(errors, name).exit_code == int(code)
