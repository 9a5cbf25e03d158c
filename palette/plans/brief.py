"""The brief: everything that was asked, as a person keeps and edits it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Annotated, Any, Literal, Self

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PlainSerializer,
    ValidationError,
    ValidationInfo,
)

from palette.errors import BriefError, LeafweftError
from palette.measures import (
    Density,
    Length,
    Units,
    parse_density,
    parse_length,
    parse_mass,
)
from palette.plain_text import check_plain
from palette.plans.brief_faults import fault_of
from palette.plans.fibre import sett_fibre
from palette.plans.options import OPTIONS
from palette.plans.quantities import (
    check_lengths,
    read_density,
    read_length,
    read_length_or_zero,
    read_share,
    thing_of,
)
from palette.plans.setting import usual_densities
from palette.yarn.count import parse_count
from palette.yarn.packages import parse_package

__all__ = ["Brief", "BriefValue"]

BriefValue = str | int | tuple[str, ...] | None
"""What one key of a brief holds."""


def _words(value: object, info: ValidationInfo) -> tuple[str, ...]:
    words = (value,) if isinstance(value, str) else value
    if not (isinstance(words, tuple | list) and all(isinstance(word, str) for word in words)):
        remedy = 'Write it like ["one", "two"].'
        raise BriefError(thing_of(info), "must be a list of texts", got=repr(value), remedy=remedy)
    return tuple(words)


def _name(value: str, info: ValidationInfo) -> str:
    check_plain(value, thing=thing_of(info))
    return value


def _count(value: str, info: ValidationInfo) -> str:
    try:
        parse_count(value)
    except LeafweftError as error:
        rule, got, remedy = error.rule, error.got or repr(value), error.remedy
        raise type(error)(thing_of(info), rule, got=got, remedy=remedy) from error
    return value


def _skein(value: str, info: ValidationInfo) -> str:
    parse_package(value, thing=thing_of(info))
    return value


def _mass(value: str, info: ValidationInfo) -> str:
    parse_mass(value, thing=thing_of(info))
    return value


def _fibre(value: str, info: ValidationInfo) -> str:
    sett_fibre(value, thing=thing_of(info))
    return value


def _per_cent(share: float) -> str:
    return f"{share * 100:.6g}%"


_TEXT = PlainSerializer(lambda quantity: quantity.text, return_type=str)
LengthText = Annotated[Length, BeforeValidator(read_length), _TEXT]
LengthOrZeroText = Annotated[Length, BeforeValidator(read_length_or_zero), _TEXT]
DensityText = Annotated[Density, BeforeValidator(read_density), _TEXT]
ShareText = Annotated[
    float, BeforeValidator(read_share), PlainSerializer(_per_cent, return_type=str)
]
NameText = Annotated[str, AfterValidator(_name)]
CountText = Annotated[str, AfterValidator(_count)]
SkeinText = Annotated[str, AfterValidator(_skein)]
MassText = Annotated[str, AfterValidator(_mass)]
FibreText = Annotated[str, AfterValidator(_fibre)]
Words = Annotated[tuple[str, ...], BeforeValidator(_words)]


class Brief(BaseModel):
    """What was asked for one plan; made by `Brief.of`, which fills in the labelled defaults.

    Every field but the first five is a row of `palette.plans.options.OPTIONS`.
    """

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        strict=True,
        arbitrary_types_allowed=True,
        alias_generator=lambda name: name.replace("_", "-"),
    )

    photo: Words = ()
    palette: str | None = None
    stripes: str | None = None
    like: str | None = None
    cloth: tuple[dict[str, Any], ...] = ()

    colours: Annotated[int, Field(ge=1, le=64)] | Literal["auto"]
    keep: Words
    region: str | None
    mask: str | None
    leave_out: Words
    shadows: Literal["keep", "fold"]
    neutral: str | None
    light: str | None

    length: LengthText
    picks: DensityText
    order: str
    inner: str
    direction: str
    ground: str | None
    swap: Words
    repeats: Annotated[int, Field(ge=1, le=10_000)] | None
    seed: Annotated[int, Field(ge=0, le=2**63 - 1)]
    step: Annotated[int, Field(ge=1, le=1000)]
    least: Annotated[int, Field(ge=0, le=100_000)]
    most: Words
    shuttles: Annotated[int, Field(ge=1, le=64)] | None
    carry: LengthOrZeroText | None
    soft: LengthText | None
    soft_way: Literal["alternate", "between"]
    hem: LengthText | None
    hem_colour: str | None
    border: LengthText | None
    border_colour: str | None

    width: LengthText
    sett: DensityText
    shrinkage: ShareText
    shrinkage_length: ShareText | None
    shrinkage_width: ShareText | None
    draw_in: ShareText
    take_up: ShareText
    fringe: LengthOrZeroText
    gap: LengthOrZeroText
    sampling: LengthOrZeroText
    loom_waste: LengthOrZeroText
    selvedge: Annotated[int, Field(ge=0, le=100)]
    warp_stripes: Words
    shafts: Annotated[int, Field(ge=2, le=64)]
    heddles: Annotated[int, Field(ge=1, le=10_000)] | None
    treadles: Annotated[int, Field(ge=1, le=64)] | None
    longest_float: Annotated[int, Field(ge=1, le=1000)] | None
    reed: Words
    weave: str
    warp_colour: str

    weft: CountText
    warp: CountText
    fibre: FibreText
    weft_take_up: ShareText
    tail: LengthOrZeroText
    allowance: ShareText
    skein: SkeinText | None
    bobbin: MassText | None

    name: NameText | None
    units: Literal["metric", "imperial"] | None
    paper: Literal["A4", "Letter"]

    @classmethod
    def of(cls, asked: Mapping[str, object], where: Callable[[str], str] | None = None) -> Self:
        """Fill in the defaults and check every value.

        Parameters
        ----------
        asked : mapping
            Values by key, as typed: ``{"length": "180cm", "colours": 6}``.
        where : callable, optional
            From a key to how a message names it: the option, or the line of a file.

        Raises
        ------
        BriefError, UnitError, CountError
            An unknown key, a value of the wrong kind, or one out of range; the message
            names the key.

        Examples
        --------
        >>> brief = Brief.of({"length": "72 in"})
        >>> brief.length.mm, brief.width.text, brief.unit_system.value
        (1828.8, '25cm', 'imperial')
        """
        check_lengths(asked, where or str)
        filled: dict[str, object] = {key: option.default for key, option in OPTIONS.items()}
        filled["colours"] = int(str(filled["colours"]))
        filled |= {key: _frozen(value) for key, value in asked.items()}
        filled["units"] = filled["units"] or _units_typed(asked)
        for key, usual in zip(("sett", "picks"), usual_densities(filled), strict=True):
            filled[key] = usual if filled[key] is None else filled[key]
        try:
            return cls.model_validate(filled)
        except ValidationError as error:
            raise fault_of(error, where or (lambda key: key)) from None

    @property
    def unit_system(self) -> Units:
        """The system that figures are printed in."""
        return Units(self.units or "metric")

    @property
    def shrinkage_along(self) -> float:
        """Shrinkage along the cloth, a share in [0, 1)."""
        return self.shrinkage if self.shrinkage_length is None else self.shrinkage_length

    @property
    def shrinkage_across(self) -> float:
        """Shrinkage across the cloth, a share in [0, 1)."""
        return self.shrinkage if self.shrinkage_width is None else self.shrinkage_width

    @property
    def values(self) -> tuple[tuple[str, BriefValue], ...]:
        """Every key that holds something, in order, as a person would type it."""
        kept = self.model_dump(by_alias=True, exclude={"cloth"})
        return tuple((key, value) for key, value in kept.items() if value not in (None, ()))

    def changed(
        self, changes: Mapping[str, object], where: Callable[[str], str] | None = None
    ) -> Self:
        """Make the same brief with other values for some keys."""
        return self.of({**dict(self.values), "cloth": self.cloth, **changes}, where)


def _frozen(value: object) -> object:
    """Turn the lists of a file into tuples."""
    return tuple(value) if isinstance(value, list) else value


def _units_typed(asked: Mapping[str, object]) -> str | None:
    """System of the first quantity that was typed, None if none was."""
    readers: tuple[tuple[str, Callable[[str], Length | Density]], ...] = (
        ("length", parse_length),
        ("width", parse_length),
        ("picks", parse_density),
        ("sett", parse_density),
    )
    for key, read in readers:
        text = asked.get(key)
        if isinstance(text, str):
            try:
                return read(text).units.value
            except LeafweftError:
                return None  # the model says what is wrong with it
    return None
