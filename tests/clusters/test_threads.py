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
