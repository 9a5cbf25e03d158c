"""One yarn, one name: the wefts of several cloths that are bought or dyed together."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from palette.perception.difference import ciede2000
from palette.perception.spaces import lab_to_hex
from palette.stripes.plan import StripePlan
from palette.swatches.palette import Palette, Swatch

__all__ = ["SAME_YARN", "YarnNames", "joined_cloths"]

SAME_YARN = 1.0
"""CIEDE2000 up to which colours of different cloths are one yarn.

One unit is about the least difference that is seen side by side (common practice). Two baths of
one recipe differ by more, so two such yarns could not be dyed apart on purpose.
"""

_ORDINALS = ("second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth")
_COUNTED = re.compile(rf"(?:{'|'.join(_ORDINALS)}|\d+th) (.+)")
Key = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Yarn:
    """A weft, and the cloth that it was first seen in."""

    name: str
    hex: str
    lab: tuple[float, float, float]
    in_srgb: bool
    munsell: str = ""
    cloth: str = ""

    @property
    def key(self) -> Key:
        return self.name, self.hex


def _of_palette(palette: Palette, cloth: str) -> list[_Yarn]:
    return [
        _Yarn(
            name=swatch.name,
            hex=swatch.hex,
            lab=swatch.lab,
            in_srgb=swatch.in_srgb,
            munsell=swatch.munsell,
            cloth=cloth,
        )
        for swatch in palette.swatches
    ]


def _of_cloth(plan: StripePlan) -> list[_Yarn]:
    """Wefts of a cloth, each once: its palette, then yarns of its own (a hem, a yarn between)."""
    found = {yarn.key: yarn for yarn in _of_palette(plan.palette, plan.name)}
    for stripe in plan.stripes:
        if (stripe.colour, stripe.hex) not in found:
            yarn = _Yarn(
                name=stripe.colour,
                hex=stripe.hex,
                lab=stripe.lab,
                in_srgb=lab_to_hex(stripe.lab)[1],
                cloth=plan.name,
            )
            found[yarn.key] = yarn
    return list(found.values())


class YarnNames:
    """The yarns of the cloths so far, each under the one name that it has on every sheet.

    A later cloth's colour that is practically one of them is that yarn; one that only has its
    name gets another. Colours of one and the same cloth stay apart: they were asked for apart.

    Examples
    --------
    >>> from palette.swatches.palette import Palette, Swatch
    >>> autumn = Swatch(name="pine", lab=(34.9, -14.8, 14.2), hex="#42583b", share=1.0)
    >>> spring = Swatch(name="pine", lab=(32.1, -15.1, 10.3), hex="#38523b", share=1.0)
    >>> yarns = YarnNames()
    >>> _ = yarns.palette(Palette(swatches=(autumn,)), "towel 1", keep=True)
    >>> palette, names = yarns.palette(Palette(swatches=(spring,)), "towel 3")
    >>> names, palette.warnings
    ({'pine': 'second pine'}, ('pine is not the pine of towel 1, so it is called second pine.',))
    """

    def __init__(self) -> None:
        self._known: dict[str, _Yarn] = {}

    def palette(
        self, palette: Palette, cloth: str = "", *, keep: bool = False
    ) -> tuple[Palette, dict[str, str]]:
        """Name a palette's colours so that they agree with the yarns so far.

        Parameters
        ----------
        palette : Palette
        cloth : str
            Name of the cloth that it is for.
        keep : bool
            Whether its colours count from now on; else they do once the cloth is planned.

        Returns
        -------
        palette : Palette
            With a warning for each colour that has another name now.
        names : dict of str to str
            Old and new name of each of those.
        """
        given, notes = self._given(_of_palette(palette, cloth))
        if keep:
            self._keep(given.values())
        names = {key[0]: yarn.name for key, yarn in given.items() if yarn.name != key[0]}
        return _palette_in(palette, given, notes), names

    def cloth(self, plan: StripePlan) -> StripePlan:
        """Name all wefts of a planned cloth so, and keep them for the cloths after it.

        Parameters
        ----------
        plan : StripePlan

        Returns
        -------
        StripePlan
            The same stripes; a warning for each colour that has another name now.
        """
        own = _of_cloth(plan)
        given, notes = self._given(own)
        self._keep(given.values())
        if all(given[yarn.key] == yarn for yarn in own):
            return plan
        stripes = tuple(
            replace(stripe, colour=yarn.name, hex=yarn.hex, lab=yarn.lab)
            for stripe in plan.stripes
            for yarn in (given[stripe.colour, stripe.hex],)
        )
        palette = _palette_in(plan.palette, given, ())
        return replace(plan, palette=palette, stripes=stripes, warnings=(*plan.warnings, *notes))

    def _keep(self, yarns: Iterable[_Yarn]) -> None:
        for yarn in yarns:
            self._known.setdefault(yarn.name, yarn)

    def _given(self, own: Sequence[_Yarn]) -> tuple[dict[Key, _Yarn], tuple[str, ...]]:
        """Give each colour of a cloth its yarn, and say which names have changed."""
        joined = self._joined(own)
        by_name = dict(self._known)
        used = {*by_name, *(yarn.name for yarn in own if yarn.key not in joined)}
        given, notes = {}, []
        for yarn in own:
            known = joined.get(yarn.key)
            if known is None:
                known = yarn
                other = by_name.get(yarn.name)
                if other is not None:
                    known = replace(yarn, name=_free_name(yarn.name, used))
                    notes.append(
                        f"{yarn.name} is not the {yarn.name} of {_where(other)}, "
                        f"so it is called {known.name}."
                    )
                by_name[known.name] = known
                used.add(known.name)
            elif known.name != yarn.name:
                notes.append(
                    f"{yarn.name} is practically the {known.name} of {_where(known)}: "
                    f"one yarn, called {known.name}."
                )
            given[yarn.key] = known
        return given, tuple(notes)

    def _joined(self, own: Sequence[_Yarn]) -> dict[Key, _Yarn]:
        """Find the yarn that a colour practically is; no two colours of a cloth the same one."""
        known = list(self._known.values())
        if not known or not own:
            return {}
        far = ciede2000([[yarn.lab] for yarn in own], [[yarn.lab for yarn in known]])
        near = sorted(
            (own[i].name != known[j].name, float(far[i, j]), i, j)
            for i in range(len(own))
            for j in range(len(known))
            if far[i, j] <= SAME_YARN
        )
        joined: dict[Key, _Yarn] = {}
        for _, _, i, j in near:
            if own[i].key not in joined and known[j] not in joined.values():
                joined[own[i].key] = known[j]
        return joined


def _where(yarn: _Yarn) -> str:
    return yarn.cloth or "another cloth"


def _free_name(name: str, used: set[str]) -> str:
    """Put the first ordinal before a name that makes it a new one: a number would read as picks."""
    match = _COUNTED.fullmatch(name)
    base = match[1] if match is not None and match[1] in used else name
    numbers = (f"{number}th" for number in itertools.count(len(_ORDINALS) + 2))
    names = (f"{ordinal} {base}" for ordinal in itertools.chain(_ORDINALS, numbers))
    return next(each for each in names if each not in used)


def _palette_in(palette: Palette, given: dict[Key, _Yarn], notes: Sequence[str]) -> Palette:
    """Put the yarns into a palette, its shares as they are."""

    def yarn_of(swatch: Swatch) -> Swatch:
        yarn = given[swatch.name, swatch.hex]
        munsell = yarn.munsell if yarn.hex != swatch.hex else swatch.munsell
        return replace(
            swatch,
            name=yarn.name,
            hex=yarn.hex,
            lab=yarn.lab,
            in_srgb=yarn.in_srgb,
            munsell=munsell,
        )

    swatches = tuple(map(yarn_of, palette.swatches))
    if swatches == palette.swatches and not notes:
        return palette
    return replace(palette, swatches=swatches, warnings=(*palette.warnings, *notes))


def joined_cloths(cloths: Sequence[StripePlan]) -> tuple[StripePlan, ...]:
    """Give the wefts of all cloths of a warp names by which they can be told apart.

    Parameters
    ----------
    cloths : sequence of StripePlan
        In weaving order; the first one keeps its names.

    Returns
    -------
    tuple of StripePlan
        Every name stands for one colour, and colours up to `SAME_YARN` apart have one name.
    """
    yarns = YarnNames()
    return tuple(yarns.cloth(cloth) for cloth in cloths)
