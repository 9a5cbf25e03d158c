"""What each dye does, learnt from samples whose truth is known."""

import csv
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.cloth.mixing_law import channels_to_lab, lab_to_channels
from palette.dyeing.dye_model import (
    concentration_for,
    fit_dyes,
    left_out_errors,
    reflectance_at,
)
from palette.dyeing.mixing_laws import absorption, absorption_reflectance
from palette.errors import TableError
from palette.perception.difference import ciede2000

DATA = Path(__file__).parents[1] / "data" / "dye_strength_worked_examples.csv"
ROWS = [
    row
    for row in csv.reader(DATA.read_text(encoding="utf-8").splitlines())
    if not row[0].startswith("#")
]
UNSEEN = [(a, b, c) for a in (0.0, 0.4, 1.2) for b in (0.0, 0.3, 0.9) for c in (0.0, 0.3)][1:]


@pytest.mark.parametrize(("percent", "reflectance"), ROWS)
def test_strength_of_a_dye_to_the_printed_digits(percent: str, reflectance: str) -> None:
    digits = len(reflectance.partition(".")[2])
    reckoned = float(reflectance_at(float(percent), undyed=0.70, dyed=0.20))
    assert reckoned == pytest.approx(float(reflectance), abs=0.5 * 10**-digits)
    back = concentration_for(float(reflectance), undyed=0.70, dyed=0.20)
    assert back == pytest.approx(float(percent), rel=2e-3)


@given(st.floats(0.01, 8), st.floats(0.3, 0.95), st.floats(0.03, 0.25), st.floats(0.2, 4))
def test_strength_there_and_back(percent: float, undyed: float, dyed: float, known: float) -> None:
    reflectance = float(reflectance_at(percent, undyed=undyed, dyed=dyed, dyed_percent=known))
    back = concentration_for(reflectance, undyed=undyed, dyed=dyed, dyed_percent=known)
    assert back == pytest.approx(percent, rel=1e-6)
    assert float(reflectance_at(known, undyed=undyed, dyed=dyed, dyed_percent=known)) == (
        pytest.approx(dyed)
    )


def test_colours_of_unseen_dyeings_are_predicted(known_dyes, ladder) -> None:
    model = fit_dyes(ladder)
    errors = ciede2000(model.colours(UNSEEN), known_dyes.colours(UNSEEN))
    assert errors.mean() < 0.8
    assert ciede2000(model.colours([(0, 0, 0)])[0], known_dyes.colours([(0, 0, 0)])[0]) < 1.0


def test_recovered_spectra_beat_three_channels(known_dyes, ladder) -> None:
    percents = np.array([each.percents for each in ladder.samples])
    channels = absorption(
        np.clip(lab_to_channels([each.lab for each in ladder.samples]), 0.001, 0.999)
    )
    slopes = np.linalg.lstsq(percents, channels - channels[0], rcond=None)[0]
    wide = channels_to_lab(
        absorption_reflectance(np.clip(channels[0] + np.array(UNSEEN) @ slopes, 0, None))
    )
    truth = known_dyes.colours(UNSEEN)
    spectra = ciede2000(fit_dyes(ladder).colours(UNSEEN), truth).mean()
    assert spectra < 0.3 * ciede2000(wide, truth).mean()


def test_dye_that_is_taken_up_less_at_depth_is_followed(known_dyes, ladder) -> None:
    percents = [each.percents for each in ladder.samples]
    bent = fit_dyes(known_dyes.samples(percents, exponent=0.8))
    assert np.all(bent.exponents < 1)
    truth = known_dyes.colours(UNSEEN, 0.8)
    straight = replace(bent, exponents=np.ones(3))
    assert ciede2000(bent.colours(UNSEEN), truth).mean() < 2.0
    assert (
        ciede2000(bent.colours(UNSEEN), truth).mean()
        < ciede2000(straight.colours(UNSEEN), truth).mean()
    )


def test_errors_of_left_out_samples_tell_the_error_of_new_ones(known_dyes, ladder) -> None:
    errors = left_out_errors(ladder)
    assert [name for name, _ in errors] == [each.name for each in ladder.samples if not each.undyed]
    mean = np.mean([value for _, value in errors])
    new = ciede2000(fit_dyes(ladder).colours(UNSEEN), known_dyes.colours(UNSEEN)).mean()
    assert 0.5 < mean / new < 2.5


def test_a_wrong_sample_stands_out(ladder) -> None:
    samples = list(ladder.samples)
    samples[3] = replace(samples[3], lab=(40.0, 40.0, -40.0))
    errors = dict(left_out_errors(replace(ladder, samples=tuple(samples))))
    assert max(errors, key=errors.get) == samples[3].name
    assert errors[samples[3].name] > 10


def test_without_the_undyed_yarn_it_is_estimated(known_dyes, ladder) -> None:
    model = fit_dyes(replace(ladder, samples=ladder.samples[1:]))
    assert ciede2000(model.colours(UNSEEN), known_dyes.colours(UNSEEN)).mean() < 2


def test_order_of_the_samples_decides_nothing(ladder) -> None:
    turned = replace(ladder, samples=tuple(reversed(ladder.samples)))
    assert fit_dyes(turned).colours(UNSEEN) == pytest.approx(
        fit_dyes(ladder).colours(UNSEEN), abs=1e-6
    )


def test_too_few_samples_are_refused(ladder) -> None:
    for act in (fit_dyes, left_out_errors):
        with pytest.raises(TableError, match="must hold at least 3 dyed samples; got 1"):
            act(replace(ladder, samples=ladder.samples[:2]))
