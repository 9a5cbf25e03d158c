"""The dye day on the command line: what is typed, what is printed, what is refused."""

import json
import re
import shlex
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

SAMPLES = (
    "name,colour,yellow %,blue %\nundyed,#efe6d2,0,0\ny1,#e6d27a,0.5,0\ny2,#dfc04e,1,0\n"
    "y3,#d1a92f,2,0\nb1,#a8bcc8,0,0.5\nb2,#7c9cb4,0,1\nb3,#54789c,0,2\n"
    "g1,#8ea36a,0.5,0.5\ng2,#5f8a4a,1,1\n"
)


@pytest.fixture(scope="session")
def colours(plan_file: Path) -> list[str]:
    """Wefts of the plan, in the order in which they enter."""
    content = json.loads(plan_file.read_text(encoding="utf-8"))
    return list(dict.fromkeys(stripe["colour"] for stripe in content["stripes"]))


@pytest.fixture
def dye(leafweft: Callable, plan_file: Path) -> Callable:
    """Dye the plan in wool."""

    def run(*words: str | Path, fibre: str = "wool") -> object:
        return leafweft("dye", plan_file, "--fibre", fibre, *words)

    return run


def squeezed(text: str) -> str:
    """Words of a text with single spaces."""
    return " ".join(text.split())


def lines_with(text: str, *words: str) -> list[str]:
    """Lines that hold all of these words."""
    return [line for line in text.splitlines() if all(word in line for word in words)]


def test_every_dye_of_a_recipe_is_weighed(dye: Callable, colours: list[str]) -> None:
    """Dye = dry goods x per cent; a 1 % stock holds 1 g in 100 ml (common practice)."""
    moss = colours[0]
    done = dye("--recipe", f"{moss}=yellow 1% + blue 0.7%")
    assert done.code == 0, done.err
    baths = done.out.partition("\nBaths\n")[2].partition("\n!")[0]
    yellow, blue = lines_with(baths, "yellow 1 %"), lines_with(baths, "blue 0.7 %")
    assert "1.00 g  100 ml" in yellow[0]
    assert "0.70 g   70 ml" in blue[0]
    assert moss in yellow[0]
    assert moss not in blue[0]
    weighed = done.out.partition("To weigh")[2].partition("Stock solution")[0]
    assert squeezed(lines_with(weighed, "yellow")[0]) == "yellow 1.00 g 100 ml"
    assert squeezed(lines_with(weighed, "blue")[0]) == "blue 0.70 g 70 ml"
    assert f"dye for {moss}" not in weighed
    assert f"dye for {colours[1]}" in weighed


def test_totals_are_the_sums_of_the_baths(dye: Callable, colours: list[str]) -> None:
    first, second, *_ = colours
    recipes = (f"{first}=yellow 1% + blue 0.7%", f"{second}=blue 2%")
    done = dye("--recipe", recipes[0], "--recipe", recipes[1], "--skein", f"{second}=60g", "--json")
    day = json.loads(done.out)
    totals = {each["dye"]: each for each in day["dyes_to_weigh"]}
    assert totals["blue"]["dye_g"] == pytest.approx(0.7 + 1.2)
    assert totals["blue"]["stock_ml"] == pytest.approx(70 + 120)
    assert sum(each["dye_g"] for each in totals.values()) == pytest.approx(
        sum(bath["dye_g"] for bath in day["baths"])
    )


def test_assistants_are_summed_with_their_strength(dye: Callable) -> None:
    """Two grams of acetic acid for 100 g of yarn are 40 ml of vinegar of 5 %."""
    done = dye("--acid", "vinegar", "--skein", "50g", "--undyed", "warp")
    baths = len(re.findall(r"vinegar \(5 %\) 20 ml", done.out))
    assert baths > 1
    assert f"vinegar (5 %) {20 * baths} ml" in squeezed(done.out)


def test_vinegar_of_another_strength(dye: Callable) -> None:
    """Two grams of acetic acid are 20 ml of vinegar of 10 %, with a caution of its own."""
    done = dye("--vinegar", "10%", "--undyed", "warp")
    assert re.findall(r"vinegar \(10 %\) 20 ml", done.out)
    assert "Not used" not in done.err
    irritates = "Acetic acid of 10 % and more irritates skin and eyes"
    assert irritates in squeezed(done.out)
    assert irritates not in squeezed(dye("--acid", "vinegar").out)


def test_how_full_a_pot_may_be(dye: Callable) -> None:
    day = json.loads(dye("--pot", "10l", "--fill", "45%", "--undyed", "warp", "--json").out)
    assert day["asked"]["fill"] == 0.45
    assert all(bath["volume_ml"] <= 4500 for bath in day["baths"])


