"""The other way round: which weft to dye so that the cloth has the wanted colour."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from palette.cloth.own_samples import OwnYarn
from palette.cloth.plain_yarns import BLACK, MID_GREY, NATURAL, WHITE
from palette.cloth.search import nearest_yarn
from palette.cloth.shown_face import face_from_cover, planned_cover, warp_up_share
from palette.cloth.woven_colour import typical_error, woven_colour
from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.warp import Warp
from palette.perception.spaces import lab_to_hex
from palette.stripes.plan import StripePlan

__all__ = ["REACHED", "Change", "Covers", "WeftToDye", "weft_to_dye"]

Lab = tuple[float, float, float]
Array = NDArray[np.float64]

REACHED = 1.0
"""CIEDE2000 up to which the wanted colour counts as reached: about the least the eye sees."""

_WARPS = (("white", WHITE), ("natural", NATURAL), ("mid grey", MID_GREY), ("black", BLACK))


@dataclass(frozen=True, slots=True, kw_only=True)
class Covers:
    """Covers of the cloth as it is set now, as `palette.cloth.shown_face` takes them.

    Attributes
    ----------
    warp, weft : float
        Threads per length times diameter.
    warp_up : float
        Share of crossings with the warp on top.
    """

    warp: float = 0.45
    weft: float = 0.45
    warp_up: float = 0.5

    @property
    def warp_share(self) -> float:
        """Warp as a share of the yarn that shows."""
        return face_from_cover(self.warp, self.weft, self.warp_up).warp_share

    @classmethod
    def planned(
        cls,
        warp: Warp,
        cloth: StripePlan,
        *,
        warp_tex: float,
        weft_tex: float,
        draft: Draft = PLAIN_WEAVE,
    ) -> Covers:
        """Covers of a planned cloth after washing, as `planned_face` counts them."""
        cover = planned_cover(warp, cloth, warp_tex=warp_tex, weft_tex=weft_tex)
        up = warp_up_share(draft)
        return cls(warp=cover.warp_share, weft=cover.weft_share, warp_up=up)


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing to change, and what it brings.

    Attributes
    ----------
    what : str
        The change, in words.
    warp_lab : tuple of 3 float
        Warp that it takes.
    warp_share : float
        Share of the face that the warp then has.
    weft_lab, cloth_lab : tuple of 3 float
        The best weft then, and its cloth.
    weft_hex : str
    difference : float
        How far the cloth then is from the wanted colour, CIEDE2000.
    """

    what: str
    warp_lab: Lab
    warp_share: float
    weft_lab: Lab
    weft_hex: str
    cloth_lab: Lab
    difference: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WeftToDye:
    """The weft for a wanted cloth colour.

    Attributes
    ----------
    wanted_lab, warp_lab : tuple of 3 float
    warp_share : float
    weft_lab, cloth_lab : tuple of 3 float
        The weft to dye, and the cloth that it gives.
    weft_hex, cloth_hex : str
    difference : float
        CIEDE2000 of that cloth and the wanted colour.
    typical_error : float
        Mean error to expect of the prediction itself, CIEDE2000.
    changes : tuple of Change
        Where the colour is out of reach: what would help, the best first.
    """

    wanted_lab: Lab
    warp_lab: Lab
    warp_share: float
    weft_lab: Lab
    weft_hex: str
    cloth_lab: Lab
    cloth_hex: str
    difference: float
    typical_error: float
    changes: tuple[Change, ...] = ()

    @property
    def reached(self) -> bool:
        """Whether the cloth can have the wanted colour."""
        return self.difference <= REACHED

    @property
    def advice(self) -> str:
        """What to dye and to expect, as sentences."""
        guide = (
            f"A guide with a typical error of {self.typical_error:.1f} (CIEDE2000): "
            "dye and weave a sample first."
        )
        if self.reached:
            return f"Dye the weft {self.weft_hex}. {guide}"
        text = (
            f"No weft gives this colour on this warp: the nearest is {self.weft_hex}, whose cloth "
            f"{self.cloth_hex} is {self.difference:.1f} off."
        )
        if self.changes:
            best = self.changes[0]
            text += (
                f" What helps most: {best.what}, then {best.weft_hex} comes to "
                f"{best.difference:.1f}."
            )
        return f"{text} {guide}"


