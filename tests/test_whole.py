import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.whole import whole_number


@given(st.integers(0, 2**62))
def test_every_type_of_whole_number_becomes_a_plain_int(value) -> None:
    for given_ in (value, np.int64(value), np.uint64(value), np.array(value)):
        found = whole_number("picks", given_)
        assert (found, type(found)) == (value, int)


@pytest.mark.parametrize("value", [2.5, 2.0, np.float64(3), "2", None, True, np.nan, [1, 2]])
def test_what_is_no_whole_number(value) -> None:
    with pytest.raises(InputError, match=r"^picks: must be a whole number; got "):
        whole_number("picks", value)


def test_too_few() -> None:
    with pytest.raises(InputError, match=r"^picks: must be at least 1; got 0"):
        whole_number("picks", 0, least=1)
