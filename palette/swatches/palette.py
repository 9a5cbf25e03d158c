"""The palette: swatches with their shares, in order of share."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field

from palette.errors import InputError
from palette.plain_text import check_plain

__all__ = ["Palette", "PaletteSource", "Swatch"]

_HEX = re.compile(r"#[0-9a-f]{6}")
_SHARE_SUM_TOLERANCE = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """One colour of a palette.

    Attributes
    ----------
    name : str
        What a person would call it; unique within its palette.
    lab : tuple of 3 float
        CIELAB, illuminant D65, 2 degree observer; L in [0, 100].
    hex : str
        Nearest colour in sRGB as ``#rrggbb``, lower case.
    share : float
        Part of the palette in [0, 1].
    accent : bool
        A small colour kept because it is far from all the others.
    in_srgb : bool
        False where `hex` is clipped: the colour lies outside sRGB.
    place : tuple of 2 float
        Mean position of the colour in the photograph, (across, down), each in [0, 1].
    munsell : str
        Munsell notation ("5GY 4/4"), or "" where it was not asked for.
    """

    name: str
    lab: tuple[float, float, float]
    hex: str
    share: float
    accent: bool = False
    in_srgb: bool = True
    place: tuple[float, float] = (0.5, 0.5)
    munsell: str = ""

    def __post_init__(self) -> None:
        """Refuse values outside their range; NaN fails too."""
        thing = f"swatch {self.name!r}"
        if not self.name.strip():
            raise InputError("swatch", "must have a name")
        check_plain(self.name, thing="swatch")
        if not 0 <= self.share <= 1:
            raise InputError(thing, "share must be from 0 to 1", got=f"{self.share}")
        if not (len(self.lab) == 3 and all(map(math.isfinite, self.lab))):
            raise InputError(thing, "lab must be three finite numbers", got=f"{self.lab}")
        lightness, a, b = map(float, self.lab)
        object.__setattr__(self, "lab", (lightness, a, b))
        if not _HEX.fullmatch(self.hex):
            raise InputError(thing, "hex must read #rrggbb in lower case", got=self.hex)


@dataclass(frozen=True, slots=True, kw_only=True)
class PaletteSource:
    """Where a palette came from and how it was taken.

    Attributes
    ----------
    photos : tuple of str
        File names, without folders.
    width_px, height_px : int
        Size of the (first) photograph, upright; 0 where there was none.
    colours_asked : int or None
        How many colours were asked for; None: the count was chosen.
    why : str
        Why there are as many colours as there are, as a sentence, or "".
    settings : tuple of (str, str)
        Whatever else decided the palette (region, light ...), in words.
    """

    photos: tuple[str, ...] = ()
    width_px: int = 0
    height_px: int = 0
    colours_asked: int | None = None
    why: str = ""
    settings: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """Swatches with shares that sum to 1.

    Attributes
    ----------
    swatches : tuple of Swatch
        Largest share first, accents in their place by share.
    source : PaletteSource
        Where it came from.
    warnings : tuple of str
        What the tool changed or could not do, as sentences.

    Examples
    --------
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> Palette(swatches=(moss,))["moss"].hex
    '#5d733a'
    """

    swatches: tuple[Swatch, ...]
    source: PaletteSource = field(default_factory=PaletteSource)
    warnings: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse an empty palette, repeated names, and shares that do not sum to 1."""
        if not self.swatches:
            raise InputError("palette", "must hold at least one colour", got="none")
        names = [swatch.name for swatch in self.swatches]
        repeated = sorted({name for name in names if names.count(name) > 1})
        if repeated:
            raise InputError("palette", "names must differ", got=f"{', '.join(repeated)} twice")
        total = math.fsum(swatch.share for swatch in self.swatches)
        if not abs(total - 1) <= _SHARE_SUM_TOLERANCE:
            raise InputError("palette", "shares must sum to 1", got=f"{total:.6f}")

    def __getitem__(self, name: str) -> Swatch:
        """Swatch with this name; KeyError if there is none."""
        for swatch in self.swatches:
            if swatch.name == name:
                return swatch
        raise KeyError(name)
