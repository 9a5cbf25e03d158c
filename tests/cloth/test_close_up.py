import numpy as np
import pytest

from palette.cloth.beside import usual_wefts, wefts_beside
from palette.cloth.close_up import CloseUp, close_up
from palette.cloth.weft_yarns import MarledYarn, PlainYarn
from palette.cloth.woven_colour import woven_colour
from palette.errors import InputError
from palette.loom.draft import Draft
from palette.perception.spaces import hex_to_lab, lab_to_srgb8
from palette.swatches.palette import Palette, Swatch

WHITE = (97.0, 0.0, 0.0)
RED, BLUE = hex_to_lab("#c01818"), hex_to_lab("#1828c0")
ONE_THREE = Draft(
    name="1/3 twill",
    threading=(1, 2, 3, 4),
    tie_up=((1,), (2,), (3,), (4,)),
    treadling=(1, 2, 3, 4),
)


def redder(pixels):
    """Where a picture of red warp and blue weft shows warp."""
    return pixels[..., 0].astype(int) > pixels[..., 2]


@pytest.fixture
def blue(plan):
    """A cloth with a blue weft and its yarns."""
    return plan([("moss", 160)]), {"moss": PlainYarn(lab=BLUE)}


def test_it_prints_at_true_size(plan, warp):
    view = CloseUp(width_mm=25.4, height_mm=50.8)
    pixels = close_up(plan([("moss", 160)]), warp, WHITE, warp_tex=150, weft_tex=150, view=view)
    assert pixels.shape == (600, 300, 3)  # 1 x 2 inches at 300 dots
    assert pixels.dtype == np.uint8


def test_threads_interlace_by_the_draft(blue, warp):
    cloth, yarns = blue
    view = CloseUp(width_mm=20, height_mm=20, dpi=600)
    for draft, up in ((None, ((1, 0), (0, 1))), (ONE_THREE, np.eye(4, dtype=int))):
        choice = {} if draft is None else {"draft": draft}
        pixels = close_up(
            cloth, warp, RED, warp_tex=200, weft_tex=200, yarns=yarns, view=view, **choice
        )
        warp_on_top = redder(pixels)
        dots = 600 / 25.4
        for pick in range(12):
            for end in range(12):
                row = pixels.shape[0] - round((pick + 0.5) * 9 / 8 * dots)
                column = pixels.shape[1] - round((end + 0.5) * 10 / 8 * dots)
                size = len(up)
                assert warp_on_top[row, column] == bool(up[pick % size][end % size])


def test_thicker_weft_shows_more(blue, warp):
    cloth, yarns = blue
    view = CloseUp(width_mm=25, height_mm=25)
    shares = [
        redder(
            close_up(cloth, warp, RED, warp_tex=150, weft_tex=tex, yarns=yarns, view=view)
        ).mean()
        for tex in (80, 150, 300)
    ]
    assert shares[0] > shares[1] > shares[2]


def test_threads_are_round_and_not_all_alike(blue, warp):
    cloth, yarns = blue
    view = CloseUp(width_mm=20, height_mm=20)
    pixels = close_up(cloth, warp, RED, warp_tex=200, weft_tex=200, yarns=yarns, view=view)
    red = pixels[..., 0][redder(pixels)]
    assert np.percentile(red, 95) > 1.3 * np.percentile(red, 10)
    other = CloseUp(width_mm=20, height_mm=20, seed=1)
    again = close_up(cloth, warp, RED, warp_tex=200, weft_tex=200, yarns=yarns, view=view)
    assert np.array_equal(pixels, again)
    assert not np.array_equal(
        pixels, close_up(cloth, warp, RED, warp_tex=200, weft_tex=200, yarns=yarns, view=other)
    )


def test_a_marl_shows_both_plies(plan, warp):
    marl = {"moss": MarledYarn(first_lab=RED, second_lab=BLUE)}
    view = CloseUp(width_mm=20, height_mm=20)
    pixels = close_up(
        plan([("moss", 60)]), warp, WHITE, warp_tex=100, weft_tex=300, yarns=marl, view=view
    ).astype(int)
    red_part = ((pixels[..., 0] - pixels[..., 2]) > 60).mean()
    blue_part = ((pixels[..., 2] - pixels[..., 0]) > 60).mean()
    assert red_part > 0.1
    assert red_part == pytest.approx(blue_part, rel=0.25)


