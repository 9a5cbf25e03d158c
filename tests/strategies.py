"""Hypothesis strategies for the values that travel between stages."""

from hypothesis import strategies as st

from palette.loom.draft import PLAIN_WEAVE, Draft
from palette.loom.warp import Warp
from palette.measures import Units
from palette.perception.spaces import hex_to_lab
from palette.plans.plan import Plan
from palette.stripes.plan import Stripe, StripePlan
from palette.swatches.palette import Palette, PaletteSource, Swatch
from palette.yarn.amounts import YarnAmount

shown = st.characters(exclude_categories=["Cc", "Cf", "Cs", "Zl", "Zp"])
names = st.text(shown, min_size=1, max_size=20).filter(lambda text: text.strip())
hexes = st.from_regex(r"#[0-9a-f]{6}", fullmatch=True)
sizes_mm = st.floats(1, 10_000, allow_nan=False)
parts = st.floats(0, 0.9, allow_nan=False)
places = st.tuples(st.floats(0, 1), st.floats(0, 1))


@st.composite
def palettes(draw: st.DrawFn, max_size: int = 8) -> Palette:
    """Palettes of 1 to `max_size` colours whose hex and CIELAB agree."""
    chosen = draw(st.lists(names, min_size=1, max_size=max_size, unique=True))
    weights = draw(st.lists(st.integers(1, 1000), min_size=len(chosen), max_size=len(chosen)))
    swatches = []
    for name, weight in zip(chosen, weights, strict=True):
        code = draw(hexes)
        swatches.append(
            Swatch(
                name=name,
                lab=hex_to_lab(code),
                hex=code,
                share=weight / sum(weights),
                accent=draw(st.booleans()),
                place=draw(places),
                munsell=draw(st.sampled_from(["", "5GY 4/4"])),
            )
        )
    source = PaletteSource(
        photos=tuple(draw(st.lists(names, max_size=2))),
        width_px=draw(st.integers(0, 9000)),
        height_px=draw(st.integers(0, 9000)),
        colours_asked=draw(st.none() | st.integers(1, 12)),
        why=draw(st.text(max_size=20)),
        settings=tuple(draw(st.dictionaries(names, st.text(max_size=8), max_size=2)).items()),
    )
    notes = tuple(draw(st.lists(st.text(max_size=20), max_size=2)))
    return Palette(swatches=tuple(swatches), source=source, warnings=notes)


@st.composite
def stripe_plans(draw: st.DrawFn) -> StripePlan:
    """Stripe plans over a palette, gaps excluded."""
    palette = draw(palettes())
    stripes = []
    first = 1
    for _ in range(draw(st.integers(1, 6))):
        swatch = draw(st.sampled_from(palette.swatches))
        picks = draw(st.integers(1, 500))
        role = draw(st.sampled_from(["stripe", "blend", "hem", "border"]))
        stripes.append(
            Stripe(
                colour=swatch.name,
                hex=swatch.hex,
                lab=swatch.lab,
                picks=picks,
                first_pick=first,
                role=role,
            )
        )
        first += picks
    return StripePlan(
        palette=palette,
        stripes=tuple(stripes),
        picks_per_cm=draw(st.floats(0.5, 40)),
        finished_length_mm=draw(sizes_mm),
        shrinkage_length=draw(parts),
        step=draw(st.integers(1, 8)),
        least=draw(st.integers(0, 8)),
        order=draw(st.sampled_from(["photo", "mirrored"])),
        seed=draw(st.integers(0, 2**31)),
        name=draw(st.text(shown, max_size=12)),
        carry_picks=draw(st.none() | st.integers(0, 40)),
        shuttles=draw(st.none() | st.integers(1, 8)),
        warnings=tuple(draw(st.lists(st.text(max_size=20), max_size=2))),
    )


@st.composite
def warps(draw: st.DrawFn) -> Warp:
    """Warps in range."""
    return Warp(
        ends=draw(st.integers(8, 2000)),
        ends_per_cm=draw(st.floats(0.5, 40)),
        width_in_reed_mm=draw(sizes_mm),
        woven_width_mm=draw(sizes_mm),
        finished_width_mm=draw(sizes_mm),
        length_mm=draw(sizes_mm),
        cloth_lengths_mm=tuple(draw(st.lists(sizes_mm, min_size=1, max_size=4))),
        draw_in=draw(parts),
        shrinkage_width=draw(parts),
        take_up=draw(parts),
        fringe_mm=draw(sizes_mm),
        gap_mm=draw(sizes_mm),
        sampling_mm=draw(sizes_mm),
        loom_waste_mm=draw(sizes_mm),
        doubled_ends=draw(st.sampled_from([0, 4])),
    )


@st.composite
def yarn_amounts(draw: st.DrawFn) -> YarnAmount:
    """Amounts of one yarn in range."""
    return YarnAmount(
        colour=draw(names),
        hex=draw(hexes),
        use=draw(st.sampled_from(["weft", "warp"])),
        count=draw(names),
        tex=draw(st.floats(1, 5000)),
        picks=draw(st.integers(0, 10_000)),
        starts=draw(st.integers(0, 100)),
        net_length_m=draw(st.floats(0, 1e5)),
        length_m=draw(st.floats(0, 1e5)),
        mass_g=draw(st.floats(0, 1e5)),
        tail_length_m=draw(st.floats(0, 1e3)),
        carried_length_m=draw(st.floats(0, 1e3)),
        sampling_length_m=draw(st.floats(0, 1e3)),
        ends=draw(st.integers(0, 1000)),
        allowance=draw(st.floats(0, 1)),
    )


TWILL = Draft(
    name="2/2 twill",
    threading=(1, 2, 3, 4),
    tie_up=((1, 2), (2, 3), (3, 4), (4, 1)),
    treadling=(1, 2, 3, 4),
)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """Whole plans of one to three cloths."""
    code = draw(hexes)
    return Plan(
        name=draw(names),
        cloths=tuple(draw(st.lists(stripe_plans(), min_size=1, max_size=3))),
        warp=draw(warps()),
        yarns=tuple(draw(st.lists(yarn_amounts(), max_size=4))),
        units=draw(st.sampled_from(Units)),
        draft=draw(st.sampled_from([PLAIN_WEAVE, TWILL])),
        warp_lab=hex_to_lab(code),
        warp_hex=code,
        asked=(("length", "180cm"), ("step", 2), ("keep", ("#112233",))),
        warnings=tuple(draw(st.lists(st.text(max_size=20), max_size=2))),
    )
