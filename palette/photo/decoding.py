"""From an opened file to upright device codes, one band of rows at a time.

Pillow keeps three channels in four bytes and hands pixels over by way of a copy; taking them
band by band keeps the peak near two and a third times the size of the decoded picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from palette.errors import PhotoError
from palette.photo.deep import Deep
from palette.photo.profile import GREY, SRGB, Profile

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["Frame", "decode", "upright"]

_BAND_PIXELS = 1 << 19
_ORIENTATION = 0x0112
_SUBFILE, _REDUCED = 254, 1  # TIFF 6.0, section 8: NewSubfileType
_TOP = 65535
_GREY_MODES = {"1": "L", "L": "L", "LA": "LA", "La": "LA"}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Frame:
    """Pixels of one frame, upright: device codes, what they mean, and which of them count."""

    pixels: NDArray[Any]
    profile: Profile
    kept: NDArray[np.bool_] | None


def decode(
    image: Image, profile: Profile, odd: list[str], *, name: str = "", deep: Deep | None = None
) -> Frame:
    """Decode the first frame of an opened picture and turn it upright.

    Parameters
    ----------
    image : PIL.Image.Image
    profile : Profile
    odd : list of str
        Changed in place: what had to be assumed.
    name : str
        Of the file, for refusals.
    deep : Deep, optional
        The codes, where they are at hand already.

    Returns
    -------
    Frame

    Raises
    ------
    PhotoError
        Where the codes are decimal numbers, or have more than 16 bits.
    """
    _to_the_main_picture(image, odd)
    if getattr(image, "tag_v2", {}).get(_SUBFILE, 0) & _REDUCED:
        odd.append("the first picture in the file is a small preview of it: that was read")
    if deep is not None:
        turn = _orientation(image, odd)
        kept = None if deep.kept is None else upright(deep.kept, turn)
        return Frame(pixels=upright(deep.pixels, turn), profile=profile, kept=kept)
    image.load()
    turn = _orientation(image, odd)  # now, for Pillow turns a TIFF by itself and then says 1
    grey = _sixteen_bit_grey(image, name)
    if grey is not None:
        return Frame(pixels=upright(grey, turn), profile=profile, kept=None)
    codes = _codes(image)
    if codes.shape[2] in (2, 4) and profile.channels != codes.shape[2]:
        kept = np.ascontiguousarray(codes[..., -1] > 0)
        pixels = np.ascontiguousarray(codes[..., :-1])
    else:
        kept, pixels = None, codes
    if profile.channels != pixels.shape[2]:
        profile = SRGB if pixels.shape[2] == 3 else GREY
    frame = upright(pixels, turn)
    return Frame(pixels=frame, profile=profile, kept=None if kept is None else upright(kept, turn))


def _to_the_main_picture(image: Image, odd: list[str]) -> None:
    """Go to the picture of a file that is the photograph, and say so where there are others.

    That is the first, but in HEIF the one marked as primary (ISO/IEC 23008-12, 6.2), at which
    it was opened. Beside the photograph the MPO of phones holds its depth or its brighter parts,
    which nobody looks at: those are not spoken of.
    """
    frames = getattr(image, "n_frames", 1)
    if frames < 2:
        return
    main = int(image.tell()) if image.format == "HEIF" else 0
    image.seek(main)
    if image.format != "MPO":
        which = "first" if main == 0 else f"main one, number {main + 1},"
        odd.append(f"{frames} pictures in the file: the {which} was read")


def _orientation(image: Image, odd: list[str]) -> int:
    """EXIF orientation from 1 to 8; 1 where there is none or it makes no sense."""
    try:
        value = image.getexif().get(_ORIENTATION, 1)
    except Exception:
        return 1
    if value in range(1, 9):
        return int(value)
    odd.append(f"the EXIF orientation must be from 1 to 8; got {value}: read as it lies")
    return 1


def upright(pixels: NDArray[Any], orientation: int) -> NDArray[Any]:
    """Turn and mirror an array of rows and columns as EXIF orientation 1 to 8 asks.

    Examples
    --------
    >>> upright(np.array([[1, 2], [3, 4]]), 6).tolist()
    [[3, 1], [4, 2]]
    """
    if orientation in (5, 6, 7, 8):
        pixels = pixels.swapaxes(0, 1)
    if orientation in (2, 3, 6, 7):
        pixels = pixels[:, ::-1]
    if orientation in (3, 4, 7, 8):
        pixels = pixels[::-1]
    return np.ascontiguousarray(pixels)


def _sixteen_bit_grey(image: Image, name: str) -> NDArray[np.uint16] | None:
    """16 bit codes of a grey picture that Pillow holds whole, or None."""
    if image.mode not in ("I", "F") and not image.mode.startswith("I;16"):
        return None
    values = np.asarray(image)
    if image.mode == "F" or values.min() < 0 or values.max() > _TOP:
        raise PhotoError(
            name,
            "must have 8 or 16 bits a channel",
            got="decimal numbers" if image.mode == "F" else "32 bits",
            remedy="Save it anew with 16 bits.",
        )
    return np.asarray(values.astype(np.uint16)[..., None])


def _codes(image: Image) -> NDArray[np.uint8]:
    """8 bit codes of shape (height, width, channels)."""
    mode = image.mode
    if mode in _GREY_MODES:
        target = _GREY_MODES[mode]
    elif mode == "CMYK":
        target = "CMYK"
    else:
        clear = mode in ("RGBA", "RGBa", "PA") or "transparency" in image.info
        target = "RGBA" if clear else "RGB"
    if "transparency" in image.info and mode in ("1", "L"):
        target = "LA"
    width, height = image.size
    codes = np.empty((height, width, len(target)), dtype=np.uint8)
    rows = max(1, _BAND_PIXELS // width)
    for top in range(0, height, rows):
        bottom = min(top + rows, height)
        band = image.crop((0, top, width, bottom))
        if band.mode != target:
            band = band.convert(target)
        codes[top:bottom] = np.asarray(band).reshape(bottom - top, width, len(target))
    return codes
