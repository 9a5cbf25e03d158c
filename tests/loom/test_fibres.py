import pytest

from palette.errors import InputError
from palette.loom.fibres import FIBRES, mixed_fibre


@pytest.mark.parametrize(
    ("fibre", "lowest", "highest"),
    [
        ("worsted", 0.90, 0.90),
        ("woollen", 0.84, 0.86),
        ("cotton", 0.91, 0.95),
        ("silk", 0.91, 0.92),
    ],
)
def test_constants_by_fibre_are_within_what_authors_print(fibre, lowest, highest):
    """Ashenhurst as weavers' notes restate him; Taylor, Cotton Weaving and Designing, 0.95."""
    assert lowest <= FIBRES[fibre].constant <= highest


@pytest.mark.parametrize(
    ("fibre", "less"), [("worsted", 0.10), ("woollen", 0.15), ("cotton", 0.08), ("silk", 0.08)]
)
def test_constants_as_deductions_from_the_root(fibre, less):
    """Weavers' notes: worsted 10 % less than the root, woollen 15 to 16 %, cotton and silk 8 %."""
    assert 1 - FIBRES[fibre].constant == pytest.approx(less)


def test_every_constant_says_where_it_is_from():
    assert all(
        fibre.label.startswith(("Ashenhurst", "common practice")) for fibre in FIBRES.values()
    )


def test_a_mixture_lies_between_its_fibres_and_one_fibre_is_itself():
    assert mixed_fibre((("wool", 1.0),)) is FIBRES["wool"]
    mixed = mixed_fibre((("wool", 0.25), ("silk", 0.75)))
    assert mixed.constant == pytest.approx(0.25 * 0.85 + 0.75 * 0.92)
    assert mixed.name == "wool and silk"
    assert "common practice" in mixed.label


def test_refusals():
    with pytest.raises(InputError, match=r"fibre: must be one of cotton, .*; got 'plastic'"):
        mixed_fibre((("plastic", 1.0),))
    with pytest.raises(InputError, match="fibre: shares must sum to 100 %; got 90 %"):
        mixed_fibre((("wool", 0.5), ("silk", 0.4)))
