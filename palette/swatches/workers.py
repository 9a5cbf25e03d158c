"""Processes that take palettes side by side, started from one that has loaded the libraries."""

from __future__ import annotations

import multiprocessing
from multiprocessing.context import BaseContext

__all__ = ["make_ready", "worker_context"]

_LOADED_ONCE = ("palette.swatches.many", "colour", "PIL.Image", "pi_heif")


def worker_context() -> BaseContext:
    """How to start workers: copied from a clean process with the libraries, where that can be.

    Copies of this process itself would hold its threads' locks for ever; fresh ones would each
    load the libraries again, two seconds of work.
    """
    if "forkserver" not in multiprocessing.get_all_start_methods():
        return multiprocessing.get_context("spawn")
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(list(_LOADED_ONCE))
    return context


def make_ready() -> None:
    """Begin to load the libraries of the workers now, beside whatever else is to be done first.

    Examples
    --------
    >>> make_ready()
    """
    if worker_context().get_start_method() == "forkserver":
        from multiprocessing.forkserver import ensure_running

        ensure_running()
