"""The palette as a JSON file: the models, reading and writing."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from palette.errors import ContractError, LeafweftError
from palette.perception.difference import ciede2000
from palette.perception.spaces import hex_to_lab, lab_to_hex
from palette.plans.json_text import json_text, parsed
from palette.swatches.palette import Palette, PaletteSource, Swatch

__all__ = ["PaletteFile", "palette_from_json", "palette_to_json"]

Lab = tuple[float, float, float]
Hex = Annotated[str, Field(pattern=r"^#[0-9a-f]{6}$")]
Share = Annotated[float, Field(ge=0, le=1)]
_HEX_TOLERANCE = 2.0
"""CIEDE2000 between a colour's hex and its CIELAB over which the file contradicts itself."""


class _Entry(BaseModel):
    model_config = ConfigDict(extra="ignore", frozen=True, allow_inf_nan=False)


class SourceEntry(_Entry):
    """Where a palette came from."""

    photos: tuple[str, ...] = ()
    width_px: int = 0
    height_px: int = 0
    colours_asked: int | None = None
    why: str = ""
    settings: dict[str, str] = Field(default_factory=dict)


class ColourEntry(_Entry):
    """One swatch; `lab` is CIELAB D65, 2 degree observer."""

    name: Annotated[str, Field(min_length=1)]
    hex: Hex
    lab: Lab
    share: Share
    accent: bool = False
    in_srgb: bool = True
    place: tuple[float, float] = (0.5, 0.5)
    munsell: str = ""


class PaletteFile(_Entry):
    """A palette file, version 1."""

    kind: Literal["leafweft/palette"] = "leafweft/palette"
    version: Literal[1] = 1
    source: SourceEntry = Field(default_factory=SourceEntry)
    colours: Annotated[tuple[ColourEntry, ...], Field(min_length=1)]
    warnings: tuple[str, ...] = ()

    @classmethod
    def of(cls, palette: Palette) -> PaletteFile:
        """Write a palette as the entries of a file."""
        source = palette.source
        return cls(
            source=SourceEntry(
                photos=source.photos,
                width_px=source.width_px,
                height_px=source.height_px,
                colours_asked=source.colours_asked,
                why=source.why,
                settings=dict(source.settings),
            ),
            colours=tuple(
                ColourEntry(
                    name=swatch.name,
                    hex=swatch.hex,
                    lab=swatch.lab,
                    share=swatch.share,
                    accent=swatch.accent,
                    in_srgb=swatch.in_srgb,
                    place=swatch.place,
                    munsell=swatch.munsell,
                )
                for swatch in palette.swatches
            ),
            warnings=palette.warnings,
        )

    def palette(self) -> Palette:
        """Build the palette that the entries describe; raises LeafweftError if they cannot."""
        source = self.source
        for colour in self.colours:
            if not colour.in_srgb or lab_to_hex(colour.lab)[0] == colour.hex:
                continue  # as written by the program: no difference to be reckoned
            off = float(ciede2000(colour.lab, hex_to_lab(colour.hex)))
            if off > _HEX_TOLERANCE:
                remedy = "Change both, or set in_srgb to false."
                rule = "hex and lab must be the same colour"
                got = f"{colour.hex} and {colour.lab}, CIEDE2000 {off:.1f} apart"
                raise ContractError(f"colour {colour.name!r}", rule, got=got, remedy=remedy)
        return Palette(
            swatches=tuple(Swatch(**colour.model_dump()) for colour in self.colours),
            source=PaletteSource(
                photos=source.photos,
                width_px=source.width_px,
                height_px=source.height_px,
                colours_asked=source.colours_asked,
                why=source.why,
                settings=tuple(source.settings.items()),
            ),
            warnings=self.warnings,
        )


def palette_to_json(palette: Palette) -> str:
    """Write a palette by its contract; the same palette gives the same text."""
    return json_text(PaletteFile.of(palette))


def palette_from_json(text: str, *, thing: str = "palette file") -> Palette:
    """Read a palette by its contract.

    Raises
    ------
    ContractError
        Not JSON, another kind or version, a missing or wrong value, shares that do not
        sum to 1; the message names the key.
    """
    entry = parsed(PaletteFile, text, thing=thing)
    try:
        return entry.palette()
    except LeafweftError as error:
        rule = f"{error.thing}: {error.rule}"
        raise ContractError(thing, rule, got=error.got, remedy=error.remedy) from None