def test_mordant_baths_have_pots_and_come_before_the_dye(dye: Callable) -> None:
    words = ("--natural", "--pot", "6l", "--pot", "9l", "--undyed", "warp")
    day = json.loads(dye(*words, "--json").out)
    of_colour = {
        colour: max(m["round"] for m in day["mordant_baths"] if colour in m["colours"])
        for bath in day["mordant_baths"]
        for colour in bath["colours"]
    }
    assert all(bath["round"] > of_colour[bath["colour"]] for bath in day["baths"])
    assert "filling" in dye(*words).out.partition("Mordant baths")[2].splitlines()[1]


def test_skeins_by_colour_and_in_ounces(dye: Callable, colours: list[str]) -> None:
    done = dye("--skein", "4oz", "--skein", f"{colours[0]}=25g", "--json")
    lots = {lot["colour"]: lot for lot in json.loads(done.out)["lots"]}
    assert lots[colours[0]]["skeins"][0]["skein_g"] == 25
    assert lots[colours[1]]["skeins"][0]["skein_g"] == pytest.approx(113.398, abs=1e-3)


def test_weights_are_dry_and_in_grams(dye: Callable) -> None:
    done = dye("--skein", "4oz")
    assert "weighed dry before it is wetted out" in done.out
    assert "x 113.4 g" in done.out
    assert "oz" not in done.out


def test_fibre_of_the_warp_alone(dye: Callable) -> None:
    done = dye("--fibre", "warp=cotton", "--undyed", "none", "--json")
    day = json.loads(done.out)
    kinds = {lot["colour"]: lot["fibre"]["text"] for lot in day["lots"]}
    assert kinds.pop("warp") == "cotton"
    assert set(kinds.values()) == {"wool"}
    assert {bath["dye_class"] for bath in day["baths"]} == {"acid", "reactive"}
    assert day["undyed"] == []


def test_liquor_ratio_and_stock(dye: Callable) -> None:
    bath = json.loads(dye("--liquor-ratio", "30:1", "--stock", "2%", "--json").out)["baths"][0]
    assert bath["volume_ml"] == pytest.approx(30 * bath["dry_g"])
    assert bath["stock_ml"] == pytest.approx(50 * bath["dye_g"])


def test_natural_dyes_have_no_stock(dye: Callable, colours: list[str]) -> None:
    """Alum at 12 % and tartar at 6 % of the dry fibre, as typed."""
    done = dye("--natural", "--alum", "12%", "--tartar", "6%")
    assert done.code == 0, done.err
    dry = 100 * len(colours)
    assert f"alum {dry * 0.12:.1f} g, cream of tartar {dry * 0.06:.1f} g" in done.out
    assert "Mordant baths, before the dye" in done.out
    assert "stock" not in done.out
    assert " ml" not in done.out.replace("100 ml", "")
    assert "Chrome, tin and copper are poisonous" in squeezed(done.out)


def test_hot_and_cold_reactive_dye(leafweft: Callable, plan_file: Path) -> None:
    hot = leafweft("dye", plan_file, "--fibre", "cotton", "--reactive", "hot")
    assert "Bring up to 70 °C" in hot.out
    cold = leafweft("dye", plan_file, "--fibre", "cotton")
    assert "Hold at 24 to 35 °C" in cold.out


def test_mixed_yarn_takes_two_dyes_the_alkali_first(dye: Callable, colours: list[str]) -> None:
    """Dyes of two classes are never weighed as one, though a recipe names them alike."""
    done = dye("--recipe", f"{colours[0]}=blue 1%", fibre="60% wool 40% bamboo")
    weighed = done.out.partition("To weigh")[2].partition("Stock solution")[0]
    assert squeezed(lines_with(weighed, "blue (acid)")[0]) == "blue (acid) 0.60 g 60 ml"
    assert squeezed(lines_with(weighed, "blue (reactive)")[0]) == "blue (reactive) 0.40 g 40 ml"
    baths = done.out.partition("\nBaths\n")[2].partition("\n!")[0]
    order = [baths.index(f"{colours[0]} ({kind})") for kind in ("reactive", "acid")]
    assert order == sorted(order)


def test_pots_and_fillings(dye: Callable) -> None:
    done = dye("--skein", "50g", "--pot", "6l", "--pot", "2800 ml")
    baths = done.out.partition("\nBaths\n")[2].partition("\n!")[0]
    fillings = [line.split()[0] for line in baths.splitlines()[1:]]
    assert fillings == sorted(fillings)
    assert "2.8 l" in baths
    assert "6 l" in baths


