"""The dye day of a plan: its fibre, its colours, recipes from a dyer's own samples."""

from dataclasses import replace

import pytest

from palette.dyeing.asked import DyeAsked
from palette.dyeing.dye_model import fit_dyes
from palette.dyeing.samples import DyeSample, DyeSamples
from palette.errors import InputError, TableError
from palette.loom.planning import plan_warp
from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab
from palette.plans.dye_day import dye_day_of, dyed_colours
from palette.plans.plan import Plan
from palette.stripes.planning import plan_stripes
from palette.swatches.palette import Palette
from palette.yarn.count import parse_count
from palette.yarn.planning import yarn_amounts

COLOURS = (
    ("undyed", 0.0, 0.0, "#efe6d2"),
    ("y1", 0.5, 0.0, "#e6d27a"),
    ("y2", 1.0, 0.0, "#dfc04e"),
    ("y3", 2.0, 0.0, "#d1a92f"),
    ("b1", 0.0, 0.5, "#a8bcc8"),
    ("b2", 0.0, 1.0, "#7c9cb4"),
    ("b3", 0.0, 2.0, "#54789c"),
    ("g1", 0.5, 0.5, "#8ea36a"),
    ("g2", 1.0, 1.0, "#5f8a4a"),
)


@pytest.fixture
def samples() -> DyeSamples:
    """A yellow and a blue, each in three strengths, together in two, on a creamy yarn."""
    return DyeSamples(
        file="own.csv",
        dyes=("yellow", "blue"),
        samples=tuple(
            DyeSample(name=name, percents=(yellow, blue), lab=hex_to_lab(code), hex=code)
            for name, yellow, blue, code in COLOURS
        ),
    )


@pytest.fixture
def scarf(hedge: Palette) -> Plan:
    """A wool scarf in the four colours of the hedge."""
    cloth = plan_stripes(hedge, length_mm=1500.0, picks_per_cm=8.0)
    warp = plan_warp(
        finished_width_mm=250.0, ends_per_cm=8.0, cloth_lengths_mm=(cloth.woven_length_mm,)
    )
    count = parse_count("Nm 2/8")
    yarns = yarn_amounts((cloth,), warp, weft=count, warp_yarn=count)
    return Plan(name="scarf", cloths=(cloth,), warp=warp, yarns=yarns, asked=(("fibre", "wool"),))


def test_the_plans_fibre_is_used_unless_another_is_named(scarf: Plan) -> None:
    assert {bath.dye_class for bath in dye_day_of(scarf, {}).baths} == {"acid"}
    day = dye_day_of(scarf, {"fibre": "linen"})
    assert {bath.dye_class for bath in day.baths} == {"reactive"}


def test_a_plan_without_a_fibre_is_cotton(scarf: Plan) -> None:
    day = dye_day_of(replace(scarf, asked=()), {})
    assert {lot.fibre.text for lot in day.lots} == {"cotton"}


def test_colours_outside_srgb_keep_their_cielab(scarf: Plan, hedge: Palette) -> None:
    """The hex code of a swatch is clipped; its CIELAB is what the recipe has to reach."""
    moss = replace(hedge["moss"], lab=(50.0, -60.0, 60.0), in_srgb=False)
    palette = replace(hedge, swatches=(moss, *hedge.swatches[1:]))
    cloth = replace(scarf.cloths[0], palette=palette)
    colours = dict(dyed_colours(replace(scarf, cloths=(cloth,)), DyeAsked(fibre="wool")))
    assert colours["moss"] == (50.0, -60.0, 60.0)


def test_dyed_colours_leave_out_what_is_not_dyed(scarf: Plan) -> None:
    asked = DyeAsked(fibre="wool", undyed=("warp", "rust"))
    assert {name for name, _ in dyed_colours(scarf, asked)} == {"moss", "straw", "chalk"}


def test_a_weft_of_the_warps_name_is_still_dyed(scarf: Plan) -> None:
    yarns = tuple(
        replace(yarn, colour="chalk") if yarn.use == "warp" else yarn for yarn in scarf.yarns
    )
    asked = DyeAsked(fibre="wool", undyed=("warp",))
    assert "chalk" in dict(dyed_colours(replace(scarf, yarns=yarns), asked))


def test_recipes_reach_the_colours_as_far_as_the_dyes_can(scarf: Plan, samples: DyeSamples) -> None:
    """The recipe of a colour, put back into the model of the dyes, is near what was wanted."""
    day = dye_day_of(scarf, {"undyed": ("warp",)}, samples=samples)
    recipes = {name: dict(parts) for name, parts in day.asked.recipes}
    straw = recipes["straw"]
    model = fit_dyes(samples)
    made = model.colours([[straw.get("yellow", 0.0), straw.get("blue", 0.0)]])[0]
    assert float(ciede2000(made, hex_to_lab("#d9c27a"))) < 5
    for bath in day.baths:
        assert sum(part.dye_g or 0 for part in bath.dyes) == pytest.approx(bath.dye_g)


