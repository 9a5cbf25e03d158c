"""Yarn counts against the published examples, and what is refused."""

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.errors import CountError
from palette.yarn.count import YarnCount, parse_count, plied
from palette.yarn.systems import SYSTEMS

DATA = Path(__file__).parents[1] / "data"


def rows(name):
    lines = (DATA / name).read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def value_in(count, unit):
    if unit == "yd/lb":
        return count.yd_per_lb
    if unit == "m/kg":
        return count.m_per_kg
    return count.in_system(unit)


@pytest.mark.parametrize(
    "row", rows("yarn_count_examples.csv"), ids=lambda r: f"{r['count']} in {r['in']}"
)
def test_published_examples(row):
    came = value_in(parse_count(row["count"]), row["in"])
    assert round(came, int(row["decimals"])) == float(row["value"])


def test_average_of_three_counts_used_singly():
    """Davis, Hosiery Manufacture: 64s, 48s and 32s used singly average 44 4/13."""
    folded = parse_count("NeC 64 + 48 + 32")
    assert round(folded.plies * folded.in_system("NeC"), 3) == 44.308


def test_the_missing_thread_of_a_fold():
    """Davis: with one thread A and the resultant R known, the other is AR / (A - R)."""
    resultant, known = 40 / 3, 40
    missing = known * resultant / (known - resultant)
    assert round(parse_count(f"NeC 40 + {missing:.9f}").in_system("NeC"), 6) == round(resultant, 6)


@pytest.mark.parametrize(
    ("text", "label"),
    [
        ("NeC 8/2", "NeC 8/2"),
        ("8/2 cotton", "NeC 8/2"),
        ("cotton 8/2", "NeC 8/2"),
        ("20s cotton", "NeC 20"),
        ("2/20s worsted", "NeK 2/20"),
        ("Nm 2/28", "Nm 2/28"),
        ("Nm 28/2", "Nm 2/28"),  # 28 plies are no yarn
        ("NeC 2/20", "NeC 20/2"),
        ("nm 2/7,5", "Nm 2/7.5"),
        ("tex 74x2", "tex 74x2"),
        ("74 tex x 2", "tex 74x2"),
        ("74tex×2", "tex 74x2"),
        ("2 x 37 tex", "tex 37x2"),
        ("R 74 tex/2", "R 74 tex/2"),
        ("R tex 74/2", "R 74 tex/2"),
        ("840 yd/lb", "840 yd/lb"),
        ("840 yds per lb", "840 yd/lb"),
        ("400m/100g", "400 m/100 g"),
        ("6000 m/kg", "6000 m/kg"),
        ("425 yd per 4 oz", "425 yd/4 oz"),
        ("1.5 run", "run 1.5"),
        ("8 spyndle", "spyndle 8"),
        ("den 150", "den 150"),
        ("NeC 40+20", "NeC 40 + NeC 20"),
        ("NeC 20 + tex 30", "NeC 20 + tex 30"),
    ],
)
def test_notations(text, label):
    count = parse_count(text)
    assert count.label == label
    assert parse_count(count.label) == count


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            "8/2",
            r"must name its system; got '8/2'\. It could be NeC 8/2 \(148 tex, 6773 m/kg\), "
            r"NeL 8/2 \(413 tex, 2419 m/kg\), NeK 2/8 \(221 tex, 4516 m/kg\) "
            r"or Nm 2/8 \(250 tex, 4000 m/kg\): write one of these\.",
        ),
        ("2/28", r"It could be NeC 28/2 .* or Nm 2/28 \(71\.4 tex, 14000 m/kg\)"),
        ("30", r"must name its system; got '30'\. It could be NeC 30 .* or tex 30 \(30 tex"),
        ("37x2", r"must name its system; got '37x2'\. It could be tex 37x2 \(74 tex"),
        ("99x99", r"must name its system; got '99x99'\. Write it like NeC 8/2"),
        ("Ne 20", r"system 'Ne' must be one of NeC, NeL, NeK; got 'Ne 20'\. Write NeC 20 or"),
        (
            "Nm 6/2",
            r"must say which number is the plies; got 'Nm 6/2'\. It could be Nm 6x2 \(333 tex, "
            r"3000 m/kg\) or Nm 2x6 \(3000 tex, 333 m/kg\): write one of these",
        ),
        ("tex 74/2", r"must say which figure it gives; .* tex 74x2 \(148 tex.* or R 74 tex/2 \(74"),
        ("NeC 20/30", "must have from 1 to 12 plies"),
        ("tex 37x13", "must have a whole number of plies from 1 to 12"),
        ("tex 37x1.5", "must have a whole number of plies from 1 to 12"),
        ("R 74 tex/0", "must have a whole number of plies from 1 to 12"),
        ("wool 2/20", "system must be one of NeC, NeK, .*; got 'wool 2/20'"),
        ("NeC 8/2 linen", "must name one system; got 'NeC 8/2 linen'"),
        ("NeC 0", "must be more than 0; got 'NeC 0'"),
        ("0 m/100 g", "must be more than 0; got '0 m/100 g'"),
        ("400 m/0 g", "must be more than 0; got '400 m/0 g'"),
        ("NeC nan", "cannot be read; got 'NeC nan'"),
        ("NeC -8/2", "cannot be read; got 'NeC -8/2'"),
        ("", "cannot be read; got ''"),
        ("NeC 20 +", "cannot be read; got ''"),
        ("cotton", "cannot be read; got 'cotton'"),
    ],
)
def test_refused_with_the_reason(text, words):
    with pytest.raises(CountError, match=f"--weft: .*{words}"):
        parse_count(text, thing="--weft")


