"""The dye day: what goes into which pot."""

from __future__ import annotations

from dataclasses import dataclass

from palette.dyeing.asked import DyeAsked, DyeClass
from palette.dyeing.assistants import Assistant, Band
from palette.dyeing.cautions import Caution
from palette.dyeing.fibres import FibreContent
from palette.dyeing.recipe import RecipePart
from palette.errors import InputError

__all__ = ["Bath", "DyeDay", "DyeLot", "MordantBath", "Skeins"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Skeins:
    """Like skeins of one yarn.

    Attributes
    ----------
    use : str
        "weft" or "warp".
    count : str
        Yarn count, as named in the plan.
    needed_g : float
        What the plan asks for, its own allowance included.
    skein_g : float
        Dry mass of one skein.
    skeins : int
        Whole skeins, margin included.
    """

    use: str
    count: str
    needed_g: float
    skein_g: float
    skeins: int

    @property
    def dry_g(self) -> float:
        """Dry mass of them all."""
        return self.skeins * self.skein_g


@dataclass(frozen=True, slots=True, kw_only=True)
class DyeLot:
    """One colour on one fibre: everything that has to match.

    Attributes
    ----------
    colour, hex : str
    fibre : FibreContent
    skeins : tuple of Skeins
        Each yarn of the lot.
    dry_g : float
        Dry weight to dye: whole skeins.
    depth_percent : float
        Depth of shade; with natural dyes, dyestuff in per cent of the dry fibre.
    depth_asked : bool
        False where it is a suggestion from the lightness of the colour.
    band : {"light", "medium", "deep"}
    baths : tuple of int
        Numbers of its baths.
    """

    colour: str
    hex: str
    fibre: FibreContent
    skeins: tuple[Skeins, ...]
    dry_g: float
    depth_percent: float
    depth_asked: bool
    band: Band
    baths: tuple[int, ...] = ()

    @property
    def needed_g(self) -> float:
        """What the plan asks for."""
        return sum(each.needed_g for each in self.skeins)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bath:
    """One pot filled once.

    Attributes
    ----------
    number : int
        From 1, in the order of the lots.
    colour : str
    dye_class : {"acid", "reactive", "natural"}
    skeins : int
        Skeins in it.
    dry_g : float
        Dry weight of the yarn in it.
    fibre_g : float
        The part of it that takes this class of dye; less than `dry_g` in mixed yarn.
    depth_percent, dye_g : float
        Depth of shade, and the dye powder (or dyestuff) for it.
    stock_ml : float
        Stock solution that holds the dye; 0 with natural dyes.
    volume_ml : float
        The whole bath.
    water_ml : float
        Water to begin with: the bath without stock and vinegar.
    assistants : tuple of Assistant
    heat : str
        How it is heated, as a sentence.
    pot_ml : float
        The pot, brimful.
    round : int
        Which filling of that pot, from 1.
    dyes : tuple of RecipePart
        Each dye of a recipe, its grams and its stock solution; empty where one dye is meant.
    """

    number: int
    colour: str
    dye_class: DyeClass
    skeins: int
    dry_g: float
    fibre_g: float
    depth_percent: float
    dye_g: float
    stock_ml: float
    volume_ml: float
    water_ml: float
    assistants: tuple[Assistant, ...]
    heat: str
    pot_ml: float
    round: int = 1
    dyes: tuple[RecipePart, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a bath larger than its pot, or without goods."""
        thing = f"bath {self.number} ({self.colour})"
        if not 0 < self.fibre_g <= self.dry_g * (1 + 1e-9):
            got = f"{self.fibre_g:g} of {self.dry_g:g} g"
            raise InputError(thing, "must hold fibre that takes the dye", got=got)
        if not self.volume_ml <= self.pot_ml * (1 + 1e-9):
            got = f"{self.volume_ml:g} of {self.pot_ml:g} ml"
            raise InputError(thing, "must fit its pot", got=got)


@dataclass(frozen=True, slots=True, kw_only=True)
class MordantBath:
    """One alum bath, shared by the lots in it.

    Attributes
    ----------
    number : int
    colours : tuple of str
        Colours whose yarn is in it.
    skeins : int
    dry_g, volume_ml : float
    assistants : tuple of Assistant
    pot_ml : float
        The pot, brimful; 0 where none is chosen yet.
    round : int
        Which filling of that pot, from 1; earlier than any dye bath of its colours.
    """

    number: int
    colours: tuple[str, ...]
    skeins: int
    dry_g: float
    volume_ml: float
    assistants: tuple[Assistant, ...]
    pot_ml: float = 0.0
    round: int = 1

    def __post_init__(self) -> None:
        """Refuse a bath larger than its pot."""
        if self.pot_ml and not self.volume_ml <= self.pot_ml * (1 + 1e-9):
            got = f"{self.volume_ml:g} of {self.pot_ml:g} ml"
            raise InputError(f"mordant bath {self.number}", "must fit its pot", got=got)


@dataclass(frozen=True, slots=True, kw_only=True)
class DyeDay:
    """Everything for a day at the dye pots.

    Attributes
    ----------
    asked : DyeAsked
        What it was reckoned from.
    lots : tuple of DyeLot
        In the order of the plan.
    baths : tuple of Bath
        Bath 1 is the first of the first lot.
    mordant_baths : tuple of MordantBath
        Before the baths; natural dyes only.
    undyed : tuple of str
        Colours that keep the colour they have.
    totals : tuple of Assistant
        Everything but the dye, all baths together.
    cautions : tuple of Caution
    warnings : tuple of str
        Sentences for the dyer.
    """

    asked: DyeAsked
    lots: tuple[DyeLot, ...]
    baths: tuple[Bath, ...]
    mordant_baths: tuple[MordantBath, ...]
    undyed: tuple[str, ...]
    totals: tuple[Assistant, ...]
    cautions: tuple[Caution, ...]
    warnings: tuple[str, ...] = ()

    def __getitem__(self, colour: str) -> DyeLot:
        """First lot of this colour; KeyError if there is none."""
        for lot in self.lots:
            if lot.colour == colour:
                return lot
        raise KeyError(colour)

    def baths_of(self, lot: DyeLot) -> tuple[Bath, ...]:
        """Baths of one lot."""
        return tuple(bath for bath in self.baths if bath.number in lot.baths)

    @property
    def rounds(self) -> int:
        """How often the busiest pot is filled; 0 where nothing is dyed."""
        mordanting = [bath.round for bath in self.mordant_baths]
        return max((*mordanting, *(bath.round for bath in self.baths)), default=0)

    @property
    def dyes_to_weigh(self) -> tuple[tuple[str, float, float], ...]:
        """Every dye of the recipes: its name, grams, and ml of stock, all baths together.

        Baths without a recipe come as the dye for their colour. Where the day has acid and
        reactive dyes, the class stands behind each name: two dyes may be named alike.
        """
        several = len({bath.dye_class for bath in self.baths}) > 1
        sums: dict[str, tuple[float, float]] = {}
        for bath in self.baths:
            parts = [(part.dye, part.dye_g or 0.0, part.stock_ml or 0.0) for part in bath.dyes]
            what = "dyestuff" if bath.dye_class == "natural" else "dye"
            alone = [(f"{what} for {bath.colour}", bath.dye_g, bath.stock_ml)]
            for dye, grams, stock in parts or alone:
                name = f"{dye} ({bath.dye_class})" if several else dye
                before = sums.get(name, (0.0, 0.0))
                sums[name] = (before[0] + grams, before[1] + stock)
        return tuple((name, grams, stock) for name, (grams, stock) in sums.items())
