"""Processes that take palettes side by side, started from one that has loaded the libraries."""

from __future__ import annotations

import multiprocessing
import signal
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing.context import BaseContext

__all__ = ["leave_interrupts", "make_ready", "worker_context"]

_LOADED_ONCE = (
    "palette.swatches.many",
    "colour",
    "PIL.JpegImagePlugin",
    "pi_heif",
    "scipy.ndimage",
    "threadpoolctl",
)


def worker_context(*more: str) -> BaseContext:
    """How to start workers: copied from a clean process with the libraries, where that can be.

    Copies of this process itself would hold its threads' locks for ever; fresh ones would each
    load the libraries again, two seconds of work. What is made of the palettes may need `more`
    modules, by name.
    """
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload([*_LOADED_ONCE, *more])
    return context


def make_ready(*more: str) -> None:
    """Begin to load the libraries of the workers now, beside whatever else is to be done first.

    Parameters
    ----------
    *more : str
        Modules, by name, that the workers are going to need beside those for palettes.

    Examples
    --------
    >>> make_ready()
    """
    if worker_context(*more).get_start_method() == "forkserver":
        from multiprocessing.forkserver import ensure_running

        with _interrupts_held():
            ensure_running()


def leave_interrupts() -> None:
    """Leave Ctrl-C to the process that started this one; for the start of a worker."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


@contextmanager
def _interrupts_held() -> Iterator[None]:
    """Hold Ctrl-C back in processes that are started inside, while they load and ever after."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
