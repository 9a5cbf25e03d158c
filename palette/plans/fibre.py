"""What the yarn of a plan is made of, as the rule for its sett takes it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from palette.dyeing.fibres import read_fibre
from palette.loom.fibres import Fibre, mixed_fibre

if TYPE_CHECKING:
    from palette.plans.plan import Plan

__all__ = ["fibre_of", "sett_fibre"]


def sett_fibre(text: str, *, thing: str = "fibre") -> Fibre:
    """Give Ashenhurst's constant for a fibre as it is typed.

    Parameters
    ----------
    text : str
        ``wool``, ``merino wool``, ``60% wool 40% silk``.
    thing : str
        What is being read, for the message.

    Raises
    ------
    InputError
        A fibre that is not known; the message names those that are.

    Examples
    --------
    >>> sett_fibre("merino wool").name, round(sett_fibre("60% wool 40% silk").constant, 3)
    ('wool', 0.878)
    """
    parts = read_fibre(text, thing=thing).parts
    return mixed_fibre(tuple((part.word, part.share) for part in parts))


def fibre_of(plan: Plan) -> str:
    """Fibre of the yarn of a plan as it was typed; cotton where none was."""
    return str(dict(plan.asked).get("fibre", "cotton"))
