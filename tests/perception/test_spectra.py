"""Spectra recovered from colours, against measured ones."""

import numpy as np
import pytest

from palette.cloth.mixing_law import (
    channels_to_lab,
    lab_to_channels,
    mixing_function,
    reflectance,
)
from palette.perception.difference import ciede2000
from palette.perception.spaces import linear_srgb_to_lab
from palette.perception.spectra import WAVELENGTHS_NM, recovered_spectra, spectra_to_lab


@pytest.fixture(scope="module")
def measured() -> np.ndarray:
    """The 99 measured reflectances of CIE 224:2017, textiles among them: (99, wavelengths)."""
    import colour
    from colour.quality.cfi2017 import load_TCS_CIE2017

    samples = load_TCS_CIE2017(colour.SpectralShape(380, 780, 5)).copy()
    samples.align(colour.SpectralShape(WAVELENGTHS_NM[0], WAVELENGTHS_NM[-1], 10))
    return np.asarray(samples.values.T, dtype=float)


def test_colours_of_spectra_agree_with_colour_science(measured: np.ndarray) -> None:
    import colour

    shape = colour.SpectralShape(WAVELENGTHS_NM[0], WAVELENGTHS_NM[-1], 10)
    observer = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].copy().align(shape)
    light = colour.SDS_ILLUMINANTS["D65"].copy().align(shape)
    with colour.domain_range_scale("reference"):
        for spectrum in measured[::10]:
            distribution = colour.SpectralDistribution(spectrum, WAVELENGTHS_NM)
            xyz = colour.sd_to_XYZ(distribution, observer, light, method="Integration") / 100
            white = colour.sd_to_XYZ(light, observer, method="Integration")
            white_xy = colour.XYZ_to_xy(white)
            expected = colour.XYZ_to_Lab(xyz, white_xy)
            assert spectra_to_lab(spectrum) == pytest.approx(expected, abs=0.05)


def test_recovered_spectra_have_the_colours_they_were_recovered_from(measured) -> None:
    labs = spectra_to_lab(measured)
    spectra = recovered_spectra(labs)
    assert spectra.shape == measured.shape
    assert np.all((spectra > 0) & (spectra < 1))
    assert ciede2000(labs, spectra_to_lab(spectra)).max() < 0.5


def test_colours_that_no_reflectance_has_are_met_as_nearly_as_can_be() -> None:
    spectra = recovered_spectra([[0, 0, 0], [100, 0, 0], [50, 90, 80]])
    assert np.all((spectra > 0) & (spectra < 1))
    assert spectra_to_lab(spectra)[1] == pytest.approx([100, 0, 0], abs=1)
    assert spectra_to_lab(spectra)[0] == pytest.approx([1, 0, 0], abs=1.5)  # black, and neutral


def test_mixes_of_recovered_spectra_beat_mixes_of_three_channels(measured: np.ndarray) -> None:
    # Ground truth: Stearns and Noechel's law on the measured spectra, blends of two to four.
    random = np.random.default_rng(1)
    shares = np.zeros((2000, len(measured)))
    for row in shares:
        parts = random.integers(2, 5)
        row[random.choice(len(measured), parts, replace=False)] = random.dirichlet([2.0] * parts)
    labs = spectra_to_lab(measured)
    truth = spectra_to_lab(reflectance(shares @ mixing_function(measured)))

    def mean_error(parts: np.ndarray, to_lab) -> float:
        mixed = to_lab(reflectance(shares @ mixing_function(parts)))
        return float(ciede2000(truth, mixed).mean())

    from palette.perception.spaces import lab_to_linear_srgb

    spectra = mean_error(recovered_spectra(labs), spectra_to_lab)
    wide = mean_error(lab_to_channels(labs), channels_to_lab)
    srgb = mean_error(lab_to_linear_srgb(labs), linear_srgb_to_lab)
    assert spectra == pytest.approx(1.2, abs=0.1)
    assert wide == pytest.approx(1.7, abs=0.1)
    assert srgb > 2.5
