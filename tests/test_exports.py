"""The public door: what `palette` offers is what `__init__.pyi` lists, and all of it is there."""

import ast
from pathlib import Path

import pytest

import palette

STUB = Path(palette.__file__).with_suffix(".pyi")


def stub_names() -> list[str]:
    """Names that the stub imports."""
    tree = ast.parse(STUB.read_text(encoding="utf-8"))
    return [
        alias.name for node in tree.body if isinstance(node, ast.ImportFrom) for alias in node.names
    ]


def stub_all() -> list[str]:
    """Names that the stub's ``__all__`` lists."""
    tree = ast.parse(STUB.read_text(encoding="utf-8"))
    lists = [node.value for node in tree.body if isinstance(node, ast.Assign)]
    return [element.value for element in lists[0].elts]


def test_all_lists_the_public_names() -> None:
    assert sorted(stub_names()) == stub_all() == sorted(palette.__all__)


def test_all_is_sorted() -> None:
    assert stub_all() == sorted(stub_all())


@pytest.mark.parametrize("name", stub_names())
def test_name_is_there_and_documented(name: str) -> None:
    assert getattr(palette, name).__doc__


def test_unknown_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="no_such_name"):
        palette.no_such_name  # noqa: B018
