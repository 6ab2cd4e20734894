"""What the couplings of a drop line weigh where nobody typed it: never nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import as_force
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry

SOURCE = "the heaviest usual of the trade, from memory, no published source"
USUAL_JOINT_FT = 20.0
"""Length of a joint that nobody typed, and of the joints that a plan hangs: common practice."""
_HEAVIEST = {"1": 0.6, "1-1/4": 0.7, "1-1/2": 0.9, "2": 1.9, "3": 5.3, "4": 8.0, "6": 15.0}
"""Pounds of one metal coupling by nominal size, the heaviest that is usual: no published source."""
_AS_NEXT = {"3/4": "1", "2-1/2": "3", "5": "6"}
"""Sizes of which no weight is at hand: taken as the next larger, which weighs more."""


def usual_coupling(nps: str) -> float | None:
    """Most that a metal coupling of this size usually weighs, lbf; None for a size not known."""
    return _HEAVIEST.get(_AS_NEXT.get(nps, nps))


def typed_coupling(entry: Entry) -> float | None:
    """Weight of one coupling as an entry says it, lbf; None where it does not."""
    typed = of_entry(entry, "coupling_weight")
    return as_force(typed, "coupling") if typed is not None else None
