"""Plans to draw: made from plain numbers, so that these tests need no other stage to run."""

import colorsys
import math
from collections.abc import Callable

import pytest

from palette.loom.warp import Warp
from palette.measures import Units
from palette.plans.plan import Plan
from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, PaletteSource, Swatch
from palette.yarn.amounts import YarnAmount

NAMES = (
    "moss green",
    "bramble leaf",
    "primrose",
    "bark",
    "wet slate",
    "young hazel",
    "campion pink",
    "deep ivy",
    "lichen",
    "rust",
    "cloud white",
    "bluebell",
)
HEXES = (
    "#5d733a",
    "#3c4f2c",
    "#e8d36b",
    "#6a4a33",
    "#4a545c",
    "#a9b86a",
    "#c8688f",
    "#1f3328",
    "#b9bfa3",
    "#a4502a",
    "#eceae2",
    "#5a62a8",
)


def lab_of(hex_colour: str) -> tuple[float, float, float]:
    """A CIELAB that is near enough for drawing."""
    red, green, blue = (int(hex_colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    hue, lightness, saturation = colorsys.rgb_to_hls(red, green, blue)
    chroma = 60 * saturation * (1 - abs(2 * lightness - 1))
    angle = 2 * math.pi * hue
    return (100 * lightness, chroma * math.cos(angle), chroma * math.sin(angle))


def make_palette(colours: int = 8, names: tuple[str, ...] = NAMES) -> Palette:
    """A palette of up to twelve colours with falling shares."""
    weights = [1 / (index + 2) for index in range(colours)]
    total = math.fsum(weights)
    swatches = tuple(
        Swatch(
            name=names[index],
            lab=lab_of(HEXES[index]),
            hex=HEXES[index],
            share=weights[index] / total,
            accent=index == colours - 1 and colours > 3,
        )
        for index in range(colours)
    )
    source = PaletteSource(photos=("hedge bank.jpg",), width_px=4000, height_px=3000)
    return Palette(swatches=swatches, source=source)


def make_cloth(
    palette: Palette, stripes: int = 30, *, name: str = "", picks: int = 1600
) -> StripePlan:
    """A cloth of so many stripes whose even picks sum to `picks`."""
    count = len(palette.swatches)
    order = [(index * 5 + index // count) % count for index in range(stripes)]
    for index in range(1, stripes):
        if order[index] == order[index - 1]:
            order[index] = (order[index] + 1) % count
    weights = [palette.swatches[which].share * (1 + index % 3) for index, which in enumerate(order)]
    scale = (picks / 2 - stripes) / math.fsum(weights)
    pairs = [1 + int(weight * scale) for weight in weights]
    pairs[0] += picks // 2 - sum(pairs)
    made, first = [], 1
    for which, pair in zip(order, pairs, strict=True):
        swatch = palette.swatches[which]
        made.append(
            Stripe(
                colour=swatch.name, hex=swatch.hex, lab=swatch.lab, picks=2 * pair, first_pick=first
            )
        )
        first += 2 * pair
    return StripePlan(
        palette=palette,
        stripes=tuple(made),
        picks_per_cm=8.0,
        finished_length_mm=picks / 8 * 10 * 0.9,
        shrinkage_length=0.1,
        name=name,
    )


def make_plan(
    stripes: int = 30,
    colours: int = 8,
    *,
    name: str = "Hedge bank in spring",
    names: tuple[str, ...] = NAMES,
    cloths: int = 1,
    units: Units = Units.METRIC,
    warnings: tuple[str, ...] = (),
    picks: int = 1600,
) -> Plan:
    """A whole plan, its yarn by plain proportion."""
    palette = make_palette(colours, names)
    made = tuple(
        make_cloth(palette, stripes, name=f"Towel {index + 1}" if cloths > 1 else "", picks=picks)
        for index in range(cloths)
    )
    warp = Warp(
        ends=234,
        ends_per_cm=7.874,
        width_in_reed_mm=295.5,
        woven_width_mm=277.8,
        finished_width_mm=250.0,
        length_mm=3223.9 * cloths,
        cloth_lengths_mm=tuple(cloth.woven_length_mm for cloth in made),
        draw_in=0.06,
        shrinkage_width=0.1,
        take_up=0.08,
        fringe_mm=150.0,
        loom_waste_mm=750.0,
    )
    yarns = []
    for swatch in palette.swatches:
        thrown = sum(cloth.picks_of(swatch.name) for cloth in made)
        if thrown:
            metres = thrown * 0.2955
            yarns.append(
                YarnAmount(
                    colour=swatch.name,
                    hex=swatch.hex,
                    use="weft",
                    count="NeC 8/2",
                    tex=147.6,
                    picks=thrown,
                    starts=2,
                    net_length_m=metres,
                    length_m=metres * 1.1,
                    mass_g=metres * 1.1 * 0.1476,
                )
            )
    yarns.append(
        YarnAmount(
            colour="natural white",
            hex="#ece7db",
            use="warp",
            count="NeC 8/2",
            tex=147.6,
            picks=0,
            starts=0,
            net_length_m=754.4,
            length_m=829.9,
            mass_g=122.5,
        )
    )
    return Plan(
        name=name, cloths=made, warp=warp, yarns=tuple(yarns), units=units, warnings=warnings
    )


@pytest.fixture(scope="session")
def plan_maker() -> Callable[..., Plan]:
    return make_plan


@pytest.fixture(scope="session")
def plan() -> Plan:
    return make_plan()
