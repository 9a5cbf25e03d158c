"""Names hold what can be shown, in every script; what a terminal obeys is refused."""

import pytest

from palette.errors import InputError
from palette.plain_text import check_plain, plain


@pytest.mark.parametrize("name", ["moss green", "Fjäll", "松葉", "🌿", "e\u0301", "\u0627\u062e"])
def test_names_of_every_script_stay(name: str) -> None:
    check_plain(name, thing="swatch")
    assert plain(name) == name


@pytest.mark.parametrize("sign", ["\0", "\n", "\t", "\x1b", "\x7f", "\x9b", "\u202e", "\udc80"])
def test_what_cannot_be_shown_is_refused_or_left_out(sign: str) -> None:
    with pytest.raises(InputError, match="swatch: name must hold no control characters; got 'a"):
        check_plain(f"a{sign}b", thing="swatch")
    assert plain(f"a{sign}b{sign}") == "a b"