def test_what_was_typed_wins_over_the_samples(scarf: Plan, samples: DyeSamples) -> None:
    wishes = {
        "undyed": ("warp",),
        "depths": (("moss", 3.0),),
        "recipes": (("rust", (("red", 2.0),)),),
    }
    day = dye_day_of(scarf, wishes, samples=samples)
    recipes = dict(day.asked.recipes)
    assert recipes["rust"] == (("red", 2.0),)
    assert "moss" not in recipes
    assert day["moss"].depth_percent == 3.0


def test_a_colour_that_the_yarn_has_already_is_not_dyed(
    scarf: Plan, samples: DyeSamples, hedge: Palette
) -> None:
    chalk = replace(hedge["chalk"], lab=hex_to_lab("#efe6d2"), hex="#efe6d2")
    palette = replace(hedge, swatches=(*hedge.swatches[:3], chalk))
    plan = replace(scarf, cloths=(replace(scarf.cloths[0], palette=palette),))
    day = dye_day_of(plan, {"undyed": ("warp",)}, samples=samples)
    assert "chalk" in day.undyed
    assert day.warnings[0] == "Nearest is the undyed yarn, so not dyed: chalk."


def test_samples_are_not_needed_where_every_colour_has_its_depth(
    scarf: Plan, samples: DyeSamples
) -> None:
    depths = tuple((name, 1.0) for name in ("moss", "straw", "rust", "chalk"))
    wishes = {"undyed": ("warp",), "depths": depths}
    assert dye_day_of(scarf, wishes, samples=samples) == dye_day_of(scarf, wishes)


def test_warnings_begin_with_the_recipes(scarf: Plan, samples: DyeSamples) -> None:
    day = dye_day_of(scarf, {"undyed": ("warp",)}, samples=samples)
    assert any(text.startswith("rust: No recipe in these dyes comes") for text in day.warnings)
    guide = next(i for i, text in enumerate(day.warnings) if text.startswith("A guide"))
    skeins = next(i for i, text in enumerate(day.warnings) if text.startswith("Much more is dyed"))
    assert guide < skeins


def test_too_few_samples_are_refused(scarf: Plan, samples: DyeSamples) -> None:
    few = replace(samples, samples=samples.samples[:2])
    with pytest.raises(TableError, match=r"own\.csv: must hold at least 3 dyed samples; got 1"):
        dye_day_of(scarf, {}, samples=few)


def test_hot_alkali_never_meets_protein(scarf: Plan) -> None:
    """Alkali harms wool and silk, the more the hotter it is (common practice)."""
    wishes = {"fibre": "60% wool 40% bamboo", "reactive": "hot"}
    with pytest.raises(InputError, match="reactive: must be cold for yarn of cellulose and"):
        dye_day_of(scarf, wishes)
    assert dye_day_of(scarf, {**wishes, "reactive": "cold"}).baths
    assert dye_day_of(scarf, {**wishes, "natural": True}).baths
    assert dye_day_of(scarf, {"fibre": "70% nylon 30% cotton", "reactive": "hot"}).baths


def test_an_unknown_colour_is_refused(scarf: Plan) -> None:
    with pytest.raises(InputError, match="colour: must be one of the plan; got 'sky'"):
        dye_day_of(scarf, {"depths": (("sky", 1.0),)})


def test_the_plans_skeins_are_dyed_unless_others_are_named(scarf: Plan) -> None:
    own = replace(scarf, asked=(*scarf.asked, ("skein", "50g")))
    for plan, wishes, skein_g in (
        (scarf, {}, 100.0),
        (own, {}, 50.0),
        (own, {"skein_g": 25.0}, 25.0),
        (own, {"skeins_g": (("moss", 20.0),)}, 20.0),
    ):
        day = dye_day_of(plan, wishes)
        assert {each.skein_g for each in day["moss"].skeins} == {skein_g}
    assert {each.skein_g for each in day["straw"].skeins} == {50.0}


def test_skeins_of_a_length_weigh_what_their_yarn_does(scarf: Plan) -> None:
    plan = replace(scarf, asked=(*scarf.asked, ("skein", "250m")))
    yarns = tuple(
        replace(yarn, count="Nm 2/20") if yarn.use == "warp" else yarn for yarn in plan.yarns
    )
    day = dye_day_of(replace(plan, yarns=yarns), {"skeins_g": (("moss", 20.0),)})
    sizes = {lot.colour: {each.skein_g for each in lot.skeins} for lot in day.lots}
    assert sizes["moss"] == {20.0}
    assert sizes["straw"] == {parse_count("Nm 2/8").mass_g(250)}
