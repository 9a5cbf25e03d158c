"""Arrangements as the command ``choices`` prints them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING

from cli.output import table

if TYPE_CHECKING:
    from palette.measures import Units
    from palette.stripes.choices import Choice

__all__ = ["choices_json", "choices_table"]


def choices_table(choices: Sequence[Choice], units: Units) -> str:
    """Set out the arrangements by how they are made and how they are to weave."""
    from palette.measures import format_length
    from palette.stripes.handling import handling_of

    rows = []
    for choice in choices:
        handling = handling_of(choice.plan)
        rows.append(
            (
                str(choice.number),
                choice.how,
                str(len(choice.plan.stripes)),
                str(handling.most_in_play),
                str(handling.total_starts),
                format_length(handling.longest_carry_mm, units),
            )
        )
    heads = ("", "how", "stripes", "shuttles", "starts", "longest carry")
    return table(heads, rows)


def choices_json(choices: Sequence[Choice]) -> str:
    """Give the arrangements as JSON: number, how, and the stripes as colour and picks."""
    content = [
        {
            "number": choice.number,
            "how": choice.how,
            "stripes": [[stripe.colour, stripe.picks] for stripe in choice.plan.stripes],
        }
        for choice in choices
    ]
    return json.dumps(content, indent=1, ensure_ascii=False)
