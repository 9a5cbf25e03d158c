from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from palette.stripes.weft import Piece, Weft, join_pieces, number_picks
from palette.swatches.palette import Palette

WEFTS = [Weft(name, "#777777", (50.0, 0.0, 0.0)) for name in "abc"]
PIECES = st.lists(
    st.builds(
        Piece,
        st.sampled_from(WEFTS),
        st.integers(0, 9),
        st.sampled_from(["stripe", "blend", "hem"]),
    ),
    max_size=9,
)


@given(PIECES)
def test_joining_keeps_every_pick_in_its_place(pieces: list[Piece]) -> None:
    joined = join_pieces(pieces)
    assert [p[::2] for p in joined for _ in range(p.picks)] == [
        p[::2] for p in pieces for _ in range(p.picks)
    ]
    assert all(a[::2] != b[::2] for a, b in pairwise(joined))
    assert all(piece.picks for piece in joined)


@given(PIECES)
def test_picks_are_numbered_without_a_gap(pieces: list[Piece]) -> None:
    stripes = number_picks(join_pieces(pieces))
    thrown = [pick for s in stripes for pick in range(s.first_pick, s.last_pick + 1)]
    assert thrown == list(range(1, sum(piece.picks for piece in pieces) + 1))


def test_weft_of_a_swatch_is_its_yarn(pair: Palette) -> None:
    moss = pair["moss"]
    assert Weft.of(moss) == ("moss", moss.hex, moss.lab)
