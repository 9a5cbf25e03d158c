"""Reading the colour profile that a photograph carries (ICC.1:2022).

Profiles made of three curves and a matrix, which is what cameras and phones write, are read
exactly, so that a colour outside sRGB keeps its numbers. Profiles made of tables (printers,
CMYK) are left to the colour engine in Pillow.
"""

from __future__ import annotations

import struct

import numpy as np
from numpy.typing import NDArray

from palette.photo.profile import D50_XYZ, SRGB, Curve, Matrix, Profile

__all__ = ["BrokenProfileError", "read_profile", "table_to_lab_d50"]

_SPACES = {b"RGB ": 3, b"GRAY": 1, b"CMYK": 4}
_NOT_FOR_PICTURES = (b"link", b"abst", b"nmcl")  # profile classes; ICC.1:2022, 7.2.5
_TABLES = (b"A2B0", b"A2B1", b"A2B2", b"D2B1")
_WHITE_TOLERANCE = 0.05  # registered profiles come within 0.001 of the white they must add up to
_SRGB_TOLERANCE = 0.002
_PARAMETER_COUNTS = {0: 1, 1: 3, 2: 4, 3: 5, 4: 7}


class BrokenProfileError(Exception):
    """A profile cannot be read, or says something that cannot be true; the text says what."""


def read_profile(icc: bytes) -> Profile:
    """Profile value of the bytes of an ICC profile.

    Parameters
    ----------
    icc : bytes

    Returns
    -------
    Profile

    Raises
    ------
    BrokenProfileError
        Where the bytes are cut short, no profile, of a kind no photograph has, or where its
        colorants do not add up to white.

    Examples
    --------
    >>> read_profile(b"short")
    Traceback (most recent call last):
    palette.photo.icc.BrokenProfileError: is cut short
    """
    try:
        return _read(icc)
    except (struct.error, IndexError, KeyError, ValueError, ArithmeticError) as error:
        raise BrokenProfileError("cannot be read") from error


def _read(icc: bytes) -> Profile:
    if len(icc) < 132:
        raise BrokenProfileError("is cut short")
    if icc[36:40] != b"acsp":
        raise BrokenProfileError("is not a colour profile")
    if len(icc) < struct.unpack(">I", icc[:4])[0]:
        raise BrokenProfileError("is cut short")
    if icc[12:16] in _NOT_FOR_PICTURES:
        raise BrokenProfileError("is of a kind that no picture can be in")
    channels = _SPACES.get(icc[16:20])
    if channels is None:
        raise BrokenProfileError(f"is for {icc[16:20].decode('latin-1').strip()} pictures")
    tags = _tags(icc)
    name = _description(tags.get(b"desc", b"")) or "a profile without a name"
    lightness = channels == 1 and icc[20:24] == b"Lab "  # its curve gives L, not light
    if channels == 4 or lightness or any(tag in tags for tag in _TABLES):
        return _checked_table(Profile(name=name, kind="table", channels=channels, icc=icc))
    if channels == 1:
        return Profile(name=name, kind="grey", channels=1, curves=(_curve(tags[b"kTRC"]),))
    return _matrix_profile(name, tags)


def _tags(icc: bytes) -> dict[bytes, bytes]:
    (count,) = struct.unpack(">I", icc[128:132])
    if count > 200:
        raise BrokenProfileError("lists more tags than a profile can hold")
    tags = {}
    for index in range(count):
        signature, start, size = struct.unpack(">4sII", icc[132 + 12 * index : 144 + 12 * index])
        if start + size > len(icc):
            raise BrokenProfileError("points outside itself")
        tags[signature] = icc[start : start + size]
    return tags


def _description(tag: bytes) -> str:
    if tag[:4] == b"desc":
        (length,) = struct.unpack(">I", tag[8:12])
        text = tag[12 : 12 + length].decode("latin-1")
    elif tag[:4] == b"mluc":
        length, start = struct.unpack(">II", tag[20:28])
        text = tag[start : start + length].decode("utf-16-be", errors="replace")
    else:
        return ""
    printable = "".join(letter for letter in text if letter.isprintable())
    return printable.strip()[:60]


