"""From yarn back to fleece."""

import csv
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import InputError
from palette.yarn.count import parse_count
from palette.yarn.fleece import (
    CARDING_LOSS,
    COMBING_LOSS,
    FLEECE_TO_YARN,
    SPINNING_LOSS,
    WOOL_BREEDS,
    YIELDS,
    bobbins_to_fill,
    fleece_needed,
    yarn_from_fleece,
    yield_of,
)

DATA = Path(__file__).parents[1] / "data"


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.mark.parametrize("row", rows("yarn_fleece.csv"), ids=lambda r: r["kind"])
def test_raw_fleece_for_clean_fibre(row):
    need = fleece_needed(
        float(row["clean_g"]),
        clean_yield=YIELDS[row["kind"]].low,
        preparation_loss=0,
        spinning_loss=0,
    )
    assert round(need.raw_g) == int(row["raw_g"])


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    [
        ("merino", 0.45, 0.45),
        ("corriedale", 0.54, 0.54),
        ("southdown", 0.50, 0.50),
        ("burry", 0.62, 0.62),
        ("lincoln, washed", 0.733, 0.733),
        ("australian clip", 0.45, 0.60),
        ("wool", 0.43, 0.76),
        ("alpaca", 0.87, 0.95),
    ],
)
def test_yields_as_printed(kind, low, high):
    """Encyclopaedia Britannica 14th ed. (Leeds), a farm's page, an alpaca breeder's page."""
    assert (YIELDS[kind].low, YIELDS[kind].high) == (low, high)
    assert YIELDS[kind].label


def test_a_mill_run_of_alpaca():
    """A fibre mill: 20 kg skirted alpaca, 17 kg tops (85 %), 16 kg yarn (80 %)."""
    spun = 1 - 16 / 17
    yarn = yarn_from_fleece(20_000, clean_yield=0.85, preparation_loss=0, spinning_loss=spun)
    assert yarn == pytest.approx(16_000)
    assert yarn / 20_000 == pytest.approx(0.80)
    assert FLEECE_TO_YARN["alpaca"].low <= yarn / 20_000 <= FLEECE_TO_YARN["alpaca"].high
    need = fleece_needed(16_000, clean_yield=0.85, preparation_loss=0, spinning_loss=spun)
    assert (need.prepared_g, need.raw_g) == (pytest.approx(17_000), pytest.approx(20_000))


@given(
    yarn=st.floats(1, 5000),
    clean_yield=st.floats(0.2, 1),
    carding=st.floats(0, 0.5),
    spinning=st.floats(0, 0.3),
)
def test_there_and_back(yarn, clean_yield, carding, spinning):
    losses = {"clean_yield": clean_yield, "preparation_loss": carding, "spinning_loss": spinning}
    need = fleece_needed(yarn, **losses)
    assert need.yarn_g <= need.prepared_g <= need.clean_g <= need.raw_g * (1 + 1e-12)
    assert yarn_from_fleece(need.raw_g, **losses) == pytest.approx(yarn)


def test_losses_have_labels():
    for loss in (CARDING_LOSS, COMBING_LOSS, SPINNING_LOSS):
        assert 0 < loss.low < loss.high < 0.5
        assert "common practice" in loss.label


def test_bobbins_of_singles():
    """Own: 500 m of a two-ply Nm 2/8 with 5 % contraction takes 526.3 m of each single."""
    filled = bobbins_to_fill(500, parse_count("Nm 2/8", contraction=0.05), bobbin_g=40)
    assert filled.plies == 2
    assert filled.singles_m == pytest.approx((500 / 0.95,) * 2)
    assert filled.singles_g == pytest.approx((500 / 0.95 / 8,) * 2)
    assert filled.bobbins == (2, 2)
    assert filled.total == 4


@given(length=st.floats(10, 5000), bobbin=st.floats(10, 200), share=st.floats(0, 0.2))
def test_singles_weigh_what_the_yarn_weighs(length, bobbin, share):
    count = parse_count("NeC 20 + 10", contraction=share)
    filled = bobbins_to_fill(length, count, bobbin_g=bobbin)
    assert sum(filled.singles_g) == pytest.approx(count.mass_g(length))
    assert all(
        grams <= number * bobbin * (1 + 1e-9)
        for grams, number in zip(filled.singles_g, filled.bobbins, strict=True)
    )


def test_refusals():
    with pytest.raises(InputError, match="clean yield: must be more than 0, and at most 1; got 0"):
        fleece_needed(100, clean_yield=0)
    with pytest.raises(InputError, match="spinning loss: must be from 0 to under 1; got 1"):
        fleece_needed(100, clean_yield=1, spinning_loss=1)
    with pytest.raises(InputError, match="yarn: must be 0 or more, and finite; got nan g"):
        fleece_needed(float("nan"), clean_yield=0.5)
    with pytest.raises(InputError, match="bobbin: must be more than 0, and finite; got 0"):
        bobbins_to_fill(100, parse_count("Nm 8"), bobbin_g=0)


def test_a_breed_without_a_figure_takes_that_of_wool() -> None:
    romney = yield_of("Romney")
    assert (romney.low, romney.high) == (YIELDS["wool"].low, YIELDS["wool"].high)
    assert romney.label.startswith("no figure for romney, so that of any wool: ")
    assert all(yield_of(breed).low == YIELDS["wool"].low for breed in WOOL_BREEDS)
    assert all(yield_of(kind.upper()) == found for kind, found in YIELDS.items())
    assert not set(WOOL_BREEDS) & set(YIELDS)


@pytest.mark.parametrize(
    ("kind", "remedy"),
    [("romny", "Did you mean romney?"), ("xyzzy", "For any other sheep take wool.")],
)
def test_an_unknown_kind_of_fleece_is_answered(kind: str, remedy: str) -> None:
    with pytest.raises(InputError) as refused:
        yield_of(kind)
    said = str(refused.value)
    assert "fleece: must be one of merino, corriedale" in said
    assert said.endswith(f"or a breed of sheep; got '{kind}'. {remedy}")
