"""Reading the stripes of an old textile off its photograph."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from palette.errors import PhotoError, UnitError, WeavingError
from palette.measures import MM_PER_CM
from palette.perception.names import colour_names
from palette.perception.spaces import lab_to_hex
from palette.photo.photo import Photo
from palette.stripes.cloth_photo_direction import find_direction
from palette.stripes.cloth_photo_light import Light, light_of
from palette.stripes.cloth_photo_profile import ClothProfile, profile_of
from palette.stripes.cloth_photo_straighten import Straightening, straighten, warp_growth
from palette.stripes.reading_counting import beaten
from palette.stripes.reading_doubt import doubts_of
from palette.stripes.reading_refusal import check_read, check_striped
from palette.stripes.reading_repeat import find_repeat
from palette.stripes.reading_sequence import Sequence, find_sequence
from palette.stripes.reading_slant import foreshortening, slant_error, unslanted
from palette.stripes.reading_unsure import unsure_notes
from palette.stripes.reading_values import ClothReading, ReadStripe
from palette.swatches.palette import Palette, PaletteSource, Swatch

__all__ = ["read_cloth"]

_LEAST_PX = 60
_LEAST_PICK = 3.0  # rows in place of a pick where picks cannot be told
_DISAGREE = 0.08
_CHECKED = 1.6  # stripes this little stronger than what crosses them: a check
_THING = "cloth photograph"
_NO_STRIPES = "Give a photograph of a cloth with stripes in the weft, seen from straight above."


def read_cloth(
    photo: Photo,
    *,
    picks_per_cm: float | None = None,
    width_mm: float | None = None,
    length_mm: float | None = None,
    upright: bool | None = None,
) -> ClothReading:
    """Read the stripe sequence off a photograph of a striped cloth.

    The direction of the stripes is found; rotation, mild perspective and a gentle curve are
    straightened; the light is evened out across and along; the colours along the warp are cut into
    stripes, and stripes of the same yarn are recognised.

    Parameters
    ----------
    photo : Photo
        Where a part of it is left out, only the box round the rest is read.
    picks_per_cm : float, optional
        Density of the weft.
    width_mm : float, optional
        Width of the cloth, where both selvedges are in the picture; else of what it shows.
    length_mm : float, optional
        Length of cloth along the warp that the picture shows.
    upright : bool, optional
        Whether the stripes stand upright in the picture; None: found.

    Returns
    -------
    ClothReading

    Raises
    ------
    UnitError
        A density or length is not more than 0.
    PhotoError
        The picture is too small to read, or is not of a striped cloth.
    WeavingError
        No stripes are found.
    """
    for thing, value in (("--picks", picks_per_cm), ("--width", width_mm), ("--length", length_mm)):
        if value is not None and not (value > 0 and math.isfinite(value)):
            raise UnitError(thing, "must be more than 0", got=f"{value:g}")
    light = light_of(photo)
    if min(light.shape[:2]) < _LEAST_PX:
        got = f"{light.shape[1]} x {light.shape[0]} pixels"
        rule = f"must be at least {_LEAST_PX} pixels wide and high"
        raise PhotoError(photo.name or _THING, rule, got=got, remedy="Give a larger picture.")
    standing, degrees, lead = find_direction(light, upright)
    if standing:
        light = np.ascontiguousarray(light.transpose(1, 0, 2))
    straightening = straighten(light, degrees)
    profile = check_striped(profile_of(light, straightening), thing=photo.name or _THING)
    found = find_sequence(profile.rows, profile.threads, profile.ends)
    if len(found.yarns) < 2:
        raise WeavingError(
            photo.name or _THING, "must show stripes", got="one colour", remedy=_NO_STRIPES
        )
    growth = _growth(light, straightening, profile)
    slope = foreshortening(profile.threads, growth, len(profile.rows))
    edges = unslanted(found.edges, float(len(profile.rows)), slope)
    shares = _shares(edges, found, profile, slope)
    # upright through a cloth that lies askew its length looks longer, level its width shorter
    level = math.cos(math.radians(straightening.skew_degrees)) ** 2
    rows = float(edges[-1] - edges[0]) * level
    length_mm = _length(length_mm, width_mm, rows, profile.width_px)
    picks, counted = _picks(shares, edges, found, length_mm, picks_per_cm)
    total = sum(picks) or float(edges[-1] - edges[0]) / max(found.seen.smear.window, _LEAST_PICK)
    error = slant_error(profile.threads, growth, len(profile.rows))
    doubts = doubts_of(profile, found, shares * total, error)
    palette = _palette(photo, found, shares)
    stripes = check_read(
        _stripes(palette, found, shares, length_mm, picks, doubts), thing=photo.name or _THING
    )
    if length_mm is None and counted and picks_per_cm is not None:
        length_mm = sum(picks) / picks_per_cm * MM_PER_CM
        stripes = _stripes(palette, found, shares, length_mm, picks, doubts)
    if picks_per_cm is None and counted and length_mm is not None:
        picks_per_cm = sum(picks) / length_mm * MM_PER_CM
    pick_share = 1 / sum(picks) if picks else 0.0
    return ClothReading(
        palette=palette,
        stripes=stripes,
        upright=standing,
        skew_degrees=-straightening.skew_degrees if standing else straightening.skew_degrees,
        length_mm=length_mm,
        picks_per_cm=picks_per_cm,
        picks_counted=counted,
        repeat=find_repeat(found.yarns, shares.tolist(), pick_share),
        light_range=float(np.exp(found.field.min())),
        ends_seen=(profile.ends[0] is not None, profile.ends[1] is not None),
        width_mm=width_mm or _width(length_mm, rows, profile),
        warnings=(
            *photo.warnings,
            *unsure_notes(stripes, upright=standing),
            *_not_told(lead, profile, width_mm),
            *_two_scales(length_mm, width_mm, rows, profile.width_px),
            *_disagreement(found, edges, sum(picks), counted),
        ),
    )


def _growth(light: Light, straightening: Straightening, profile: ClothProfile) -> float | None:
    """How the cloth spreads along its warp: by its selvedges, or else by its ends."""
    if profile.growth is not None:
        return profile.growth
    return warp_growth(light, straightening.skew_degrees)


def _shares(
    edges: NDArray[np.float64], found: Sequence, profile: ClothProfile, slope: float
) -> NDArray[np.float64]:
    """Part of the cloth that each stripe takes, in picks where threads can be counted."""
    shares = np.diff(edges) / (edges[-1] - edges[0])
    return beaten(profile.cells, found.edges, profile.threads, slope, shares)


def _length(
    length_mm: float | None, width_mm: float | None, rows: float, across: float
) -> float | None:
    """Length of the cloth in the picture: as given, or from its width at the same scale."""
    if length_mm is not None or width_mm is None:
        return length_mm
    return width_mm / across * rows


def _two_scales(
    length_mm: float | None, width_mm: float | None, rows: float, across: float
) -> list[str]:
    """Say so where a length and a width that are given cannot both be those of the picture."""
    if length_mm is None or width_mm is None:
        return []
    seen = width_mm / across * rows
    if abs(seen / length_mm - 1) < _DISAGREE:
        return []
    return [
        f"by its width the cloth would be {seen / 10:.1f} cm long in the picture, not"
        f" {length_mm / 10:.1f} cm; the length was taken as it was given"
    ]


def _picks(
    shares: NDArray[np.float64],
    edges: NDArray[np.float64],
    found: Sequence,
    length_mm: float | None,
    picks_per_cm: float | None,
) -> tuple[list[int], bool]:
    """Give the picks of each stripe, reckoned from scale and density or counted in the threads."""
    if length_mm is not None and picks_per_cm is not None:
        total = length_mm / MM_PER_CM * picks_per_cm
    elif found.rows_per_pick > 0:
        total = float(edges[-1] - edges[0]) / found.rows_per_pick
    else:
        return [], False
    counted = length_mm is None or picks_per_cm is None
    return [max(1, round(float(share) * total)) for share in shares], counted


def _palette(photo: Photo, found: Sequence, shares: NDArray[np.float64]) -> Palette:
    """Make a palette of the yarns, the widest in all first."""
    names = colour_names(found.yarn_labs)
    sums = np.bincount(np.array(found.yarns), weights=shares, minlength=len(names))
    parts = sums / math.fsum(sums)
    swatches = []
    for yarn, name in enumerate(names):
        lab = found.yarn_labs[yarn]
        code, in_srgb = lab_to_hex(lab)
        lab_values = (float(lab[0]), float(lab[1]), float(lab[2]))
        swatches.append(
            Swatch(name=name, lab=lab_values, hex=code, share=float(parts[yarn]), in_srgb=in_srgb)
        )
    source = PaletteSource(
        photos=(photo.name,),
        width_px=photo.width_px,
        height_px=photo.height_px,
        why=f"{len(names)} yarns were told apart in {len(found.yarns)} stripes",
        settings=(("taken", "from the stripes of a cloth, the light evened out"),),
    )
    return Palette(
        swatches=tuple(sorted(swatches, key=lambda swatch: (-swatch.share, swatch.hex))),
        source=source,
    )


def _stripes(
    palette: Palette,
    found: Sequence,
    shares: NDArray[np.float64],
    length_mm: float | None,
    picks: list[int],
    doubts: list[tuple[float, str]],
) -> tuple[ReadStripe, ...]:
    names = colour_names(found.yarn_labs)
    stripes = []
    starts = np.concatenate([[0.0], np.cumsum(shares)[:-1]])
    for number, yarn in enumerate(found.yarns):
        swatch = palette[names[yarn]]
        share = float(shares[number])
        stripes.append(
            ReadStripe(
                colour=swatch.name,
                hex=swatch.hex,
                lab=swatch.lab,
                share=share,
                start=float(starts[number]),
                width_mm=None if length_mm is None else share * length_mm,
                picks=picks[number] if picks else None,
                confidence=round(doubts[number][0], 3),
                doubt=doubts[number][1],
            )
        )
    return tuple(stripes)


def _width(length_mm: float | None, rows: float, profile: ClothProfile) -> float | None:
    """Width of the cloth from its length, at the same scale, where both selvedges show."""
    if length_mm is None or not all(profile.selvedges):
        return None
    return length_mm / rows * profile.width_px


def _not_told(lead: float, profile: ClothProfile, width_mm: float | None) -> list[str]:
    """Say what the picture could not tell."""
    notes = []
    if lead < _CHECKED:
        notes.append("the cloth has lines both ways, as in a check; the stronger ones were read")
    if width_mm is not None and not all(profile.selvedges):
        notes.append("both selvedges are not in the picture; the width was taken as that of it all")
    return notes


def _disagreement(
    found: Sequence, edges: NDArray[np.float64], picks: int, counted: bool
) -> list[str]:
    """Say so where the threads in the picture disagree with the picks that were reckoned."""
    if counted or found.rows_per_pick <= 0 or picks <= 0:
        return []
    threads = float(edges[-1] - edges[0]) / found.rows_per_pick
    if abs(threads / picks - 1) < _DISAGREE:
        return []
    return [
        f"by its size the cloth has {picks} picks, but about {threads:.0f} can be counted in the"
        " picture; check the picks per cm and the size"
    ]
