"""One thread while a palette is taken, and the old number afterwards."""

import numpy as np
from threadpoolctl import threadpool_info

from palette.clusters.threads import one_thread


def threads() -> list[int]:
    np.ones((2, 2)) @ np.ones((2, 2))
    return [
        library["num_threads"] for library in threadpool_info() if "numpy" in library["filepath"]
    ]


def test_one_thread_inside_and_as_before_outside() -> None:
    before = threads()
    with one_thread():
        assert set(threads()) <= {1}
        with one_thread():
            assert set(threads()) <= {1}
        assert set(threads()) <= {1}
    assert threads() == before


def test_threads_that_come_with_scikit_learn_later_are_held_too() -> None:
    with one_thread():
        pass
    import sklearn.cluster  # noqa: F401

    with one_thread():
        assert {library["num_threads"] for library in threadpool_info()} == {1}