def test_contraction_makes_the_resultant_coarser_once():
    plain = parse_count("tex 37x2")
    hard = parse_count("tex 37x2", contraction=0.03)
    assert hard.tex == pytest.approx(plain.tex / 0.97)
    assert parse_count(hard.label) == hard
    with pytest.raises(CountError, match="twist contraction must be given once"):
        parse_count(hard.label, contraction=0.05)
    with pytest.raises(CountError, match="twist contraction must be from 0 to under 1; got 1"):
        parse_count("tex 37x2", contraction=1.0)


def test_contraction_of_a_measured_resultant_makes_its_singles_finer():
    measured = parse_count("R 74 tex/2", contraction=0.05)
    assert measured.tex == 74
    assert measured.singles_tex == pytest.approx((37 * 0.95,) * 2)


def test_singles_must_come_to_the_resultant():
    with pytest.raises(CountError, match="singles must come to its 80 tex; got 74 tex"):
        YarnCount(label="tex 37x2", tex=80.0, singles_tex=(37.0, 37.0))
    with pytest.raises(CountError, match="tex must be more than 0"):
        YarnCount(label="x", tex=math.nan, singles_tex=(37.0,))
    with pytest.raises(CountError, match="each single must be more than 0"):
        YarnCount(label="x", tex=1.0, singles_tex=())


def test_plied_from_counts():
    two = plied((parse_count("NeC 8/2"), parse_count("tex 37")), contraction=0.02)
    assert two.plies == 3
    assert two.tex == pytest.approx((147.635312 + 37) / 0.98)
    with pytest.raises(CountError, match="plied yarn: must have at least one single"):
        plied(())
    with pytest.raises(CountError, match="plied yarn: twist contraction must be from 0 to under 1"):
        plied((parse_count("NeC 8/2"),), contraction=1.0)


@pytest.mark.parametrize(
    "labels",
    [("Nm 2/8, contraction 5%", "NeC 20"), ("840 yd/lb", "R 74 tex/2"), ("NeC 40 + 20", "tex 9")],
)
def test_whatever_can_be_read_can_be_plied(labels):
    counts = tuple(parse_count(label) for label in labels)
    cable = plied(counts, contraction=0.04)
    assert cable.tex == pytest.approx(sum(count.tex for count in counts) / 0.96)
    assert cable.plies == sum(count.plies for count in counts)
    assert plied((cable, cable)).tex == pytest.approx(2 * cable.tex)


def test_all_of_the_length_cannot_be_lost_in_plying():
    with pytest.raises(CountError, match="twist contraction must be from 0 to under 1; got 1"):
        YarnCount(label="x", tex=1.0, singles_tex=(1.0,), contraction=1.0)


SIZES = st.integers(1, 400).map(lambda tenths: tenths / 4)


@given(system=st.sampled_from(sorted(SYSTEMS)), size=SIZES, plies=st.integers(1, 12))
def test_every_count_reads_back_from_its_label(system, size, plies):
    count = parse_count(f"{system} {size:g}x{plies}")
    assert count.plies == plies
    assert parse_count(count.label) == count


@given(
    number=st.floats(1, 20000),
    mass=st.floats(0.1, 1000),
    length_unit=st.sampled_from(["m", "yd", "km"]),
    mass_unit=st.sampled_from(["g", "kg", "oz", "lb"]),
)
def test_length_and_mass_convert_back(number, mass, length_unit, mass_unit):
    count = parse_count(f"{number:.6f} {length_unit}/{mass:.6f} {mass_unit}")
    assert count.length_m(count.mass_g(123.4)) == pytest.approx(123.4)
    assert count.m_per_kg * count.tex == pytest.approx(1e6)


def read_or_reason(text):
    try:
        return parse_count(text).label
    except CountError as refusal:
        return str(refusal)


@given(text=st.text(max_size=30) | st.text("0123456789./x+ Rtexnmcsydlbg", max_size=20))
def test_any_text_is_read_or_refused_in_words(text):
    said = read_or_reason(text)
    assert said.startswith("yarn count: ") or parse_count(said).label == said
