"""The cloths of a brief: one, or several on the same warp."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from palette.errors import BriefError, LeafweftError
from palette.plans.cloth_keys import check_cloth_key
from palette.plans.json_text import kind_of
from palette.plans.like import cloth_like, in_colours_of
from palette.plans.loading import is_contract_file, load_plan, text_of
from palette.plans.making import plan_cloth
from palette.plans.taking import palette_of, photos_of
from palette.plans.wishes import renamed_wishes
from palette.stripes.plan import StripePlan
from palette.stripes.table import cloths_in, read_stripes
from palette.stripes.table_palette import palette_of_stripes
from palette.yarn.one_name import YarnNames

if TYPE_CHECKING:
    from palette.photo.photo import Photo
    from palette.plans.brief import Brief
    from palette.swatches.palette import Palette

__all__ = ["cloth_briefs", "open_photos", "plan_cloths"]

_SIZE_KEYS = ("length", "picks", "step", "least", "repeats")


def cloth_briefs(brief: Brief) -> tuple[Brief, ...]:
    """Give one brief for each cloth: the common values, and its own over them.

    Raises
    ------
    BriefError, UnitError, CountError
        A key that a cloth may not set, or a wrong value; the message names the cloth.
    """
    if not brief.cloth:
        return (brief,)
    briefs = [_cloth_brief(brief, number, own) for number, own in enumerate(brief.cloth, 1)]
    names = [own.name for own in briefs]
    for number, name in enumerate(names, 1):
        if name in names[: number - 1]:
            rule = "must differ from the others"
            raise BriefError(f"cloth {number}, name", rule, got=repr(name))
    return tuple(briefs)


def _cloth_brief(brief: Brief, number: int, own: Mapping[str, object]) -> Brief:
    thing = f"cloth {number}"
    for key in own:
        check_cloth_key(thing, key)
    source = {"palette": None, "photo": ()} if {"photo", "palette"} & set(own) else {}
    values = {"name": f"{brief.name or 'cloth'} {number}", **source, **own, "cloth": ()}
    return brief.changed(values, lambda key: f"{thing}, {key}")


def plan_cloths(brief: Brief, photos: tuple[Photo, ...] = ()) -> tuple[StripePlan, ...]:
    """Plan the stripes of every cloth of a brief.

    Parameters
    ----------
    brief : Brief
    photos : tuple of Photo
        The brief's own photographs where they are open already.

    Raises
    ------
    LeafweftError
        As the stages do; where there are several cloths the message names the one.
    """
    made: dict[str, StripePlan] = {}
    briefs = {own.name or "": own for own in cloth_briefs(brief)}
    yarns = YarnNames()
    for number, own in enumerate(briefs.values(), 1):
        known = photos if own.photo == brief.photo else ()
        try:
            made[own.name or f"cloth {number}"] = yarns.cloth(
                _cloth(own, known, made, yarns, briefs)
            )
        except LeafweftError as error:
            if not brief.cloth:
                raise
            thing = f"cloth {number} ({own.name}), {error.thing}"
            raise type(error)(thing, error.rule, got=error.got, remedy=error.remedy) from None
    return tuple(made.values())


def _cloth(
    brief: Brief,
    photos: tuple[Photo, ...],
    made: Mapping[str, StripePlan],
    yarns: YarnNames,
    briefs: Mapping[str, Brief],
) -> StripePlan:
    """Plan one cloth: by its order, by stripes edited by hand, or like another one."""
    paths = tuple(map(Path, brief.photo or filter(None, (brief.palette,))))
    name = brief.name or ""
    palette, names = yarns.palette(_palette(brief, paths, photos), name)
    if names:
        brief = brief.changed(renamed_wishes(brief, names))
    edited = brief.stripes is not None and bool(_in_table(Path(brief.stripes), name))
    if brief.like is not None and not edited:
        if brief.like not in made:
            rule = f"must name an earlier cloth ({', '.join(made) or 'there is none'})"
            raise BriefError("like", rule, got=repr(brief.like))
        like = made[brief.like]
        if _size(brief) == _size(briefs[brief.like]):
            return replace(in_colours_of(palette, like), name=name)
        return cloth_like(brief, palette, like).cloth
    if brief.stripes is not None:
        table = Path(brief.stripes)
        return read_stripes(
            table,
            palette=palette,
            picks_per_cm=brief.picks.per_cm,
            shrinkage_length=brief.shrinkage_along,
            step=brief.step,
            least=brief.least,
            like=_edited(paths),
            name=name,
            cloth=_in_table(table, name),
        )
    return plan_cloth(brief, palette, name=name)


def _palette(brief: Brief, paths: tuple[Path, ...], photos: tuple[Photo, ...]) -> Palette:
    """Take the palette from photographs or a file, else from the colours in a table of stripes."""
    if paths or brief.stripes is None:
        return palette_of(paths, brief, photos=photos)
    table = Path(brief.stripes)
    return palette_of_stripes(table, cloth=_in_table(table, brief.name or ""))


def _in_table(table: Path, name: str) -> str:
    """Name of the cloth to read where the table has it; "" for all of the table."""
    return name if name in cloths_in(table) else ""


def _edited(paths: tuple[Path, ...]) -> StripePlan | None:
    """Give the plan whose stripes were edited, where the palette comes from a plan file."""
    if len(paths) != 1 or not is_contract_file(paths[0]):
        return None
    kind = kind_of(text_of(paths[0]), thing=str(paths[0]))
    return load_plan(paths[0]).cloths[0] if kind == "leafweft/plan" else None


def _size(brief: Brief) -> tuple[object, ...]:
    """Gather what makes the stripes of one cloth wider or narrower than those of another."""
    values = dict(brief.values)
    return tuple(values.get(key) for key in _SIZE_KEYS)


def open_photos(brief: Brief) -> tuple[Photo, ...]:
    """Open the photographs of a brief; none where it names a palette file."""
    paths = tuple(map(Path, brief.photo))
    return () if any(path.suffix == ".json" for path in paths) else photos_of(paths, brief)
