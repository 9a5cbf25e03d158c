"""One thread for the numeric libraries: palettes that depend on no machine, and come sooner."""

from __future__ import annotations

import sys
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
    return _controller("sklearn" in sys.modules).limit(limits=1)  # type: ignore[no-any-return]


@cache
def _controller(_with_sklearn: bool) -> Any:  # noqa: ANN401  what is asked carries no types
    """Switch for the threads, found once: looking takes 4 ms. Once more when scikit-learn is there.

    It brings threads of its own, and what is loaded later is not found.
    """
    from threadpoolctl import ThreadpoolController  # type: ignore[import-untyped]

    return ThreadpoolController()
