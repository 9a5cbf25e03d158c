"""Which profile a picture is in that carries none but names one in passing."""

import pytest
from PIL import Image

from palette.photo.naming import profile_of
from palette.photo.profile import DISPLAY_P3, GREY, SRGB


def named(mode: str = "RGB", **info):
    image = Image.new(mode, (2, 2))
    image.info.update(info)
    odd: list[str] = []
    return profile_of(image, odd), odd


@pytest.mark.parametrize(
    ("primaries", "profile"),
    [(1, SRGB), (2, SRGB), (12, DISPLAY_P3)],  # ITU-T H.273, table 2
)
def test_the_primaries_that_a_heic_names(primaries, profile) -> None:
    nclx = {"color_primaries": primaries, "transfer_characteristics": 13}
    assert named(nclx_profile=nclx) == (profile, [])


@pytest.mark.parametrize("curve", [16, 18])  # ITU-T H.273, table 3: PQ and HLG
def test_a_heic_for_very_bright_screens_is_told(curve) -> None:
    nclx = {"color_primaries": 12, "transfer_characteristics": curve}
    said = ["a picture coded for very bright screens (HDR): its colours are a guess"]
    assert named(nclx_profile=nclx) == (DISPLAY_P3, said)


@pytest.mark.parametrize("info", [{}, {"nclx_profile": None}, {"nclx_profile": b"?"}])
def test_what_names_nothing_is_srgb(info) -> None:
    assert named(**info) == (SRGB, [])
    assert named("L", **info) == (GREY, [])
