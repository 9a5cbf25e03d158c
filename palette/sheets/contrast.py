"""Ink that can be read on a yarn's colour, by the contrast ratio of WCAG 2.2."""

from __future__ import annotations

__all__ = ["contrast", "legible", "luminance"]


def luminance(hex_colour: str) -> float:
    """Relative luminance of an sRGB colour, from 0 to 1.

    WCAG 2.2 (W3C, 2023), section 5, "relative luminance".

    Examples
    --------
    >>> luminance("#ffffff"), luminance("#000000")
    (1.0, 0.0)
    """
    parts = [int(hex_colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return round(0.2126 * red + 0.7152 * green + 0.0722 * blue, 12)


def contrast(first: str, second: str) -> float:
    """Contrast ratio of two sRGB colours, from 1 to 21.

    WCAG 2.2 (W3C, 2023), section 5, "contrast ratio".

    Examples
    --------
    >>> contrast("#000000", "#ffffff")
    21.0
    """
    light, dark = sorted((luminance(first), luminance(second)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def legible(ground: str) -> str:
    """Black or white, whichever reads better on a ground; never under 4.58 to 1.

    Black on white is 21 to 1, so the better of the two on any ground is at least the square
    root of 21, above the 4.5 to 1 of success criterion 1.4.3.

    Examples
    --------
    >>> legible("#4d632a"), legible("#e8d36b")
    ('#ffffff', '#000000')
    """
    return max("#000000", "#ffffff", key=lambda ink: contrast(ink, ground))
