"""Every sheet and file of a plan, each under one name."""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass

from palette.errors import InputError
from palette.loom.sett import diameters_per_cm
from palette.photo.photo import Photo
from palette.plans.fibre import fibre_of, sett_fibre
from palette.plans.needed import needed_of_plan
from palette.plans.plan import Plan
from palette.plans.plan_contract import plan_to_json
from palette.sheets.cloth_pictures import room_png
from palette.sheets.html import sheet_html
from palette.sheets.loom_card import loom_card_pdf
from palette.sheets.pdf import sheet_pdf
from palette.sheets.pictures import palette_css, palette_svg, stripes_png, stripes_svg
from palette.sheets.swatch_card import swatch_card_pdf, swatch_card_png, swatch_card_svg
from palette.sheets.tables import stripes_csv, yarn_csv
from palette.sheets.thumbnail import thumbnail_jpeg, thumbnail_pixels
from palette.sheets.wif_writing import wif_bytes
from palette.sheets.winding import Winding, plan_winding
from palette.sheets.winding_card import winding_card_pdf, winding_card_png, winding_card_svg
from palette.sheets.woven_strip import woven_strip_pngs

__all__ = ["SHEETS", "SheetWish", "idle_wishes", "sheet_bytes"]


_WIDEST_CARD_MM = 1000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWish:
    """What a sheet may need beside its plan.

    Attributes
    ----------
    paper : str
        "A4" or "Letter".
    photo : Photo or None
        Shown small.
    card_width_mm : float
        Width of a winding card.
    """

    paper: str = "A4"
    photo: Photo | None = None
    card_width_mm: float = 100.0

    def __post_init__(self) -> None:
        """Refuse a card that is no card."""
        if not 0 < self.card_width_mm <= _WIDEST_CARD_MM:
            rule = f"must be more than 0, and at most {_WIDEST_CARD_MM / 10:g} cm"
            raise InputError("--card-width", rule, got=f"{self.card_width_mm / 10:g} cm")


def _winding(plan: Plan, wish: SheetWish) -> Winding:
    """Wind the palette in yarns as thick as the weft of the plan."""
    fibre = sett_fibre(fibre_of(plan))
    tex = next(yarn.tex for yarn in plan.yarns if yarn.use == "weft")
    wraps = diameters_per_cm(tex, fibre.constant)
    woven, _ = needed_of_plan(plan)  # by what is woven: a plan like another has other shares
    return plan_winding(woven, card_width_mm=wish.card_width_mm, wraps_per_cm=wraps)


def _small(wish: SheetWish) -> bytes | None:
    return None if wish.photo is None else thumbnail_jpeg(wish.photo)


def _pdf(plan: Plan, wish: SheetWish) -> bytes:
    return sheet_pdf(
        plan, photo_jpeg=_small(wish), cloth_pngs=woven_strip_pngs(plan), paper=wish.paper
    )


def _html(plan: Plan, wish: SheetWish) -> bytes:
    return sheet_html(plan, photo_jpeg=_small(wish), cloth_pngs=woven_strip_pngs(plan))


def _swatches(draw: Callable[..., bytes]) -> Callable[[Plan, SheetWish], bytes]:
    def drawn(plan: Plan, wish: SheetWish) -> bytes:
        photo = None if wish.photo is None else thumbnail_pixels(wish.photo)
        return draw(plan.palette, photo=photo, title=plan.name)

    return drawn


SHEETS: dict[str, Callable[[Plan, SheetWish], bytes]] = {
    "sheet.pdf": _pdf,
    "sheet.html": _html,
    "loom-card.pdf": lambda plan, _: loom_card_pdf(plan),
    "swatches.pdf": _swatches(swatch_card_pdf),
    "swatches.png": _swatches(swatch_card_png),
    "swatches.svg": _swatches(swatch_card_svg),
    "winding.pdf": lambda plan, wish: winding_card_pdf(_winding(plan, wish), title=plan.name),
    "winding.png": lambda plan, wish: winding_card_png(_winding(plan, wish), title=plan.name),
    "winding.svg": lambda plan, wish: winding_card_svg(_winding(plan, wish), title=plan.name),
    "cloth.png": lambda plan, _: room_png(plan),
    "stripes.png": lambda plan, _: stripes_png(
        plan.cloths[0], width_mm=plan.warp.finished_width_mm
    ),
    "stripes.svg": lambda plan, _: stripes_svg(
        plan.cloths[0], width_mm=plan.warp.finished_width_mm, title=plan.name
    ),
    "palette.svg": lambda plan, _: palette_svg(plan.palette, title=plan.name),
    "palette.css": lambda plan, _: palette_css(plan.palette),
    "stripes.csv": lambda plan, _: stripes_csv(plan),
    "yarn.csv": lambda plan, _: yarn_csv(plan),
    "plan.json": lambda plan, _: plan_to_json(plan).encode(),
    "drawdown.wif": lambda plan, _: wif_bytes(plan),
}
"""What can be made of a plan, by the name it is usually kept under."""


_USERS = {
    "paper": ("sheet.pdf",),
    "photo": ("sheet.pdf", "sheet.html", "swatches.pdf", "swatches.png", "swatches.svg"),
    "card-width": ("winding.pdf", "winding.png", "winding.svg"),
}
"""Which sheets each wish is for."""


def idle_wishes(names: Sequence[str], wished: Collection[str]) -> tuple[str, ...]:
    """Name each wish that none of the sheets uses, with those it is for.

    Parameters
    ----------
    names : sequence of str
        The sheets that are made.
    wished : collection of str
        Of "paper", "photo" and "card-width".

    Examples
    --------
    >>> idle_wishes(["loom-card.pdf"], ["paper"])
    ('Not used: --paper (only for sheet.pdf).',)
    """
    return tuple(
        f"Not used: --{wish} (only for {', '.join(users)})."
        for wish, users in _USERS.items()
        if wish in wished and not set(users) & set(names)
    )


def sheet_bytes(plan: Plan, name: str, wish: SheetWish | None = None) -> bytes:
    """Make one sheet or file of a plan.

    Parameters
    ----------
    plan : Plan
    name : str
        One of `SHEETS`: ``loom-card.pdf``.
    wish : SheetWish, optional

    Raises
    ------
    InputError
        There is no sheet of this name; the message lists them.
    """
    if name not in SHEETS:
        raise InputError("sheet", f"must be one of {', '.join(SHEETS)}", got=repr(name))
    return SHEETS[name](plan, wish or SheetWish())
