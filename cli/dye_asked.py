"""What is typed for a dye day, read as the values of the library."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, TypeVar

from cli.naming import refused

if TYPE_CHECKING:
    from palette.dyeing.dye_day import DyeDay
    from palette.yarn.amounts import YarnAmount

__all__ = ["DYE_OPTIONS", "dye_wishes", "idle_options", "warned_of_warp"]

Value = TypeVar("Value")

DYE_OPTIONS: Mapping[str, str] = {
    "depth of": "--depth or --recipe",
    "skein of": "--skein",
    "fibre": "--fibre",
    "largest pot": "--pot",
    "pot": "--pot",
    "fill": "--fill",
    "vinegar": "--vinegar",
    "alum": "--alum",
    "cream of tartar": "--tartar",
    "liquor ratio": "--liquor-ratio",
    "bath ": "--stock or --liquor-ratio",
    "dye day": "--undyed",
    "reactive": "--reactive",
    "paper": "--paper",
}
"""Options by the words with which the library's refusals of a dye day begin."""

_FIGURE = r"(\d+(?:[.,]\d+)?|[.,]\d+)"
_PERCENT = re.compile(rf"\s*{_FIGURE}\s*%\s*")
_RATIO = re.compile(rf"\s*{_FIGURE}\s*:\s*1\s*")
_VOLUME = re.compile(rf"\s*{_FIGURE}\s*(l|litres?|liters?|ml)\s*", re.IGNORECASE)
_DYE = re.compile(rf"\s*(\S.*?)\s+{_FIGURE}\s*%\s*")
_ACIDS, _KINDS = ("citric", "vinegar"), ("cold", "hot")


def dye_wishes(
    *,
    colours: Sequence[str],
    fibre: Sequence[str] = (),
    natural: bool = False,
    depth: Sequence[str] = (),
    recipe: Sequence[str] = (),
    undyed: Sequence[str] = (),
    skein: Sequence[str] = (),
    margin: str | None = None,
    pot: Sequence[str] = (),
    texts: Mapping[str, str | None] = {},
) -> dict[str, object]:
    """Read what was typed as the values of a dye day, only those that were typed.

    Parameters
    ----------
    colours : sequence of str
        Of the plan: whatever is typed for a colour is for one of these.
    fibre, depth, recipe, undyed, skein, pot : sequence of str
        Options that may be repeated.
    natural : bool
    margin : str, optional
    texts : mapping of str to str
        Options with one value each: fill, liquor-ratio, stock, acid, vinegar, reactive, alum,
        tartar.

    Raises
    ------
    InputError
        The first thing that cannot be read, under its option.
    """
    from palette.measures import parse_mass, parse_share

    yarns = (*colours, "warp", "weft")
    plain_fibre, fibres = _plain_and_named("--fibre", fibre, yarns, str)
    plain_skein, skeins = _plain_and_named(
        "--skein", skein, yarns, lambda text: parse_mass(text, thing="--skein").g
    )
    read: dict[str, object] = {
        "natural": natural,
        "fibre": plain_fibre,
        "fibres": fibres,
        "depths": _named("--depth", depth, colours, lambda text: _percent("--depth", text)),
        "recipes": _named("--recipe", recipe, colours, _mixture),
        "undyed": _undyed(undyed, yarns),
        "skein_g": plain_skein,
        "skeins_g": skeins,
        "margin": None if margin is None else parse_share(margin, thing="--margin"),
        "pots_ml": tuple(map(_millilitres, pot)) or None,
        **_single(texts),
    }
    _check_once(read, [name.strip() for name in undyed])
    return {key: value for key, value in read.items() if value is not None}


def idle_options(texts: Mapping[str, str | None], day: DyeDay) -> tuple[str, ...]:
    """Name what was typed and changes nothing on this day: acid where nothing is dyed by acid."""
    things = {each.name for bath in day.mordant_baths for each in bath.assistants}
    classes = {bath.dye_class for bath in day.baths}
    working = {
        "stock": any(bath.stock_ml for bath in day.baths),
        "acid": "acid" in classes,
        "vinegar": any(each.name == "vinegar" for bath in day.baths for each in bath.assistants),
        "reactive": "reactive" in classes,
        "alum": "cream of tartar" in things,  # cotton has alum of its own, without tartar
        "tartar": "cream of tartar" in things,
    }
    idle = [f"--{name}" for name, text in texts.items() if text and not working.get(name, True)]
    dyed = {lot.colour for lot in day.lots} | {part.use for lot in day.lots for part in lot.skeins}
    for option, named in (("--fibre", day.asked.fibres), ("--skein", day.asked.skeins_g)):
        idle += [f"{option} for {name}, which is not dyed" for name, _ in named if name not in dyed]
    return (f"Not used on this day: {', '.join(idle)}.",) if idle else ()


def warned_of_warp(day: DyeDay, yarns: tuple[YarnAmount, ...], undyed: Sequence[str]) -> DyeDay:
    """Ask about a warp that nobody left out by name, and that is no undyed white."""
    from palette.dyeing.undyed import warp_left_out

    if "warp" in (name.strip() for name in undyed):
        return day
    return replace(day, warnings=(*warp_left_out(yarns, day.asked), *day.warnings))


