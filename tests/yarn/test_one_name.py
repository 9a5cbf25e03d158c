"""Several cloths on one warp: every yarn under one name, and every name one yarn."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab
from palette.stripes.plan import StripePlan
from palette.stripes.weft import Piece, Weft, number_picks
from palette.swatches.palette import Palette, Swatch
from palette.yarn.one_name import SAME_YARN, YarnNames, joined_cloths


def cloth_of(name: str, *colours: tuple[str, str], hem: tuple[str, str] | None = None):
    """A cloth of one stripe in each colour, each given as (name, hex)."""
    swatches = tuple(
        Swatch(name=colour, lab=hex_to_lab(code), hex=code, share=1 / len(colours))
        for colour, code in colours
    )
    pieces = [Piece(Weft.of(swatch), 10) for swatch in swatches]
    if hem is not None:
        pieces.insert(0, Piece(Weft(hem[0], hem[1], hex_to_lab(hem[1])), 6, "hem"))
    return StripePlan(
        palette=Palette(swatches=swatches),
        stripes=number_picks(pieces),
        picks_per_cm=8,
        finished_length_mm=100,
        name=name,
    )


def yarns_in(cloth: StripePlan) -> dict[str, str]:
    return {stripe.colour: stripe.hex for stripe in cloth.stripes}


def test_two_colours_of_one_name_are_two_yarns():
    autumn = cloth_of("towel 1", ("pine", "#42583b"), ("squash", "#dca841"))
    spring = cloth_of("towel 3", ("pine", "#38523b"), ("squash", "#dca841"))
    first, second = joined_cloths((autumn, spring))
    assert first == autumn
    assert yarns_in(second) == {"second pine": "#38523b", "squash": "#dca841"}
    assert [swatch.name for swatch in second.palette.swatches] == ["second pine", "squash"]
    assert second.warnings == ("pine is not the pine of towel 1, so it is called second pine.",)


def test_practically_one_colour_is_one_yarn():
    first, second = joined_cloths(
        (cloth_of("towel 1", ("clay", "#b26742")), cloth_of("towel 2", ("earth", "#b16641")))
    )
    assert yarns_in(second) == yarns_in(first) == {"clay": "#b26742"}
    assert second.palette["clay"].lab == first.palette["clay"].lab
    assert second.warnings == ("earth is practically the clay of towel 1: one yarn, called clay.",)


def test_of_two_that_are_near_the_one_of_that_name_is_the_yarn():
    first = cloth_of("1", ("clay", "#b26742"))
    second = cloth_of("2", ("earth", "#b26742"), ("clay", "#b16641"))
    _, joined = joined_cloths((first, second))
    assert yarns_in(joined) == {"earth": "#b26742", "clay": "#b26742"}


def test_colours_of_one_cloth_stay_apart():
    cloth = cloth_of("", ("clay", "#b26742"), ("earth", "#b16641"))
    assert joined_cloths((cloth,)) == (cloth,)


def test_one_name_for_two_yarns_of_one_cloth_is_counted():
    cloth = cloth_of("towel", ("white", "#ffffff"), hem=("white", "#d0c8b0"))
    (joined,) = joined_cloths((cloth,))
    assert yarns_in(joined) == {"white": "#ffffff", "second white": "#d0c8b0"}


def test_hems_of_their_own_are_yarns_too():
    first = cloth_of("1", ("pine", "#42583b"), hem=("hem yarn", "#ffffff"))
    other = cloth_of("2", ("pine", "#42583b"), hem=("hem yarn", "#808080"))
    same = cloth_of("3", ("chalk", "#ffffff"), ("pine", "#42583b"))
    joined = joined_cloths((first, other, same))
    assert list(yarns_in(joined[1])) == ["second hem yarn", "pine"]
    assert list(yarns_in(joined[2])) == ["hem yarn", "pine"]


def test_a_name_is_never_given_twice():
    first = cloth_of("1", ("pine", "#42583b"), ("second pine", "#dca841"))
    second = cloth_of(
        "2", ("pine", "#38523b"), ("second pine", "#d05f92"), ("fourth pine", "#aac356")
    )
    _, joined = joined_cloths((first, second))
    assert list(yarns_in(joined)) == ["third pine", "fifth pine", "fourth pine"]


def test_there_is_always_a_name_left():
    cloths = [cloth_of(str(n), ("grey", f"#{n:02x}{n:02x}{n:02x}")) for n in range(10, 250, 20)]
    names = [next(iter(yarns_in(cloth))) for cloth in joined_cloths(cloths)]
    assert names[1:3] + names[8:] == ["second grey", "third grey", "ninth grey"] + [
        f"{number}th grey" for number in (10, 11, 12)
    ]


def test_a_palette_is_named_before_its_cloth_is_planned():
    yarns = YarnNames()
    yarns.cloth(cloth_of("1", ("pine", "#42583b"), ("clay", "#b26742")))
    spring = cloth_of("2", ("pine", "#38523b"), ("earth", "#b16641"))
    palette, names = yarns.palette(spring.palette, "2")
    assert names == {"pine": "second pine", "earth": "clay"}
    assert [swatch.share for swatch in palette.swatches] == [0.5, 0.5]
    assert len(palette.warnings) == 2
    stripes = number_picks([Piece(Weft.of(swatch), 10) for swatch in palette.swatches])
    planned = replace(spring, palette=palette, stripes=stripes)
    assert yarns.cloth(planned) == planned  # nothing is said twice


HEXES = st.sampled_from(["#42583b", "#38523b", "#43593c", "#b26742", "#b16641", "#ffffff"])


@given(
    st.lists(
        st.lists(
            st.tuples(st.sampled_from(["pine", "second pine", "clay"]), HEXES), min_size=1
        ).map(lambda colours: tuple(dict(colours).items())),
        min_size=1,
        max_size=4,
    )
)
def test_every_name_is_one_colour_and_every_colour_of_two_cloths_one_name(several):
    before = [cloth_of(str(number), *colours) for number, colours in enumerate(several, 1)]
    after = joined_cloths(before)
    hexes = {}
    for was, now in zip(before, after, strict=True):
        assert [stripe.picks for stripe in was.stripes] == [stripe.picks for stripe in now.stripes]
        assert len(yarns_in(now)) == len(yarns_in(was))
        for old, new in zip(was.stripes, now.stripes, strict=True):
            assert float(ciede2000(old.lab, new.lab)) <= SAME_YARN
            assert hexes.setdefault(new.colour, new.hex) == new.hex
    assert joined_cloths(after) == after


@pytest.mark.parametrize(("apart", "one"), [(0.9, True), (1.1, False)])
def test_the_least_difference_that_is_seen_tells_yarns_apart(apart, one):
    """CIEDE2000 of greys about L 50 is nearly the difference in lightness (Sharma 2005, eq. 15)."""
    grey = cloth_of("1", ("grey", "#777777"))
    lab = (grey.palette["grey"].lab[0] + apart, *grey.palette["grey"].lab[1:])
    swatch = replace(grey.palette["grey"], name="slate", lab=lab, hex="#7a7a7a")
    other = replace(
        grey,
        name="2",
        palette=Palette(swatches=(swatch,)),
        stripes=number_picks([Piece(Weft.of(swatch), 10)]),
    )
    assert (yarns_in(joined_cloths((grey, other))[1]) == yarns_in(grey)) is one
