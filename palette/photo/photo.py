"""A photograph in memory: upright pixels in the values of the device, and what they mean."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from palette.errors import PhotoError
from palette.photo.profile import SRGB, Profile

__all__ = ["Photo"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Photo:
    """One photograph, upright, with its pixels as the file holds them.

    48 megapixels do not fit in tuples, nor are they copied: the photograph sees the arrays it is
    given read-only, and whoever made them must leave them as they are. Two photographs are equal
    only where they are the same object.

    Attributes
    ----------
    name : str
        File name, without folders.
    pixels : ndarray of shape (height, width, channels), uint8 or uint16
        Device codes, untouched by any conversion: 1 channel (grey), 3 (RGB) or 4 (CMYK, where
        the highest code is full ink). Row 0 is the top of the upright picture.
    profile : Profile
        What the codes mean.
    kept : ndarray of shape (height, width), bool, or None
        Pixels that count; None: all of them. Transparent pixels are out, and so is whatever a
        region or a mask left out.
    format : str
        "JPEG", "PNG", "HEIF" ...
    warnings : tuple of str
        What was odd about the file, as sentences.
    settings : tuple of (str, str)
        What was left out or changed since it was read, in words.
    uncut : ndarray or None
        Pixels of the whole upright picture where these are only a region of it: a grey card
        often lies outside of what counts.

    Examples
    --------
    >>> import numpy as np
    >>> leaf = Photo(name="leaf", pixels=np.full((2, 3, 3), [93, 115, 58], dtype=np.uint8))
    >>> leaf.width_px, leaf.height_px
    (3, 2)
    """

    name: str
    pixels: NDArray[Any]
    profile: Profile = SRGB
    kept: NDArray[np.bool_] | None = None
    format: str = ""
    warnings: tuple[str, ...] = ()
    settings: tuple[tuple[str, str], ...] = ()
    uncut: NDArray[Any] | None = None

    def __post_init__(self) -> None:
        """Refuse pixels of another shape or kind, and close the arrays for writing."""
        pixels = self.pixels
        if pixels.ndim != 3 or pixels.shape[2] != self.profile.channels or not pixels.size:
            raise PhotoError(
                self.name,
                f"pixels must be of shape (height, width, {self.profile.channels})",
                got=f"{pixels.shape}",
            )
        if pixels.dtype not in (np.uint8, np.uint16):
            raise PhotoError(self.name, "pixels must be uint8 or uint16", got=f"{pixels.dtype}")
        object.__setattr__(self, "pixels", _closed(pixels))
        if self.kept is not None:
            if self.kept.shape != pixels.shape[:2] or self.kept.dtype != np.bool_:
                raise PhotoError(
                    self.name,
                    f"kept must be a bool array of shape {pixels.shape[:2]}",
                    got=f"{self.kept.dtype} {self.kept.shape}",
                )
            object.__setattr__(self, "kept", _closed(self.kept))
        if self.uncut is not None:
            object.__setattr__(self, "uncut", _closed(self.uncut))

    @property
    def width_px(self) -> int:
        """Columns of the upright picture."""
        return int(self.pixels.shape[1])

    @property
    def height_px(self) -> int:
        """Rows of the upright picture."""
        return int(self.pixels.shape[0])

    @property
    def top_code(self) -> int:
        """Highest code of the device: 255, or 65535 for 16 bit files."""
        return int(np.iinfo(self.pixels.dtype).max)


def _closed(array: NDArray[Any]) -> NDArray[Any]:
    """View of an array that cannot be written through."""
    view = array.view()
    view.flags.writeable = False
    return view
