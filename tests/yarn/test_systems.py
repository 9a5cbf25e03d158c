"""Count systems against the published factors."""

import csv
from pathlib import Path

import pytest

from palette.errors import CountError
from palette.yarn.systems import SYSTEMS, count_to_tex, system_named, tex_to_count

DATA = Path(__file__).parents[1] / "data"


def rows(name):
    """Rows of a data file, its source header left out."""
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize(
    "row", rows("yarn_count_factors.csv"), ids=lambda r: f"{r['from']}-{r['to']}"
)
def test_factors_between_systems_as_printed(row):
    came = tex_to_count(count_to_tex(1, row["from"]), row["to"])
    decimals = int(row["decimals"])
    assert round(came, decimals) == float(row["factor"])


@pytest.mark.parametrize("row", rows("yarn_count_constants.csv"), ids=lambda r: r["system"])
def test_constants_as_printed(row):
    system = SYSTEMS[row["system"]]
    assert system.direct == bool(int(row["direct"]))
    assert round(system.factor, int(row["decimals"])) == float(row["constant"])


def test_denier_times_cotton_count():
    """ASTM D2260: den x NeC = 5314.87."""
    assert round(9 * SYSTEMS["NeC"].factor, 2) == 5314.87


def test_the_hank_is_built_of_leas():
    """Springer textile encyclopaedia: 80 turns of 1.5 yd make a lea of 120 yd, 7 a hank of 840."""
    hank_yd = 7 * 80 * 1.5
    worsted_hank_yd = 7 * 80
    assert SYSTEMS["NeK"].factor / SYSTEMS["NeC"].factor == pytest.approx(hank_yd / worsted_hank_yd)


def test_the_spyndle_is_48_cuts_of_120_threads():
    """Kilgour and Woodhouse, The Jute Industry (1921): reel 2.5 yd, cut 300 yd, spyndle 14 400."""
    cut_yd = 120 * 2.5
    assert SYSTEMS["spyndle"].factor == pytest.approx(453_592.37 / (48 * cut_yd * 0.9144))
    pounds = count_to_tex(300 / cut_yd, "NeL") / count_to_tex(1, "spyndle")
    assert pounds == pytest.approx(48)  # 1 lea: 300 yd per lb, so 14 400 yd weigh 48 lb


@pytest.mark.parametrize(
    "name", ["cotton", "Worsted", " linen ", "denier", "lea", "WEST OF ENGLAND"]
)
def test_systems_have_other_names(name):
    assert system_named(name) is not None


def test_names_are_not_shared():
    names = [name for system in SYSTEMS.values() for name in {*system.names, system.key.lower()}]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("number", [0, -1, float("nan"), float("inf")])
def test_a_count_is_more_than_0(number):
    with pytest.raises(CountError, match="NeC count: must be more than 0, and finite; got"):
        count_to_tex(number, "NeC")
    with pytest.raises(CountError, match="tex: must be more than 0, and finite; got"):
        tex_to_count(number, "NeC")


def test_an_unknown_system_is_named():
    with pytest.raises(CountError, match=r"count system: must be one of NeC, NeK, .*; got 'wool'"):
        count_to_tex(20, "wool")
