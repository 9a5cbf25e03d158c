"""One thread for the numeric libraries: palettes that depend on no machine, and come sooner."""

from __future__ import annotations

from contextlib import AbstractContextManager
from functools import cache
from typing import Any

__all__ = ["one_thread"]


def one_thread() -> AbstractContextManager[Any]:
    """Hold the numeric libraries to one thread.

    A palette works on a few thousand points at a time: threads cost more than they bring there
    (a third of the time, measured), and sums that are split among them differ in the last digit.

    Examples
    --------
    >>> with one_thread():
    ...     total = sum(range(4))
    """
    return _controller().limit(limits=1)  # type: ignore[no-any-return]


@cache
def _controller() -> Any:  # noqa: ANN401  the library that is asked carries no types
    """Switch for the threads, found once: looking takes 4 ms."""
    from threadpoolctl import ThreadpoolController  # type: ignore[import-untyped]

    return ThreadpoolController()
