"""The warp as a value."""

from dataclasses import replace

import pytest

from palette.errors import InputError
from palette.loom.planning import plan_warp


def test_refusals():
    warp = plan_warp(finished_width_mm=300, ends_per_cm=8, cloth_lengths_mm=(1000.0,))
    with pytest.raises(InputError, match="warp: must have at least 1 end; got 0"):
        replace(warp, ends=0)
    with pytest.raises(InputError, match="warp length_mm: must be more than 0; got nan"):
        replace(warp, length_mm=float("nan"))
    with pytest.raises(InputError, match=r"warp take_up: must be from 0 to under 1; got 1\.5"):
        replace(warp, take_up=1.5)
    with pytest.raises(InputError, match="warp doubled_ends: must be 0 or more, and not all"):
        replace(warp, doubled_ends=warp.ends)


def test_yarn_is_ends_times_length():
    warp = plan_warp(finished_width_mm=300, ends_per_cm=8, cloth_lengths_mm=(1000.0,))
    assert warp.yarn_length_m == warp.ends * warp.length_mm / 1000
