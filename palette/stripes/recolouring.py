"""The same stripes in another colourway."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from palette.errors import InputError
from palette.stripes.plan import StripePlan
from palette.stripes.share_check import share_notes
from palette.stripes.weft import Weft
from palette.swatches.palette import Palette

__all__ = ["colourway", "recolour"]


def colourway(plan: StripePlan, palette: Palette, *, by: str = "share") -> dict[str, str]:
    """Give each weft of the stripes a colour of the palette, rank for rank.

    Parameters
    ----------
    plan, palette, by
        As in `recolour`.

    Returns
    -------
    dict of str to str
        Names of the stripes' colours, in the order in which they enter, and those of the palette.

    Raises
    ------
    InputError
        The palette has too few colours.
    """
    body = [stripe for stripe in plan.stripes if stripe.role in ("stripe", "blend")]
    lightness = {stripe.colour: stripe.lab[0] for stripe in body}
    names = list(lightness)
    if len(names) > len(palette.swatches):
        raise InputError(
            "colourway",
            f"must have at least {len(names)} colours, as many as the stripes",
            got=f"{len(palette.swatches)}",
            remedy=f"Take a palette of {len(names)} colours or more.",
        )
    plenty = sorted(palette.swatches, key=lambda swatch: -swatch.share)[: len(names)]
    if by == "share":
        names.sort(key=lambda name: -sum(s.picks for s in body if s.colour == name))
    elif by == "lightness":
        names.sort(key=lambda name: -lightness[name])
        plenty.sort(key=lambda swatch: -swatch.lab[0])
    else:
        raise InputError("colourway", "must be matched by share or lightness", got=repr(by))
    answer = {name: swatch.name for name, swatch in zip(names, plenty, strict=True)}
    return {name: answer[name] for name in lightness}


def recolour(
    plan: StripePlan,
    palette: Palette,
    *,
    by: str = "share",
    colours: Mapping[str, str] | None = None,
    edges: bool = True,
) -> StripePlan:
    """Weave the same stripes in the colours of another palette.

    Parameters
    ----------
    plan : StripePlan
    palette : Palette
        The other colourway.
    by : {"share", "lightness"}
        The colour with most picks becomes the one with the largest share, and so on down; or
        the lightest becomes the lightest, so that the pattern of light and dark is kept.
    colours : mapping of str to str, optional
        Which colour of the stripes becomes which of the palette, by name; the rest by rank.
    edges : bool
        Whether a hem or border in a colour of the stripes follows it; a yarn of its own stays.

    Returns
    -------
    StripePlan
        The same widths; `warnings` says what does not match the new palette's shares.

    Raises
    ------
    InputError
        The palette has too few colours, or a name is unknown.

    Examples
    --------
    >>> from palette.stripes.weft import Piece, number_picks
    >>> from palette.swatches.palette import Swatch
    >>> moss = Swatch(name="moss", lab=(45.0, -15.0, 30.0), hex="#5d733a", share=1.0)
    >>> rust = Swatch(name="rust", lab=(45.0, 35.0, 40.0), hex="#a84f28", share=1.0)
    >>> plan = StripePlan(palette=Palette(swatches=(moss,)), picks_per_cm=8,
    ...     stripes=number_picks((Piece(Weft.of(moss), 30),)), finished_length_mm=38)
    >>> recolour(plan, Palette(swatches=(rust,))).colours
    ('rust',)
    """
    asked = dict(colours or {})
    for old, new in asked.items():
        if old not in plan.colours:
            rule = f"must name a colour of the stripes ({', '.join(plan.colours)})"
            raise InputError("colourway", rule, got=repr(old))
        if new not in {swatch.name for swatch in palette.swatches}:
            names = ", ".join(swatch.name for swatch in palette.swatches)
            raise InputError("colourway", f"must name one of its colours ({names})", got=repr(new))
    body = {s.colour for s in plan.stripes if s.role in ("stripe", "blend")}
    answer = asked if body <= set(asked) else colourway(plan, palette, by=by) | asked
    stripes = []
    for stripe in plan.stripes:
        kept = stripe.colour not in answer or (stripe.role in ("hem", "border") and not edges)
        weft = Weft.of(stripe) if kept else Weft.of(palette[answer[stripe.colour]])
        stripes.append(replace(stripe, colour=weft.name, hex=weft.hex, lab=weft.lab))
    coloured = replace(plan, palette=palette, stripes=tuple(stripes), warnings=())
    return replace(coloured, warnings=share_notes(coloured))
