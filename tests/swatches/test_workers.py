"""Processes that are ready before they are needed."""

import importlib.util
import multiprocessing
import signal

import pytest

from cli.commands.palette import _WORKERS_NEED
from palette.swatches import workers


def test_what_is_loaded_once_is_there() -> None:
    # A name that cannot be loaded is passed over in silence, and every worker pays for it.
    for name in (*workers._LOADED_ONCE, *_WORKERS_NEED):
        assert importlib.util.find_spec(name), name


@pytest.mark.parametrize("methods", [["fork", "spawn", "forkserver"], ["spawn"]])
def test_workers_are_never_copies_of_this_process(monkeypatch, methods) -> None:
    monkeypatch.setattr(multiprocessing, "get_all_start_methods", lambda: methods)
    wanted = "forkserver" if "forkserver" in methods else "spawn"
    assert workers.worker_context().get_start_method() == wanted


def test_being_ready_twice_does_no_harm() -> None:
    workers.make_ready()
    workers.make_ready()
    with workers.worker_context().Pool(1) as pool:
        assert pool.map(abs, [-1]) == [1]


def test_workers_leave_ctrl_c_to_the_program() -> None:
    workers.make_ready()
    context = workers.worker_context()
    with context.Pool(1, initializer=workers.leave_interrupts) as pool:
        assert pool.apply(signal.getsignal, (signal.SIGINT,)) is signal.SIG_IGN
    assert signal.SIGINT not in signal.pthread_sigmask(signal.SIG_BLOCK, ())
