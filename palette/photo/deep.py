"""PNG and TIFF files of 16 bits a channel, read at their depth.

Pillow keeps 8 of the 16 bits of a colour picture, and takes a TIFF whose channels lie apart, or
whose zero is white, for another picture. So these files go to tifffile and imagecodecs; where
those are missing, or do not know the kind of compression, Pillow's 8 bits are taken and that is
said. Shadows need the depth: in a file with wide or linear codes one of 256 steps down there is a
difference that the eye sees.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import NDArray

from palette.errors import PhotoError

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["Deep", "deep_codes", "is_deep", "tiff_kind"]

_PNG_HEADER, _PNG_DEPTH, _PNG_KIND = 26, 24, 25  # bytes of the header; ISO/IEC 15948, 11.2.2
_PNG_COLOURS = {0: 1, 2: 3, 4: 1, 6: 3}
_TIFF_DEPTH, _TIFF_PLANES = 258, 284  # tags; TIFF 6.0, section 8
_TIFF_WHITE_IS_ZERO, _TIFF_APART = 0, 2
_TIFF_COLOURS = {0: 1, 1: 1, 2: 3, 5: 4}  # photometric interpretation; TIFF 6.0, section 3 to 16
_PREMULTIPLIED, _CLEAR = 1, 2  # extra samples, TIFF 6.0, section 18
_TOP = 65535


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Deep:
    """Codes of one picture at 16 bits a channel, as the file has them lying.

    Attributes
    ----------
    pixels : ndarray of shape (height, width, channels), uint16
        1 channel (grey), 3 (RGB) or 4 (CMYK).
    kept : ndarray of shape (height, width), bool, or None
        False where it is wholly transparent.
    """

    pixels: NDArray[np.uint16]
    kept: NDArray[np.bool_] | None = None


def is_deep(place: Path, image: Image) -> bool:
    """Whether an opened PNG or TIFF has 16 bits in each channel."""
    if image.format == "PNG":
        with place.open("rb") as file:
            start = file.read(_PNG_HEADER)
        return start[_PNG_DEPTH] == 16
    tags = getattr(image, "tag_v2", None)
    return image.format == "TIFF" and tags is not None and set(tags.get(_TIFF_DEPTH, ())) == {16}


def deep_codes(place: Path, image: Image, odd: list[str]) -> Deep | None:
    """Codes of a PNG or TIFF of 16 bits a channel; None for any other picture.

    Parameters
    ----------
    place : Path
    image : PIL.Image.Image
        The same file, opened by Pillow, which knows its size.
    odd : list of str
        Changed in place: what was lost.

    Returns
    -------
    Deep or None
        None also where no library at hand reads this kind at its depth; then `odd` says so.

    Raises
    ------
    PhotoError
        Where the file is cut short or its parts contradict each other.
    """
    if not is_deep(place, image):
        return None
    try:
        found = _from_png(place) if image.format == "PNG" else _from_tiff(place)
    except ImportError:
        found = None
    except PhotoError:
        raise
    except Exception as error:  # each codec has errors of its own
        raise _broken(place, "parts that do not fit together") from error
    if found is None:
        if getattr(image, "tag_v2", {}).get(_TIFF_PLANES) == _TIFF_APART:  # Pillow misreads them
            rule = "must have the channels of each pixel side by side, or a common compression"
            raise PhotoError(place.name, rule, got="channels apart", remedy="Save it anew.")
        odd.append("16 bits a channel in the file: read at 8, so shadows are less exact")
        return None
    if sorted(found.pixels.shape[:2]) != sorted(image.size):  # Pillow's may be upright already
        raise _broken(place, "two different sizes")
    return found


@contextmanager
def _unheard(library: str) -> Iterator[None]:
    """Keep a library from writing its remarks beside the one sentence that is said here."""
    logger = logging.getLogger(library)
    before, logger.disabled = logger.disabled, True
    try:
        yield
    finally:
        logger.disabled = before


def tiff_kind(place: Path) -> str:
    """Words for a TIFF that Pillow cannot open; "" where it is damaged."""
    try:
        from tifffile import TiffFile

        with _unheard("tifffile"), TiffFile(place) as file:
            page: Any = file.pages[0]
            kind, bits = page.dtype.kind, page.bitspersample
    except Exception:
        return ""
    if kind == "f":
        return "a TIFF of decimal numbers"
    if kind == "i":
        return "a TIFF of signed numbers"
    return f"a TIFF of {bits} bits a channel of a kind that is not known here"


def _broken(place: Path, got: str) -> PhotoError:
    remedy = "Copy it again from the camera, or save it anew."
    return PhotoError(place.name, "must be a whole picture", got=got, remedy=remedy)


def _from_png(place: Path) -> Deep:
    from imagecodecs import png_decode

    data = place.read_bytes()
    codes = np.atleast_3d(png_decode(data))
    colours = _PNG_COLOURS[data[_PNG_KIND]]
    return _parted(codes, colours, _CLEAR if codes.shape[2] > colours else 0)


def _from_tiff(place: Path) -> Deep | None:
    """Codes of the first picture of a TIFF, or None where its kind is not one of these."""
    import imagecodecs  # noqa: F401  tifffile asks it for most kinds of compression
    from tifffile import TiffFile

    with _unheard("tifffile"), TiffFile(place) as file:
        page: Any = file.pages[0]
        colours = _TIFF_COLOURS.get(int(page.photometric))
        if colours is None or page.dtype != np.uint16 or page.samplesperpixel < colours:
            return None
        if not _whole(page, file.filehandle.size):
            raise _broken(place, "a file that ends too early")
        codes = page.asarray()
        if page.planarconfig == _TIFF_APART and page.samplesperpixel > 1:
            codes = np.moveaxis(codes, 0, -1)
        codes = np.atleast_3d(codes)
        if int(page.photometric) == _TIFF_WHITE_IS_ZERO:
            codes = _TOP - codes
        extra = int(page.extrasamples[0]) if page.extrasamples else 0
    return _parted(codes, colours, extra)


def _whole(page: Any, size: int) -> bool:  # noqa: ANN401  a page of a library without types
    """Whether every strip of a page lies inside the file."""
    parts = zip(page.dataoffsets, page.databytecounts, strict=True)
    return all(start > 0 and start + length <= size for start, length in parts)


def _parted(codes: NDArray[np.uint16], colours: int, extra: int) -> Deep:
    """Colours and transparency apart; `extra` says what the channel after the colours is."""
    pixels = codes[..., :colours]
    if extra not in (_PREMULTIPLIED, _CLEAR):
        return Deep(pixels=np.ascontiguousarray(pixels))
    cover = codes[..., colours]
    if extra == _PREMULTIPLIED:
        whole = np.maximum(cover, 1)[..., None].astype(np.float32)
        pixels = np.minimum(np.rint(pixels * (_TOP / whole)), _TOP).astype(np.uint16)
    return Deep(pixels=np.ascontiguousarray(pixels), kept=np.ascontiguousarray(cover > 0))