def weft_to_dye(
    wanted_lab: Lab,
    warp_lab: Lab,
    warp_share: float | None = None,
    *,
    covers: Covers | None = None,
    own: OwnYarn | None = None,
) -> WeftToDye:
    """Find the weft whose cloth on this warp has the wanted colour, or comes nearest.

    Parameters
    ----------
    wanted_lab, warp_lab : tuple of 3 float
        CIELAB D65 of the wanted cloth and of the warp yarn.
    warp_share : float, optional
        Share of the face that the warp takes; the share of `covers` where it is not given.
    covers : Covers, optional
        How the cloth is set now, for the advice on sett, beat and weave.
    own : OwnYarn, optional

    Returns
    -------
    WeftToDye

    Notes
    -----
    Wefts are looked for inside sRGB and between the lightness of dyed black and bleached white
    (L 16 to 94): what can be dyed, and shown.

    Examples
    --------
    >>> answer = weft_to_dye((62, 10, 25), (89, -3, 12))
    >>> answer.reached, answer.weft_hex
    (True, '#905c00')
    """
    set_now = covers or Covers()
    share = set_now.warp_share if warp_share is None else warp_share
    weft, cloth, difference = _best(wanted_lab, warp_lab, share, own)
    changes: list[Change] = []
    if difference > REACHED:
        for what, warp, other in _other_cloths(wanted_lab, warp_lab, share, set_now):
            found = _best(wanted_lab, warp, other, own)
            if found[2] < difference - 0.05:
                changes.append(_change(what, warp, other, found))
    return WeftToDye(
        wanted_lab=wanted_lab,
        warp_lab=warp_lab,
        warp_share=share,
        weft_lab=weft,
        weft_hex=lab_to_hex(weft)[0],
        cloth_lab=cloth,
        cloth_hex=lab_to_hex(cloth)[0],
        difference=difference,
        typical_error=float(typical_error(warp_lab, weft, share)[0]),
        changes=tuple(sorted(changes, key=lambda change: change.difference)),
    )


def _best(
    wanted_lab: Lab, warp_lab: Lab, share: float, own: OwnYarn | None
) -> tuple[Lab, Lab, float]:
    def woven(wefts: Array) -> Array:
        return woven_colour(warp_lab, wefts, share, own=own)

    weft, cloth, difference = nearest_yarn(woven, wanted_lab)
    return _tuple(weft), _tuple(cloth), difference


def _tuple(lab: Array) -> Lab:
    return float(lab[0]), float(lab[1]), float(lab[2])


def _change(what: str, warp: Lab, share: float, found: tuple[Lab, Lab, float]) -> Change:
    weft, cloth, difference = found
    return Change(
        what=what,
        warp_lab=warp,
        warp_share=share,
        weft_lab=weft,
        weft_hex=lab_to_hex(weft)[0],
        cloth_lab=cloth,
        difference=difference,
    )


def _other_cloths(
    wanted_lab: Lab, warp_lab: Lab, share: float, covers: Covers
) -> Iterator[tuple[str, Lab, float]]:
    """Give the changes worth trying: in words, the warp, and the warp's share of the face.

    Sett and beat change the share by as much as they would in the cloth that `covers` describes,
    so a share that was given apart from them keeps its own start; but where the warp of that cloth
    does not show at all, the share is that of the changed cloth.
    """
    for name, warp in (*_WARPS, ("the wanted colour", wanted_lab)):
        yield f"a warp of {name} instead", warp, share
    settings = (
        ("a closer beat, a quarter more picks", 1.0, 1.25, covers.warp_up),
        ("a weft-faced sett, half the ends and twice the picks", 0.5, 2.0, covers.warp_up),
        ("a weave with longer weft floats, such as a 1/3 twill", 1.0, 1.0, covers.warp_up / 2),
    )
    for what, ends, picks, warp_up in settings:
        face = face_from_cover(covers.warp * ends, covers.weft * picks, warp_up)
        changed = face.warp_share
        if covers.warp_share > 0:
            changed = min(share * changed / covers.warp_share, 1.0)
        yield what, warp_lab, changed
