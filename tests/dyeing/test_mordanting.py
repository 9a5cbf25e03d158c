"""Alum baths, shared by lots."""

import pytest

from palette.dyeing.asked import DyeAsked
from palette.dyeing.planning import plan_dye_day
from tests.dyeing.day_yarn import yarn


def test_natural_dyes_share_mordant_baths() -> None:
    yarns = (yarn("madder red", 180.0), yarn("weld", 90.0), yarn("walnut", 260.0))
    day = plan_dye_day(yarns, asked=DyeAsked(fibre="wool", natural=True, margin=0.0))
    # 15 l at 30:1 hold 500 g: 200 + 300 g and 100 g, or 200 + 100 g and 300 g; two baths.
    assert len(day.mordant_baths) == 2
    assert sum(bath.dry_g for bath in day.mordant_baths) == 600.0
    for colour in ("madder red", "weld", "walnut"):
        assert sum(colour in bath.colours for bath in day.mordant_baths) == 1
    assert {each.name: each.amount for each in day.totals} == {
        "alum": pytest.approx(90.0),
        "cream of tartar": pytest.approx(30.0),
    }
    first = day.baths[0]
    assert (first.dye_g, first.stock_ml, first.assistants) == (200.0, 0.0, ())
    assert "Plants differ: dye a sample first." in day.warnings[-1]


def test_cotton_is_mordanted_apart_from_wool() -> None:
    yarns = (yarn("moss", 90.0), yarn("rust", 90.0))
    asked = DyeAsked(fibre="wool", fibres=(("rust", "cotton"),), natural=True)
    day = plan_dye_day(yarns, asked=asked)
    assert [bath.colours for bath in day.mordant_baths] == [("moss",), ("rust",)]
    assert [each.name for each in day.mordant_baths[1].assistants] == ["alum", "washing soda"]
