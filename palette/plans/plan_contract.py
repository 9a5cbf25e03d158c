"""The plan as a JSON file: reading and writing."""

from __future__ import annotations

from typing import TypeVar

from palette.errors import ContractError, LeafweftError
from palette.loom.chains import WarpStripe
from palette.loom.draft import Draft
from palette.loom.sley import Sley
from palette.loom.warp import Warp
from palette.plans.entries_contract import (
    AnyEntry,
    ClothEntry,
    DraftEntry,
    PlanFile,
    SleyEntry,
    StripeEntry,
    WarpEntry,
    WarpStripeEntry,
    WeftEntry,
    YarnEntry,
)
from palette.plans.json_text import json_text, parsed
from palette.plans.palette_contract import PaletteFile
from palette.plans.plan import Plan
from palette.stripes.plan import Stripe, StripePlan
from palette.yarn.amounts import YarnAmount

__all__ = ["PlanFile", "plan_from_json", "plan_to_json"]

Entry = TypeVar("Entry", bound=AnyEntry)


def _entry(model: type[Entry], value: object) -> Entry:
    """Copy a value's fields into the entry that has the same ones."""
    return model(**{name: getattr(value, name) for name in model.model_fields})


def _cloth_entry(cloth: StripePlan) -> ClothEntry:
    mm_per_pick = 10 / cloth.picks_per_cm
    kept = 1 - cloth.shrinkage_length
    return ClothEntry(
        palette=PaletteFile.of(cloth.palette),
        weft=WeftEntry(
            cloth=cloth.name,
            picks_per_cm=cloth.picks_per_cm,
            total_picks=cloth.total_picks,
            step=cloth.step,
            least=cloth.least,
            finished_length_mm=cloth.finished_length_mm,
            woven_length_mm=cloth.woven_length_mm,
            true_finished_length_mm=cloth.true_finished_length_mm,
            shrinkage_length=cloth.shrinkage_length,
            order=cloth.order,
            seed=cloth.seed,
            carry_picks=cloth.carry_picks,
            shuttles=cloth.shuttles,
            repeat_stripes=cloth.repeat_stripes,
            warnings=cloth.warnings,
        ),
        stripes=tuple(
            StripeEntry(
                colour=stripe.colour,
                hex=stripe.hex,
                lab=stripe.lab,
                picks=stripe.picks,
                first_pick=stripe.first_pick,
                last_pick=stripe.last_pick,
                woven_mm=stripe.picks * mm_per_pick,
                finished_mm=stripe.picks * mm_per_pick * kept,
                role=stripe.role,
            )
            for stripe in cloth.stripes
        ),
    )


def _cloth(entry: ClothEntry) -> StripePlan:
    stripes = tuple(
        Stripe(
            colour=stripe.colour,
            hex=stripe.hex,
            lab=stripe.lab,
            picks=stripe.picks,
            first_pick=stripe.first_pick,
            role=stripe.role,
        )
        for stripe in entry.stripes
    )
    for number, (stripe, given) in enumerate(zip(stripes, entry.stripes, strict=True), 1):
        if stripe.last_pick != given.last_pick:
            rule = f"last_pick must be {stripe.last_pick}, first_pick and picks being what they are"
            raise ContractError(
                f"stripe {number} ({stripe.colour})", rule, got=f"{given.last_pick}"
            )
    return StripePlan(
        palette=entry.palette.palette(),
        stripes=stripes,
        picks_per_cm=entry.weft.picks_per_cm,
        finished_length_mm=entry.weft.finished_length_mm,
        shrinkage_length=entry.weft.shrinkage_length,
        step=entry.weft.step,
        least=entry.weft.least,
        order=entry.weft.order,
        seed=entry.weft.seed,
        carry_picks=entry.weft.carry_picks,
        shuttles=entry.weft.shuttles,
        repeat_stripes=entry.weft.repeat_stripes,
        name=entry.weft.cloth,
        warnings=entry.weft.warnings,
    )


def plan_to_json(plan: Plan) -> str:
    """Write a plan by its contract; the same plan gives the same text."""
    first, *more = (_cloth_entry(cloth) for cloth in plan.cloths)
    warp = plan.warp
    entry = PlanFile(
        name=plan.name,
        units=plan.units,
        palette=first.palette,
        weft=first.weft,
        stripes=first.stripes,
        more_cloths=tuple(more),
        warp=WarpEntry(
            colour="warp",
            hex=plan.warp_hex,
            lab=plan.warp_lab,
            **{name: getattr(warp, name) for name in WARP_FIELDS},
        ),
        draft=_entry(DraftEntry, plan.draft),
        sley=_entry(SleyEntry, plan.sley) if plan.sley else None,
        warp_stripes=tuple(_entry(WarpStripeEntry, stripe) for stripe in plan.warp_stripes),
        yarn=tuple(_entry(YarnEntry, yarn) for yarn in plan.yarns),
        brief=dict(plan.asked),
        warnings=plan.warnings,
    )
    return json_text(entry)


WARP_FIELDS = tuple(name for name in WarpEntry.model_fields if name not in ("colour", "hex", "lab"))


def plan_from_json(text: str, *, thing: str = "plan file") -> Plan:
    """Read a plan by its contract.

    Raises
    ------
    ContractError
        Not JSON, another kind or version, a missing or wrong value, stripes with gaps;
        the message names the key or the stripe.
    """
    entry = parsed(PlanFile, text, thing=thing)
    first = ClothEntry(palette=entry.palette, weft=entry.weft, stripes=entry.stripes)
    try:
        return Plan(
            name=entry.name,
            cloths=tuple(_cloth(cloth) for cloth in (first, *entry.more_cloths)),
            warp=Warp(**{name: getattr(entry.warp, name) for name in WARP_FIELDS}),
            yarns=tuple(YarnAmount(**yarn.model_dump()) for yarn in entry.yarn),
            units=entry.units,
            draft=Draft(**entry.draft.model_dump()),
            sley=Sley(**entry.sley.model_dump()) if entry.sley else None,
            warp_stripes=tuple(WarpStripe(**each.model_dump()) for each in entry.warp_stripes),
            warp_lab=entry.warp.lab,
            warp_hex=entry.warp.hex,
            asked=tuple(entry.brief.items()),
            warnings=entry.warnings,
        )
    except LeafweftError as error:
        rule = f"{error.thing}: {error.rule}"
        raise ContractError(thing, rule, got=error.got, remedy=error.remedy) from None
