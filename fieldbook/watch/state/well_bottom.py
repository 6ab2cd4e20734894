"""How deep the well is: fill comes up in it, so a bottom that was tagged goes before the record."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.watch.state.facts import Facts

_TAGGED_IN = ("setting", "pump_out", "well")
"""What a bottom is written with when it was tagged, the latest of a job first."""


class Bottom(NamedTuple):
    """The bottom of the well.

    Attributes:
        depth: Depth below the datum of the well; None where a figure is missing.
        tagged: Whether it was found there, and is not only on the record.
    """

    depth: Quantity | None
    tagged: bool


def bottom(facts: Facts) -> Bottom:
    """The bottom as tagged, else by the record; what is missing is noted in `facts`."""
    for kind in _TAGGED_IN:
        if (tagged := facts.get(kind, "tagged_depth")) is not None:
            return Bottom(tagged, tagged=True)
    return Bottom(on_record(facts), tagged=False)


def on_record(facts: Facts) -> Quantity | None:
    """The bottom by the record, on the datum; its absence is noted in `facts`.

    A depth on the record is counted from the ground, a tagged one from the datum. Where the casing
    is above the ground nobody knows how far, the bottom is no nearer than the record says.
    """
    depth = facts.need("well", "well_depth")
    if depth is not None and facts.words("well", "datum") == "top of casing":
        stick_up = facts.get("well", "stick_up")
        return depth + stick_up if stick_up is not None else depth
    return depth
