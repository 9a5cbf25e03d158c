"""Opening a photograph: upright, its profile honoured, its transparent pixels left out."""

from __future__ import annotations

import struct
import warnings
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from palette.errors import PhotoError
from palette.photo.decoding import decode
from palette.photo.deep import deep_codes, tiff_kind
from palette.photo.naming import profile_of
from palette.photo.photo import Photo

if TYPE_CHECKING:
    from collections.abc import Iterator

    from PIL.Image import Image

__all__ = ["read_photo"]

_LARGEST_SIDE_PX = 100_000
# The quick ones are known without loading every reader. EPS and WMF are not among them: for those
# other programs would be started, and a page of PostScript can do what it likes.
_QUICK = ("JPEG", "PNG", "GIF", "BMP", "PPM")
_OTHERS = ("HEIF", "AVIF", "WEBP", "TIFF", "JPEG2000", "PSD", "QOI", "SGI", "PCX", "TGA", "ICO")
_BAD = (OSError, RuntimeError, SyntaxError, TypeError, ValueError, LookupError, struct.error)
"""What Pillow raises of a file that is damaged: each of its readers something else."""
_KINDS = (
    (0, b"%!PS", "PostScript"),
    (0, b"%PDF", "a PDF"),
    (0, b"PK\3\4", "an archive or a document"),
    (4, b"ftyp", "a film, or a picture of a kind that is not known here"),
)
_TIFF_STARTS = (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+")
_ANEW = "Copy it again from the camera, or save it anew."
_REMEDY = "Give a JPEG, PNG, TIFF, WebP, HEIC or AVIF photograph."


def read_photo(path: str | Path) -> Photo:
    """Open a photograph.

    JPEG, PNG, TIFF, WebP, HEIC and AVIF (and whatever else Pillow knows), RGB of 8 or 16 bit,
    grey, CMYK or with a colour table; the first frame of an animation. Turned upright by its
    EXIF orientation; the pixels stay in the values of the device, with the profile beside
    them, so that no colour outside sRGB is lost. Wholly transparent pixels do not count.

    Parameters
    ----------
    path : str or Path

    Returns
    -------
    Photo

    Raises
    ------
    PhotoError
        Where the file is missing, a folder, empty, cut short, no picture, too large to be a
        photograph, or wholly transparent.

    Examples
    --------
    >>> read_photo("no such photo.jpg")
    Traceback (most recent call last):
    palette.errors.PhotoError: no such photo.jpg: must be a file; got nothing by that name.
    Check the name and the folder.
    """
    place = Path(path)
    _check_file(place)
    with _opened(place) as image:
        odd: list[str] = []
        deep = deep_codes(place, image, odd)
        channels = None if deep is None else int(deep.pixels.shape[2])
        profile = profile_of(image, odd, channels=channels, place=place)
        frame = decode(image, profile, odd, name=place.name, deep=deep)
        form = image.format or ""
    if frame.kept is not None and not frame.kept.any():
        raise PhotoError(
            place.name, "must hold a colour", got="transparent pixels only", remedy=_REMEDY
        )
    kept = None if frame.kept is None or frame.kept.all() else frame.kept
    return Photo(
        name=place.name,
        pixels=frame.pixels,
        profile=frame.profile,
        kept=kept,
        format=form,
        warnings=tuple(odd),
    )


def _check_file(place: Path) -> None:
    """Refuse what is no file with something in it."""
    remedy = "Check the name and the folder."
    try:
        if not place.exists():
            raise PhotoError(place.name, "must be a file", got=_absent(place), remedy=remedy)
        if place.is_dir():
            raise PhotoError(
                place.name or str(place), "must be a file", got="a folder", remedy="Name a photo."
            )
        if not place.is_file():
            raise PhotoError(place.name, "must be a file", got="a pipe or a device", remedy=_REMEDY)
        if place.stat().st_size == 0:
            raise PhotoError(place.name, "must be a picture", got="an empty file", remedy=_REMEDY)
    except (ValueError, OSError) as error:
        if isinstance(error, PhotoError):
            raise
        raise PhotoError(place.name, "cannot be opened", got=str(error), remedy=remedy) from error


def _absent(place: Path) -> str:
    return "a link that leads nowhere" if place.is_symlink() else "nothing by that name"


@contextmanager
def _opened(place: Path) -> Iterator[Image]:
    """Pillow's image, with every way in which a file can be bad turned into one sentence."""
    from PIL import Image, UnidentifiedImageError

    _register_heif()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # Pillow's remarks on odd metadata; decoding still fails
        try:
            # Given a path, Pillow maps some files into memory and turns those askew.
            with place.open("rb") as file, Image.open(file, formats=(*_QUICK, *_OTHERS)) as image:
                _check_size(place.name, image)
                yield image
        except PhotoError:
            raise
        except UnidentifiedImageError as error:
            raise _no_picture(place) from error
        except Image.DecompressionBombError as error:
            raise PhotoError(
                place.name,
                f"must have at most {_most_pixels():,} pixels",
                got="more",
                remedy="Save it smaller.",
            ) from error
        except (FileNotFoundError, PermissionError, IsADirectoryError) as error:
            raise PhotoError(
                place.name,
                "must be a file that can be opened",
                got=PhotoError.why(error),
                remedy="Check its permissions.",
            ) from error
        except MemoryError as error:
            raise PhotoError(place.name, "must fit in memory", remedy="Save it smaller.") from error
        except _BAD as error:
            raise PhotoError(
                place.name,
                "must be a whole picture",
                got=_reason(error),
                remedy=_ANEW,
            ) from error


def _register_heif() -> None:
    """Let Pillow open HEIC and HEIF, if the decoder is there."""
    import pi_heif

    pi_heif.register_heif_opener()


def _most_pixels() -> int:
    from PIL import Image

    return 2 * (Image.MAX_IMAGE_PIXELS or 0)


def _check_size(name: str, image: Image) -> None:
    width, height = image.size
    if width < 1 or height < 1:
        raise PhotoError(name, "must have an area", got=f"{width} x {height} pixels")
    if width * height > _most_pixels() or max(width, height) > _LARGEST_SIDE_PX:
        raise PhotoError(
            name,
            f"must have at most {_most_pixels():,} pixels and no side over {_LARGEST_SIDE_PX:,}",
            got=f"{width} x {height}",
            remedy="Save it smaller.",
        )


def _no_picture(place: Path) -> PhotoError:
    with place.open("rb") as file:
        start = file.read(512)
    if start[:4] in _TIFF_STARTS:
        kind = tiff_kind(place)
        if not kind:
            rule = "must be a whole picture"
            return PhotoError(place.name, rule, got="a damaged TIFF", remedy=_ANEW)
        rule = "must be RGB, grey or CMYK of 8 or 16 bits a channel"
        return PhotoError(place.name, rule, got=kind, remedy="Save it anew like that.")
    return PhotoError(place.name, "must be a picture", got=_kind_of(start), remedy=_REMEDY)


def _kind_of(start: bytes) -> str:
    """Say what a file that is no picture seems to be."""
    for place, mark, words in _KINDS:
        if start[place:].startswith(mark):
            return words
    if b"\0" not in start:
        try:
            start[: len(start) - 4].decode("utf-8")
        except UnicodeDecodeError:
            return "something else"
        return "text"
    return "something else"


def _reason(error: Exception) -> str:
    if isinstance(error, RuntimeError):
        return "parts that do not fit together"
    text = " ".join(str(error).split()) or type(error).__name__
    if "truncated" in text or "not enough" in text.lower() or isinstance(error, EOFError):
        return "a file that ends too early"
    return text[:120]


def photo_from_srgb8(name: str, pixels: np.ndarray) -> Photo:
    """Photo of 8 bit sRGB pixels that are already in memory.

    Examples
    --------
    >>> photo_from_srgb8("moss", np.full((4, 5, 3), 90, dtype=np.uint8)).width_px
    5
    """
    return Photo(name=name, pixels=np.ascontiguousarray(pixels, dtype=np.uint8))