def _matrix_profile(name: str, tags: dict[bytes, bytes]) -> Profile:
    needed = [b"rXYZ", b"gXYZ", b"bXYZ", b"rTRC", b"gTRC", b"bTRC"]
    if any(tag not in tags for tag in needed):
        raise BrokenProfileError("lacks its colorants")
    matrix = np.stack([_xyz(tags[tag]) for tag in needed[:3]], axis=1)
    white = matrix.sum(axis=1)
    if (
        not np.abs(white - D50_XYZ).max() <= _WHITE_TOLERANCE
        or not abs(np.linalg.det(matrix)) > 0.01
    ):
        raise BrokenProfileError("has colorants that do not add up to white")
    matrix *= (np.array(D50_XYZ) / white)[:, None]  # so that a grey stays exactly grey
    curves = tuple(_curve(tags[tag]) for tag in needed[3:])
    if _is_srgb(matrix, curves):
        return SRGB
    rows: Matrix = tuple((float(x), float(y), float(z)) for x, y, z in matrix)
    return Profile(name=name, kind="matrix", curves=curves, matrix=rows)


def _is_srgb(matrix: NDArray[np.float64], curves: tuple[Curve, ...]) -> bool:
    codes = np.linspace(0, 1, 256)
    same_curves = all(
        np.abs(curve.light(codes) - SRGB.curves[0].light(codes)).max() < _SRGB_TOLERANCE
        for curve in curves
    )
    return same_curves and bool(np.abs(matrix - SRGB.matrix).max() < _SRGB_TOLERANCE)


def _fixed(data: bytes) -> list[float]:
    return [value / 65536 for value in struct.unpack(f">{len(data) // 4}i", data)]


def _xyz(tag: bytes) -> NDArray[np.float64]:
    if tag[:4] != b"XYZ " or len(tag) < 20:
        raise BrokenProfileError("has a colorant that cannot be read")
    return np.array(_fixed(tag[8:20]))


def _curve(tag: bytes) -> Curve:
    if tag[:4] == b"curv":
        (count,) = struct.unpack(">I", tag[8:12])
        if count == 0:
            return Curve()
        codes = struct.unpack(f">{count}H", tag[12 : 12 + 2 * count])
        if count == 1:
            return Curve(parameters=(codes[0] / 256, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0))
        return Curve(table=tuple(code / 65535 for code in codes))
    if tag[:4] != b"para":
        raise BrokenProfileError("has a curve that cannot be read")
    (kind,) = struct.unpack(">H", tag[8:10])
    if kind not in _PARAMETER_COUNTS:
        raise BrokenProfileError("has a curve of an unknown kind")
    values = _fixed(tag[12 : 12 + 4 * _PARAMETER_COUNTS[kind]])
    return Curve(parameters=_long_form(kind, values))


def _long_form(kind: int, values: list[float]) -> tuple[float, ...]:
    """Parameters g a b c d e f of function type 4 that mean the same as a shorter type."""
    if kind == 0:
        return (values[0], 1.0, 0.0, 0.0, 0.0, 0.0, 0.0)
    if kind == 3:
        return (*values, 0.0, 0.0)
    if kind == 4:
        return tuple(values)
    g, a, b = values[:3]
    floor = values[3] if kind == 2 else 0.0
    return (g, a, b, 0.0, -b / a, floor, floor)


def _checked_table(profile: Profile) -> Profile:
    grey = np.full((1, profile.channels), 128, dtype=np.uint8)
    table_to_lab_d50(profile, grey)  # a table that the engine refuses is refused here
    return profile


def table_to_lab_d50(profile: Profile, codes8: NDArray[np.uint8]) -> NDArray[np.float64]:
    """CIELAB of the connection space (D50) through the colour engine.

    Parameters
    ----------
    profile : Profile of kind "table"
    codes8 : ndarray of shape (n, channels), uint8

    Returns
    -------
    ndarray of shape (n, 3)
        Relative colorimetric; L to 100 / 255, a and b to whole units, which is all that the
        engine gives through Pillow.

    Raises
    ------
    BrokenProfileError
        Where the engine refuses the profile.
    """
    import io

    from PIL import Image, ImageCms

    mode = {1: "L", 3: "RGB", 4: "CMYK"}[profile.channels]
    shape = codes8.shape[:1] if profile.channels == 1 else codes8.shape
    picture = Image.frombytes(mode, (len(codes8), 1), codes8.reshape(shape).tobytes())
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile.icc))
        transform = ImageCms.buildTransform(
            source,
            ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB", 5000)),
            mode,
            "LAB",
            renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
        )
        result = ImageCms.applyTransform(picture, transform)
    except (ImageCms.PyCMSError, OSError) as error:
        raise BrokenProfileError("cannot be used by the colour engine") from error
    if result is None:
        raise BrokenProfileError("cannot be used by the colour engine")
    lab = np.frombuffer(result.tobytes(), dtype=np.uint8).reshape(-1, 3)
    signed = lab[:, 1:].view(np.int8).astype(float)  # Pillow keeps a and b as signed bytes
    return np.column_stack([lab[:, 0] * (100 / 255), signed])