def test_cautions_stand_beside_their_figures(dye: Callable) -> None:
    text = dye().out
    places = [
        text.index(words)
        for words in (
            "To weigh or measure",
            "Dye powder can be breathed in",
            "\nBaths\n",
            "Pour acid into water",
            "Take care",
            "data sheet",
        )
    ]
    assert places == sorted(places)
    assert max(map(len, text.splitlines())) <= 110


def test_samples_give_the_recipes(dye: Callable, colours: list[str]) -> None:
    Path("own.csv").write_text(SAMPLES, encoding="utf-8")
    done = dye("--samples", "own.csv", "--depth", f"{colours[0]}=2%", "--json")
    assert done.code == 0, done.err
    day = json.loads(done.out)
    recipes = dict(day["asked"]["recipes"])
    assert set(recipes) | {colours[0]} | set(day["undyed"]) == {*colours, "warp"}
    assert {dye for parts in recipes.values() for dye, _ in parts} <= {"yellow", "blue"}
    assert "A guide: such predictions are typically off" in done.err


def test_too_few_samples_are_refused(dye: Callable) -> None:
    Path("own.csv").write_text("colour,blue\n#efe6d2,0\n#7c9cb4,1\n", encoding="utf-8")
    done = dye("--samples", "own.csv")
    assert done.code == 3
    assert "own.csv: must hold at least 3 dyed samples; got 1" in done.err


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--recipe", "{}=yellow"), "--recipe: must be dyes, each with its percentage"),
        (("--recipe", "{}=a 1% + a 2%"), "--recipe: must name each dye once"),
        (("--recipe", "{}=a 0%"), "--recipe: a must be more than 0 %"),
        (("--recipe", "{}=a 8% + b 4%"), "--depth or --recipe, depth of {}: must be at most 10 %"),
        (("--recipe", "nowhere=a 1%"), "--recipe: must be of the plan; got 'nowhere'"),
        (("--recipe", "{}=a 1%", "--depth", "{}=1%"), "--depth: must not be given for {}"),
        (("--depth", "{}=1%", "--depth", "{}=2%"), "--depth: must be given once for {}"),
        (("--depth", "{}=2"), "--depth: must be a percentage; got '2'"),
        (("--depth", "{}=0%"), "--depth: must be more than 0 %"),
        (("--skein", "25"), "--skein: must carry a unit; got '25'"),
        (("--skein", "{}=0g"), "--skein: must be more than 0"),
        (("--skein", "20g", "--skein", "30g"), "--skein: must be given once for all"),
        (("--skein", "1kg"), "--pot, largest pot: must hold a skein of"),
        (("--fibre", "warp=straw", "--undyed", "none"), "--fibre, fibre of warp"),
        (("--fibre", "hem=wool"), "--fibre: must be of the plan; got 'hem'"),
        (("--liquor-ratio", "40"), "--liquor-ratio: must be millilitres of bath for each gram"),
        (("--liquor-ratio", "0:1"), "--liquor-ratio: must be"),
        (("--stock", "nan%"), "--stock: must be a percentage"),
        (("--stock", "0.01%"), "--stock or --liquor-ratio, bath 1"),
        (("--acid", "lemon"), "--acid: must be citric or vinegar; got 'lemon'"),
        (("--vinegar", "5"), "--vinegar: must be a percentage; got '5'. Write it like 5%."),
        (("--vinegar", "0%"), "--vinegar: must be more than 0 %; got '0%'"),
        (("--vinegar", "80%"), "--vinegar: must be at most 30 % acetic acid; got 80 %. Stronger"),
        (("--fill", "3/4"), "--fill: must be a percentage; got '3/4'"),
        (("--fill", "120%"), "--fill: must be at most 100 %; got 120 %"),
        (("--reactive", "tepid"), "--reactive: must be cold or hot; got 'tepid'"),
        (("--natural", "--alum", "30%"), "--alum: must be at most 25 %"),
        (("--tartar", "5"), "--tartar: must be a percentage; got '5'"),
        (("--pot", "0l"), "--pot: must be a volume in l or ml, more than 0"),
        (("--undyed", "sky"), "--undyed: must be of the plan; got 'sky'"),
        (("--undyed", "weft"), "--undyed, dye day: must have a yarn to dye"),
        (("--undyed", "{0}", "--depth", "{0}=2%"), "--depth: must not be given for {0}, which is"),
        (("--undyed", "warp", "--recipe", "warp=a 2%"), "--recipe: must not be given for warp"),
        (("--undyed", "warp", "--undyed", "weft"), "--undyed, dye day: must have a yarn to dye"),
        (("--paper", "A9"), "--paper"),
    ],
)
def test_one_sentence_for_what_cannot_be_used(
    dye: Callable, colours: list[str], words: tuple[str, ...], said: str
) -> None:
    done = dye(*(word.format(colours[0]) for word in words), "--out", "dye.pdf")
    assert done.code == 2, done.err
    assert said.format(colours[0]) in done.err
    assert len(done.err.splitlines()) == 1
    assert done.out == ""
    assert not Path("dye.pdf").exists()


