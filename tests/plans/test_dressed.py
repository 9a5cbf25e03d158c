"""The loom as a brief dresses it: ends, sett and widths that agree."""

import pytest

from palette.errors import WeavingError
from palette.plans.brief import Brief
from palette.plans.dressed import dressed_loom
from palette.plans.making import make_plan, plan_cloth
from palette.swatches.palette import Palette

TOWEL = {"length": "60cm", "width": "45cm", "sett": "8/cm", "picks": "8/cm"}


def test_with_a_reed_ends_sett_and_widths_agree(hedge: Palette) -> None:
    """336 ends at 7/cm fill 48.0 cm: own arithmetic, 192 dents of 4/cm at 1-2-2-2."""
    asked = {"length": "190cm", "width": "40cm", "sett": "7/cm", "picks": "7/cm"}
    yarn = {"weft": "Nm 2/12", "warp": "Nm 2/12", "fibre": "wool", "reed": "40/10cm"}
    brief = Brief.of({**asked, **yarn, "weave": "point twill", "tail": "0cm", "allowance": "0%"})
    plan = make_plan(brief, hedge)
    warp = plan.warp
    assert (warp.ends, warp.ends_per_cm, plan.sley.dents_for(warp.ends)) == (336, 7, 192)
    assert warp.width_in_reed_mm == pytest.approx(warp.filled_reed_mm) == pytest.approx(480.0)
    assert warp.woven_width_mm == pytest.approx(480 * 0.94)
    assert warp.finished_width_mm == pytest.approx(480 * 0.94 * 0.9)
    for yarn in plan.yarns[:-1]:
        carried = yarn.net_length_m - yarn.picks * 0.48
        assert 0 <= carried < 0.02 * yarn.net_length_m + 1
    assert any("fill the reed" in note for note in plan.warnings) is False  # 40.6 for 40


def test_without_a_reed_the_width_asked_is_kept(hedge: Palette) -> None:
    warp = make_plan(Brief.of(TOWEL), hedge).warp
    assert warp.finished_width_mm == 450
    assert warp.filled_reed_mm > warp.width_in_reed_mm


def test_a_reed_that_changes_the_width_is_told(hedge: Palette) -> None:
    """Whole repeats of a long sley: 9 dents hold 10 ends."""
    brief = Brief.of({**TOWEL, "width": "4cm", "reed": "4/cm"})
    dressed = dressed_loom(brief, (plan_cloth(brief, hedge),))
    assert dressed.warp.ends == 38
    brief = Brief.of({**TOWEL, "width": "3.5cm", "sett": "4.8/cm", "reed": "4/cm"})
    dressed = dressed_loom(brief, (plan_cloth(brief, hedge),))
    assert any(
        "ends fill the reed to 4.2 cm finished where 3.5 cm was asked: 20.9 % wider." in note
        for note in dressed.notes
    )


def test_a_sett_that_the_reed_changes_is_told(hedge: Palette) -> None:
    notes = make_plan(Brief.of({**TOWEL, "reed": "10/in"}), hedge).warnings
    assert "The nearest reed gives 7.87/cm where 8/cm was asked: 1.6 % more open." in notes


def test_a_net_is_the_first_note(hedge: Palette) -> None:
    plan = make_plan(Brief.of({**TOWEL, "weft": "Nm 2/28", "warp": "Nm 2/28"}), hedge)
    assert plan.warnings[0].startswith("Sett 8/cm and picks 8/cm are open: a balanced cloth of Nm")


def test_what_has_no_room_is_refused(hedge: Palette) -> None:
    with pytest.raises(
        WeavingError, match=r"nearest that can be woven: sett 16\.4/cm, picks 16\.4"
    ):
        make_plan(Brief.of({"sett": "300/cm", "picks": "300/cm", "length": "20cm"}), hedge)


def test_rugs_are_woven(hedge: Palette) -> None:
    """Linen 8/5 at 2.5/cm, a thick wool weft beaten to 8/cm."""
    rug = {"warp": "NeL 8/5", "weft": "400 m/kg", "fibre": "linen", "sett": "2.5/cm"}
    plan = make_plan(Brief.of({**rug, "picks": "8/cm", "length": "1m"}), hedge)
    assert "weft-faced, as rugs are" in plan.warnings[0]


def test_the_lifts_of_a_hem_need_its_treadles(hedge: Palette) -> None:
    with pytest.raises(WeavingError, match="hem in 2/2 twill: must find treadles for plain weave"):
        make_plan(Brief.of({"weave": "2/2 twill", "hem": "3cm", "treadles": 4}), hedge)
