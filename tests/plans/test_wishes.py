import pytest

from palette.errors import InputError
from palette.plans.brief import Brief
from palette.plans.wishes import edges_of, most_of, picks_in, reeds_of, soft_of, warp_stripes_of
from palette.swatches.palette import Palette


def test_picks_are_whole_and_within_the_length() -> None:
    assert picks_in(25.0, 8.0) == 20
    assert picks_in(24.9, 8.0) == 19
    assert picks_in(25.4 * 3, 20 / 2.54) == 60


def test_a_soft_change_is_measured_finished() -> None:
    brief = Brief.of({"soft": "9cm", "picks": "8/cm", "shrinkage": "10%"})
    assert soft_of(brief).picks == 80
    assert soft_of(Brief.of({})) is None


def test_a_hem_takes_a_palette_colour_or_a_yarn_of_its_own(hedge: Palette) -> None:
    hem, border = edges_of(
        Brief.of({"hem": "3cm", "hem-colour": "moss", "border": "2cm", "border-colour": "#111111"}),
        hedge,
    )
    assert (hem.role, hem.colour, hem.hex, hem.length_mm) == ("hem", "moss", "", 30.0)
    assert (border.role, border.colour, border.hex) == ("border", "border yarn", "#111111")


def test_a_hem_of_no_known_colour_is_refused(hedge: Palette) -> None:
    with pytest.raises(InputError, match="hem-colour: must be a colour; got 'nowhere'"):
        edges_of(Brief.of({"hem": "3cm", "hem-colour": "nowhere"}), hedge)


def test_most_reads_colours_with_an_equals_sign_in_their_name() -> None:
    assert most_of(Brief.of({"most": ["moss=120", "a=b=8"]})) == {"moss": 120, "a=b": 8}


@pytest.mark.parametrize("word", ["moss", "moss=", "=12", "moss=1.5", "moss=-3"])
def test_most_refuses_what_is_no_pair(word: str) -> None:
    with pytest.raises(InputError, match="most: must be a colour and a number; got "):
        most_of(Brief.of({"most": [word]}))


def test_warp_stripes_by_name_and_by_code(hedge: Palette) -> None:
    stripes = warp_stripes_of(Brief.of({"warp-stripes": ["moss=12", "#ffffff=4"]}), hedge)
    assert [(stripe.colour, stripe.hex, stripe.ends) for stripe in stripes] == [
        ("moss", "#5d733a", 12),
        ("#ffffff", "#ffffff", 4),
    ]


def test_reeds_in_both_systems() -> None:
    inch, metric = reeds_of(Brief.of({"reed": ["10/in", "40/10cm"]}))
    assert inch == pytest.approx(10 / 2.54)
    assert metric == pytest.approx(4.0)