def test_hot_alkali_never_meets_wool(dye: Callable) -> None:
    done = dye("--reactive", "hot", fibre="60% wool 40% bamboo")
    assert done.code == 2
    assert "--reactive: must be cold for yarn of cellulose and protein" in done.err


@pytest.mark.parametrize(
    ("words", "idle"),
    [
        (("--alum", "12%", "--tartar", "6%"), "--alum, --tartar"),
        (("--reactive", "hot"), "--reactive"),
        (("--natural", "--acid", "vinegar", "--stock", "2%"), "--stock, --acid"),
        (("--acid", "citric", "--vinegar", "6%"), "--vinegar"),
        (("--natural", "--vinegar", "6%"), "--vinegar"),
        (("--natural", "--fibre", "weft=linen", "--alum", "12%"), "--alum"),
    ],
)
def test_what_changes_nothing_is_said(dye: Callable, words: tuple[str, ...], idle: str) -> None:
    done = dye(*words)
    assert done.code == 0, done.err
    assert f"Not used on this day: {idle}." in done.err
    assert "Not used" not in dye("--acid", "citric", "--stock", "2%").err


def test_a_page_that_is_there_is_left_alone(dye: Callable) -> None:
    Path("dye.pdf").write_bytes(b"mine")
    done = dye("--out", "dye.pdf")
    assert done.code == 3
    assert "--force" in done.err
    assert Path("dye.pdf").read_bytes() == b"mine"


def test_help_tells_every_default_and_its_example_runs(leafweft: Callable, plan_file: Path) -> None:
    from palette.dyeing import defaults

    text = squeezed(leafweft("dye", "--help").out.replace("│", " "))
    for name in set(defaults.__all__):
        default = getattr(defaults, name)
        assert default.text in text, name
        assert default.label in text, name
    example = text.partition("Example: leafweft ")[2].partition("╭")[0]
    Path("scarf").mkdir()
    shutil.copy(plan_file, "scarf/plan.json")
    done = leafweft(*shlex.split(example))
    assert done.code == 0, done.err
    assert Path("dye-day.pdf").is_file()


def test_naming_an_undyed_colour_leaves_the_warp_undyed_too(
    dye: Callable, colours: list[str]
) -> None:
    done = dye("--undyed", colours[0], "--json")
    assert set(json.loads(done.out)["undyed"]) == {colours[0], "warp"}
    done = dye("--undyed", "none", "--undyed", colours[0], "--json")
    assert json.loads(done.out)["undyed"] == [colours[0]]


def test_a_depth_for_the_warp_dyes_it(dye: Callable) -> None:
    day = json.loads(dye("--depth", "warp=2%", "--json").out)
    lots = {lot["colour"]: lot["depth_percent"] for lot in day["lots"]}
    assert (lots["warp"], day["undyed"]) == (2.0, [])


def test_a_green_warp_is_asked_about_on_the_page_too(leafweft: Callable, plan_file: Path) -> None:
    plan = json.loads(plan_file.read_text(encoding="utf-8"))
    for yarn in plan["yarn"]:
        yarn["hex"] = "#5d733a" if yarn["use"] == "warp" else yarn["hex"]
    Path("green.json").write_text(json.dumps(plan), encoding="utf-8")
    asked = "The warp is left out of this dye day, though #5d733a is no undyed white"
    done = leafweft("dye", "green.json", "--json")
    assert asked in done.err
    assert asked in json.loads(done.out)["warnings"][0]
    for word in ("warp", "none"):
        assert asked not in leafweft("dye", "green.json", "--undyed", word).err


def test_a_skein_for_what_is_not_dyed_is_said(dye: Callable) -> None:
    done = dye("--skein", "warp=200g", "--fibre", "warp=cotton")
    said = "--fibre for warp, which is not dyed, --skein for warp, which is not dyed"
    assert f"Not used on this day: {said}." in done.err
