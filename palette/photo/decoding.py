"""From an opened file to upright device codes, one band of rows at a time.

Pillow keeps three channels in four bytes and hands pixels over by way of a copy; taking them
band by band, each to its upright place, keeps the peak near two and a half times the size of
the decoded picture, also where it is turned or partly clear.
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
_ON_THEIR_SIDE, _LEFT_IS_RIGHT, _TOP_IS_BOTTOM = (5, 6, 7, 8), (2, 3, 6, 7), (3, 4, 7, 8)
_SUBFILE, _REDUCED = 254, 1  # TIFF 6.0, section 8: NewSubfileType
_TOP = 65535


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
    pixels, kept = _codes(image, turn)
    if profile.channels != pixels.shape[2]:
        profile = SRGB if pixels.shape[2] == 3 else GREY
    return Frame(pixels=pixels, profile=profile, kept=kept)


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
    if orientation in _ON_THEIR_SIDE:
        pixels = pixels.swapaxes(0, 1)
    if orientation in _LEFT_IS_RIGHT:
        pixels = pixels[:, ::-1]
    if orientation in _TOP_IS_BOTTOM:
        pixels = pixels[::-1]
    return np.ascontiguousarray(pixels)


def _lying(pixels: NDArray[Any], orientation: int) -> NDArray[Any]:
    """View of an upright array as the file has it lying: the way back of `upright`."""
    if orientation in _TOP_IS_BOTTOM:
        pixels = pixels[::-1]
    if orientation in _LEFT_IS_RIGHT:
        pixels = pixels[:, ::-1]
    return pixels.swapaxes(0, 1) if orientation in _ON_THEIR_SIDE else pixels


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


def _codes(image: Image, turn: int) -> tuple[NDArray[np.uint8], NDArray[np.bool_] | None]:
    """Upright 8 bit codes of shape (height, width, channels), and which of them are not clear.

    Every band goes straight to its upright place, and the cover apart from the colours: a
    second array of the whole picture would cost as much as the picture.
    """
    mode, clear = _target(image)
    width, height = image.size
    size = (width, height) if turn in _ON_THEIR_SIDE else (height, width)
    pixels = np.empty((*size, len(mode) - clear), dtype=np.uint8)
    kept = np.empty(size, dtype=np.bool_) if clear else None
    lying = _lying(pixels, turn)
    cover = None if kept is None else _lying(kept, turn)
    rows = max(1, _BAND_PIXELS // width)
    for top in range(0, height, rows):
        bottom = min(top + rows, height)
        band = image.crop((0, top, width, bottom))
        if band.mode != mode:
            band = band.convert(mode)
        codes = np.asarray(band).reshape(bottom - top, width, len(mode))
        lying[top:bottom] = codes[..., :-1] if clear else codes
        if cover is not None:
            cover[top:bottom] = codes[..., -1] > 0
    return pixels, kept


def _target(image: Image) -> tuple[str, bool]:
    """Mode that an image is taken in, and whether its last channel is a cover."""
    mode = image.mode
    clear = mode in ("RGBA", "RGBa", "PA", "LA", "La") or "transparency" in image.info
    if mode in ("1", "L", "LA", "La"):
        return ("LA", True) if clear else ("L", False)
    if mode == "CMYK":
        return mode, False
    return ("RGBA", True) if clear else ("RGB", False)