def test_stripes_lie_from_below(plan, warp):
    cloth = plan([("moss", 10), ("rust", 10)])
    view = CloseUp(width_mm=10, height_mm=22.5)
    pixels = close_up(cloth, warp, WHITE, warp_tex=150, weft_tex=150, view=view).astype(int)
    half = len(pixels) // 2
    warmth = (pixels[..., 0] - pixels[..., 1]).mean(axis=1)
    assert warmth[:half].mean() > 5 > warmth[half:].mean()


def test_a_piece_no_larger_than_the_cloth(plan, warp):
    view = CloseUp(width_mm=60, height_mm=60, first_end=41, first_pick=71)
    pixels = close_up(plan([("moss", 80)]), warp, WHITE, warp_tex=150, weft_tex=150, view=view)
    assert pixels.shape[:2] == (round(10 * 9 / 8 * 300 / 25.4), round(50 * 300 / 25.4))


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ({"width_mm": 0}, r"close-up width_mm: must be more than 0; got 0"),
        ({"height_mm": float("nan")}, r"close-up height_mm: must be more than 0; got nan"),
        ({"width_mm": 5000, "height_mm": 5000}, r"close-up: must fit on a sheet of paper"),
    ],
)
def test_sizes_that_cannot_be_drawn(values, message):
    with pytest.raises(InputError, match=message):
        CloseUp(**values)


def test_a_piece_beyond_the_cloth(plan, warp):
    message = r"must begin within 80 ends and 20 picks; got end 1, pick 21"
    with pytest.raises(InputError, match=message):
        close_up(
            plan([("moss", 20)]),
            warp,
            WHITE,
            warp_tex=150,
            weft_tex=150,
            view=CloseUp(first_pick=21),
        )


def test_wefts_beside_each_other(warp):
    swatch = Swatch(name="rust", lab=(46.0, 26.0, 47.0), hex="#a3522b", share=1.0)
    wefts = usual_wefts(Palette(swatches=(swatch,)))
    assert [name for name, _ in wefts] == ["white", "natural", "black", "rust"]
    pixels, panels = wefts_beside(
        wefts, warp, WHITE, picks_per_cm=8, warp_tex=150, weft_tex=150, panel_mm=10, in_a_row=3
    )
    assert [panel.woven.colour for panel in panels] == ["white", "natural", "black", "rust"]
    for panel, (_, lab) in zip(panels, wefts, strict=True):
        bottom, right = panel.top + panel.height, panel.left + panel.width
        assert bottom < pixels.shape[0]
        assert right < pixels.shape[1]
        woven = lab_to_srgb8(woven_colour(WHITE, lab)[0])
        assert pixels[bottom - 3, right - 3].tolist() == woven.tolist()
        near = pixels[panel.top : panel.top + panel.height // 2, panel.left : right]
        assert near.std() > 8
    assert panels[3].left == panels[0].left
    assert panels[3].top > panels[0].top


def test_names_do_not_clash_with_the_palette():
    swatch = Swatch(name="black", lab=(20.0, 0.0, 0.0), hex="#303030", share=1.0)
    names = [name for name, _ in usual_wefts(Palette(swatches=(swatch,)))]
    assert names == ["white", "natural", "black yarn", "black"]


def test_wefts_beside_refuses(warp):
    with pytest.raises(InputError, match=r"wefts: must be at least one; got none"):
        wefts_beside([], warp, WHITE, picks_per_cm=8, warp_tex=150, weft_tex=150)
    with pytest.raises(InputError, match=r"wefts in a row: must be at least 1; got 0"):
        wefts_beside(
            [("white", WHITE)], warp, WHITE, picks_per_cm=8, warp_tex=150, weft_tex=150, in_a_row=0
        )
