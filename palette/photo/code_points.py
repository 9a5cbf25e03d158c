"""Colour told by code points: what PNG, AVIF and HEIC files say where they carry no profile.

Recommendation ITU-T H.273 (2023) numbers the primaries and the transfer characteristics. PNG
(third edition, W3C 2025) holds the numbers in its chunk cICP, AVIF and HEIC in the box colr of
type nclx (ISO/IEC 14496-12, 12.1.5).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

from palette.photo.primaries import BT_2020, matrix_of
from palette.photo.profile import DISPLAY_P3, SRGB, Curve, Profile

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["CodePoints", "code_points_of", "profile_of_code_points"]

_HEAD = 1 << 20  # the boxes and chunks of the head come before the pixels
_PNG_START = 8
_SRGB_PRIMARIES, _SRGB_CURVES = (1, 2), (1, 2, 6, 13, 14, 15)  # 2: not told
_BRIGHT = (16, 18)  # PQ and HLG
_GAMMAS = {4: 2.2, 5: 2.8, 8: 1.0}
_BT_2020 = replace(DISPLAY_P3, name="BT.2020 with the curve of sRGB", matrix=matrix_of(BT_2020))
_SPACES = {**dict.fromkeys(_SRGB_PRIMARIES, SRGB), 9: _BT_2020, 12: DISPLAY_P3}


@dataclass(frozen=True, slots=True, kw_only=True)
class CodePoints:
    """Numbers of ITU-T H.273: primaries (table 2) and transfer characteristics (table 3)."""

    primaries: int
    transfer: int


def code_points_of(place: Path | None, image: Image) -> CodePoints | None:
    """Code points that an opened PNG, AVIF or HEIC file tells, if it does.

    Parameters
    ----------
    place : Path or None
        The file; None: only what the decoder of HEIC has found.
    image : PIL.Image.Image

    Returns
    -------
    CodePoints or None
    """
    told = image.info.get("nclx_profile")
    if isinstance(told, dict):
        return CodePoints(
            primaries=int(told.get("color_primaries", 2)),
            transfer=int(told.get("transfer_characteristics", 2)),
        )
    if place is None or image.format not in ("PNG", "AVIF"):
        return None
    with place.open("rb") as file:
        head = file.read(_HEAD)
    found = _in_png(head) if image.format == "PNG" else _in_boxes(head)
    return next(found, None)


def profile_of_code_points(points: CodePoints, odd: list[str]) -> Profile:
    """RGB profile of code points; what had to be guessed is added to `odd` as sentences.

    The curves of television (1, 6, 14, 15) are read as that of sRGB, as screens show them.

    Examples
    --------
    >>> profile_of_code_points(CodePoints(primaries=12, transfer=13), []).name
    'Display P3'
    """
    profile = _SPACES.get(points.primaries)
    if profile is None:
        odd.append(f"the colours named ({points.primaries}) are not known: read as sRGB")
        profile = SRGB
    if points.transfer in _BRIGHT:
        odd.append("a picture coded for very bright screens (HDR): its colours are a guess")
    elif points.transfer in _GAMMAS:
        gamma = _GAMMAS[points.transfer]
        curve = Curve(parameters=(gamma, 1.0, 0.0, 0.0, 0.0, 0.0, 0.0))
        name = f"{profile.name.removesuffix(' with the curve of sRGB')} with gamma {gamma:g}"
        profile = replace(profile, name=name, kind="matrix", curves=(curve,) * 3)
    elif points.transfer not in _SRGB_CURVES:
        odd.append(f"the curve named ({points.transfer}) is not known: read with that of sRGB")
    return profile


def _in_png(head: bytes) -> Iterator[CodePoints]:
    """Code points in the chunks before the pixels (PNG, third edition, 11.3.2.6)."""
    at = _PNG_START
    while at + 12 <= len(head):
        size, kind = int.from_bytes(head[at : at + 4]), head[at + 4 : at + 8]
        if kind == b"IDAT":
            return
        if kind == b"cICP" and size == 4:
            yield CodePoints(primaries=head[at + 8], transfer=head[at + 9])
        at += 12 + size


def _in_boxes(data: bytes) -> Iterator[CodePoints]:
    """Code points in the item properties of an AVIF file (ISO/IEC 23008-12, 9.3)."""
    for kind, body in _boxes(data):
        if kind == b"meta":
            yield from _in_boxes(body[4:])
        elif kind in (b"iprp", b"ipco"):
            yield from _in_boxes(body)
        elif kind == b"colr" and body[:4] == b"nclx" and len(body) >= 8:
            yield CodePoints(
                primaries=int.from_bytes(body[4:6]), transfer=int.from_bytes(body[6:8])
            )


def _boxes(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Kind and content of each box (ISO/IEC 14496-12, 4.2).

    A size of 1 stands for one of 64 bits behind the kind, 0 for all that is left.
    """
    at = 0
    while at + 8 <= len(data):
        size, kind, head = int.from_bytes(data[at : at + 4]), data[at + 4 : at + 8], 8
        if size == 1:
            size, head = int.from_bytes(data[at + 8 : at + 16]), 16
        end = at + size if size else len(data)
        if end < at + head:
            return
        yield kind, data[at + head : end]
        at = end
