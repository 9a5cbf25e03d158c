import pytest

from palette.errors import ContractError
from palette.plans.json_text import kind_of, parsed
from palette.plans.palette_contract import PaletteFile

GOOD = (
    '{"kind": "leafweft/palette", "version": 1, "colours": '
    '[{"name": "moss", "hex": "#5d733a", "lab": [45.54, -15.88, 29.14], "share": 1.0}]}'
)


def test_kind_is_read() -> None:
    assert kind_of(GOOD, thing="p.json") == "leafweft/palette"


@pytest.mark.parametrize("text", ["", "{", "not json", "[1, 2"])
def test_text_that_is_no_json_is_refused(text: str) -> None:
    with pytest.raises(ContractError, match=r"p\.json: must be JSON; got "):
        kind_of(text, thing="p.json")


@pytest.mark.parametrize("text", ["[]", "{}", "3", '{"kind": 3}', "null"])
def test_json_without_a_kind_is_refused(text: str) -> None:
    with pytest.raises(ContractError, match="must say its kind, leafweft/palette or leafweft/plan"):
        kind_of(text, thing="p.json")


def test_another_kind_is_refused() -> None:
    with pytest.raises(ContractError, match="must be a leafweft/palette file; got leafweft/plan"):
        parsed(PaletteFile, GOOD.replace("/palette", "/plan"), thing="p.json")


@pytest.mark.parametrize("version", ["2", "0", '"1"', "null"])
def test_another_version_is_refused_kindly(version: str) -> None:
    text = GOOD.replace('"version": 1', f'"version": {version}')
    with pytest.raises(ContractError, match=r"version must be 1; got .* or make it anew"):
        parsed(PaletteFile, text, thing="p.json")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ('"share": 1.0', '"share": "x"', "colours number 1 share: must be a number"),
        ('"share": 1.0', '"share": NaN', "share: must be a finite number"),
        ('"#5d733a"', '"5d733a"', "colours number 1 hex: string should match pattern"),
        ('"name": "moss", ', "", "colours number 1 name: must be there"),
    ],
)
def test_a_wrong_value_is_named(old: str, new: str, said: str) -> None:
    with pytest.raises(ContractError, match=said):
        parsed(PaletteFile, GOOD.replace(old, new), thing="p.json")


def test_unknown_keys_are_tolerated() -> None:
    text = GOOD.replace('"version": 1', '"version": 1, "later": true')
    assert parsed(PaletteFile, text, thing="p.json").colours[0].name == "moss"
