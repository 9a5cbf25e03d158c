"""Dyes whose truth is known, made from measured spectra."""

import numpy as np
import pytest

from palette.dyeing.mixing_laws import absorption, absorption_reflectance
from palette.dyeing.samples import DyeSample, DyeSamples
from palette.perception.spaces import lab_to_hex
from palette.perception.spectra import WAVELENGTHS_NM, spectra_to_lab


class KnownDyes:
    """A yellow, a red and a blue on a pale yarn: K/S taken from measured spectra."""

    names = ("yellow", "red", "blue")

    def __init__(self) -> None:
        import colour
        from colour.quality.cfi2017 import load_TCS_CIE2017

        measured = load_TCS_CIE2017(colour.SpectralShape(380, 780, 5)).copy()
        measured.align(colour.SpectralShape(WAVELENGTHS_NM[0], WAVELENGTHS_NM[-1], 10))
        spectra = np.asarray(measured.values.T, dtype=float)
        labs = spectra_to_lab(spectra)
        hues = np.degrees(np.arctan2(labs[:, 2], labs[:, 1])) % 360
        chromas = np.hypot(labs[:, 1], labs[:, 2])
        self.undyed = absorption(spectra[labs[:, 0].argmax()])
        near = [np.abs((hues - hue + 180) % 360 - 180) < 30 for hue in (90, 20, 260)]
        picked = [np.where(some, chromas, -1).argmax() for some in near]
        self.per_cent = np.clip(absorption(spectra[picked]) - self.undyed, 0, None)

    def colours(self, percents, exponent: float = 1.0) -> np.ndarray:
        """True CIELAB of dyeings."""
        ratios = self.undyed + np.asarray(percents, dtype=float) ** exponent @ self.per_cent
        return spectra_to_lab(absorption_reflectance(ratios))

    def samples(self, percents, *, exponent: float = 1.0, noise: float = 0.0) -> DyeSamples:
        """Samples as a dyer would have them, with an error of measurement."""
        labs = self.colours(percents, exponent)
        labs = labs + np.random.default_rng(8).normal(0, noise, labs.shape)
        return DyeSamples(
            file="samples.csv",
            dyes=self.names,
            samples=tuple(
                DyeSample(
                    name=" ".join(f"{each:g}" for each in row),
                    percents=tuple(map(float, row)),
                    lab=tuple(lab),
                    hex=lab_to_hex(lab)[0],
                )
                for row, lab in zip(percents, labs.tolist(), strict=True)
            ),
        )


LADDER = [
    (0, 0, 0),
    *[tuple(c if i == dye else 0 for i in range(3)) for dye in range(3) for c in (0.25, 0.5, 1, 2)],
    (0.5, 0.5, 0),
    (0.5, 0, 0.5),
    (0, 0.5, 0.5),
]


@pytest.fixture(scope="package")
def known_dyes() -> KnownDyes:
    return KnownDyes()


@pytest.fixture(scope="package")
def ladder(known_dyes: KnownDyes) -> DyeSamples:
    """Four strengths of each of three dyes, three mixtures and the undyed yarn."""
    return known_dyes.samples(LADDER, noise=0.3)