def _single(texts: Mapping[str, str | None]) -> dict[str, object]:
    """Read the options with one value each."""
    readers: dict[str, tuple[str, Callable[[str], object]]] = {
        "fill": ("fill", lambda text: _percent("--fill", text) / 100),
        "liquor-ratio": ("liquor_ratio", _ratio),
        "stock": ("stock_percent", lambda text: _percent("--stock", text)),
        "acid": ("acid", lambda text: _one_of("--acid", text, _ACIDS)),
        "vinegar": ("vinegar_percent", lambda text: _percent("--vinegar", text)),
        "reactive": ("reactive", lambda text: _one_of("--reactive", text, _KINDS)),
        "alum": ("alum_percent", lambda text: _percent("--alum", text)),
        "tartar": ("tartar_percent", lambda text: _percent("--tartar", text, zero=True)),
    }
    found = {}
    for option, text in texts.items():
        if text is not None:
            field, read = readers[option]
            found[field] = read(text)
    return found


def _check_once(read: Mapping[str, object], named: Collection[str]) -> None:
    """Refuse a colour that has a depth of shade and a recipe too, or one that is not dyed."""
    depths, recipes = (dict(read[key]) for key in ("depths", "recipes"))  # type: ignore[call-overload]
    for colour in depths:
        if colour in recipes:
            rule = f"must not be given for {colour}, which has a --recipe"
            raise refused("--depth", rule, remedy="The recipe gives the depth of shade.")
    for option, asked in (("--depth", depths), ("--recipe", recipes)):
        for name in asked:
            if name in named:
                rule = f"must not be given for {name}, which is --undyed"
                raise refused(option, rule, remedy="Leave one of the two out.")


def _float(figure: str) -> float:
    return float(figure.replace(",", "."))


def _percent(option: str, text: str, *, zero: bool = False) -> float:
    match = _PERCENT.fullmatch(text)
    if match is None:
        like = {"--depth": "moss=2%"}.get(option, "5%")
        raise refused(
            option, "must be a percentage", got=repr(text), remedy=f"Write it like {like}."
        )
    value = _float(match[1])
    if not (value > 0 or zero):
        raise refused(option, "must be more than 0 %", got=repr(text))
    return value


def _ratio(text: str) -> float:
    match = _RATIO.fullmatch(text)
    if match is None or not _float(match[1]) > 0:
        rule = "must be millilitres of bath for each gram of dry yarn"
        raise refused("--liquor-ratio", rule, got=repr(text), remedy="Write it like 40:1.")
    return _float(match[1])


def _millilitres(text: str) -> float:
    from palette.errors import UnitError

    match = _VOLUME.fullmatch(text)
    if match is None or not _float(match[1]) > 0:
        rule = "must be a volume in l or ml, more than 0"
        raise UnitError("--pot", rule, got=repr(text), remedy="Write it like 20l.")
    return _float(match[1]) * (1.0 if match[2].lower() == "ml" else 1000.0)


def _one_of(option: str, text: str, known: Sequence[str]) -> str:
    word = text.strip().lower()
    if word not in known:
        raise refused(option, f"must be {' or '.join(known)}", got=repr(text))
    return word


def _mixture(text: str) -> tuple[tuple[str, float], ...]:
    """Read the dyes of one recipe: yellow 1% + blue 0.7%."""
    found: dict[str, float] = {}
    remedy = 'Write it like "moss=yellow 1% + blue 0.7%".'
    for part in text.split("+"):
        match = _DYE.fullmatch(part)
        if match is None:
            rule = "must be dyes, each with its percentage of the dry yarn"
            raise refused("--recipe", rule, got=repr(text), remedy=remedy)
        if match[1] in found:
            raise refused("--recipe", "must name each dye once", got=repr(text), remedy=remedy)
        if not _float(match[2]) > 0:
            raise refused("--recipe", f"{match[1]} must be more than 0 %", got=repr(text))
        found[match[1]] = _float(match[2])
    return tuple(found.items())


def _undyed(names: Sequence[str], yarns: Sequence[str]) -> tuple[str, ...]:
    """Yarns that keep their colour: the warp and what is named; none takes the warp out again."""
    from palette.dyeing.undyed import undyed_by_default

    found = undyed_by_default([name.strip() for name in names], known=yarns)
    return tuple(_known("--undyed", name, yarns) for name in found)


def _known(option: str, name: str, known: Sequence[str]) -> str:
    if name not in known:
        remedy = f"It can be: {', '.join(dict.fromkeys(known))}."
        raise refused(option, "must be of the plan", got=repr(name), remedy=remedy)
    return name


def _named(
    option: str, texts: Iterable[str], known: Sequence[str], read: Callable[[str], Value]
) -> tuple[tuple[str, Value], ...]:
    """Read values that each go with a name before an equals sign."""
    found: dict[str, Value] = {}
    for text in texts:
        name, mark, value = (part.strip() for part in text.partition("="))
        if not (mark and name and value):
            like = {"--recipe": '"moss=yellow 1% + blue 0.7%"'}.get(option, "moss=2%")
            rule = "must be a colour, = and what it gets"
            raise refused(option, rule, got=repr(text), remedy=f"Write it like {like}.")
        if name in found:
            raise refused(option, f"must be given once for {name}", got=repr(text))
        found[_known(option, name, known)] = read(value)
    return tuple(found.items())


def _plain_and_named(
    option: str, texts: Sequence[str], known: Sequence[str], read: Callable[[str], Value]
) -> tuple[Value | None, tuple[tuple[str, Value], ...]]:
    """Read one value for all, and values for some by name."""
    plain = [text for text in texts if "=" not in text]
    if len(plain) > 1:
        rule = "must be given once for all; for some of the yarn write it like warp=..."
        raise refused(option, rule, got=" and ".join(map(repr, plain)))
    named = _named(option, [text for text in texts if "=" in text], known, read)
    return (read(plain[0]) if plain else None), named
