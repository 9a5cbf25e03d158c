"""Which profile a photograph is in: the one it carries, the one it names, or sRGB."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from palette.photo.code_points import code_points_of, profile_of_code_points
from palette.photo.icc import BrokenProfileError, read_profile
from palette.photo.primaries import matrix_of
from palette.photo.profile import (
    ADOBE_RGB,
    CMYK_WITHOUT_PROFILE,
    GREY,
    SRGB,
    Curve,
    Profile,
)

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["profile_of"]

_CHANNELS = {"CMYK": 4, "L": 1, "LA": 1, "La": 1, "1": 1, "I": 1, "F": 1}
_EXIF_FOLDER = 0x8769
_INTEROPERABILITY_FOLDER = 0xA005
_COLOUR_SPACE = 0xA001
_LEAST_GAMMA, _MOST_GAMMA, _GAMMA_OF_SRGB = 0.9, 4.0, 0.1
_SRGB_CHROMATICITIES = (0.3127, 0.329, 0.64, 0.33, 0.3, 0.6, 0.15, 0.06)  # IEC 61966-2-1
_SAME_POINT = 0.002


def profile_of(
    image: Image, odd: list[str], *, channels: int | None = None, place: Path | None = None
) -> Profile:
    """Profile of an opened picture; what was odd about it is added to `odd` as sentences.

    Code points go before a profile in PNG (third edition, W3C 2025, 4.3), after it elsewhere.

    Parameters
    ----------
    image : PIL.Image.Image
    odd : list of str
        Changed in place.
    channels : int, optional
        1, 3 or 4, where the codes have others than Pillow would give them.
    place : Path, optional
        The file, which may say more than Pillow reads.

    Returns
    -------
    Profile
    """
    channels = channels or _channels(image.mode)
    icc = image.info.get("icc_profile")
    points = code_points_of(place, image) if channels == 3 else None
    if points is not None and (image.format == "PNG" or not icc):
        return profile_of_code_points(points, odd)
    if not icc:
        return _named(image, channels, odd)
    try:
        profile = read_profile(bytes(icc))
    except BrokenProfileError as error:
        odd.append(f"the colour profile {error}: the picture was read as {_plain(channels).name}")
        return _plain(channels)
    if profile.channels != channels:
        fits = "RGB" if channels == 3 else "grey" if channels == 1 else "CMYK"
        odd.append(
            f"the colour profile ({profile.name}) is not for {fits} pictures: "
            f"the picture was read as {_plain(channels).name}"
        )
        return _plain(channels)
    return profile


def _channels(mode: str) -> int:
    return 1 if mode.startswith("I;16") else _CHANNELS.get(mode, 3)


def _plain(channels: int) -> Profile:
    return {1: GREY, 3: SRGB, 4: CMYK_WITHOUT_PROFILE}[channels]


def _named(image: Image, channels: int, odd: list[str]) -> Profile:
    """Profile of a picture that carries none but may name one."""
    if channels == 4:
        odd.append("a CMYK picture without a colour profile: its colours are a guess")
        return CMYK_WITHOUT_PROFILE
    if image.format == "PNG":
        return _with_gamma(image, _with_primaries(image, channels, odd))
    if channels == 1:
        return GREY
    return ADOBE_RGB if _says_adobe(image) else SRGB


def _with_primaries(image: Image, channels: int, odd: list[str]) -> Profile:
    """Profile of a PNG without one: sRGB, unless it names other primaries.

    ISO/IEC 15948, 11.3.3.1: white, red, green and blue as chromaticities.
    """
    told = image.info.get("chromaticity")
    plain = _plain(channels)
    if channels != 3 or "srgb" in image.info or not told:
        return plain
    if all(abs(a - b) < _SAME_POINT for a, b in zip(told, _SRGB_CHROMATICITIES, strict=True)):
        return plain
    white, red, green, blue = ((told[at], told[at + 1]) for at in (0, 2, 4, 6))
    try:
        matrix = matrix_of((red, green, blue), white)
    except ValueError as error:
        odd.append(f"{error}: read as {plain.name}")
        return plain
    return replace(plain, name="RGB with primaries of its own", kind="matrix", matrix=matrix)


def _with_gamma(image: Image, plain: Profile) -> Profile:
    """Give a profile the gamma that a PNG names, where that is far from sRGB.

    ISO/IEC 15948, 11.3.3.2: a file names the exponent from light to code; 1 / 2.2 stands for
    sRGB, which is told by a mark of its own where it is there.
    """
    gamma = image.info.get("gamma")
    if "srgb" in image.info or not gamma or not _LEAST_GAMMA <= 1 / gamma <= _MOST_GAMMA:
        return plain
    if abs(1 / gamma - 2.2) < _GAMMA_OF_SRGB:
        return plain
    name = f"{plain.name.removesuffix(' with the curve of sRGB')} with gamma {1 / gamma:.2g}"
    curve = Curve(parameters=(1 / gamma, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0))
    kind = "grey" if plain.channels == 1 else "matrix"
    return replace(plain, name=name, kind=kind, curves=(curve,) * plain.channels)


def _says_adobe(image: Image) -> bool:
    """Whether EXIF says "optional colour space", the camera standard's word for Adobe RGB.

    DCF 2.0 (JEITA CP-3461B): interoperability index "R03" with colour space "uncalibrated".
    """
    try:
        exif = image.getexif()
        index = exif.get_ifd(_INTEROPERABILITY_FOLDER).get(1, "")
        space = exif.get_ifd(_EXIF_FOLDER).get(_COLOUR_SPACE)
    except Exception:
        return False
    if isinstance(index, bytes):
        index = index.decode("latin-1")
    return space == 2 or (str(index).strip("\0 ") == "R03" and space in (None, 0xFFFF))
