"""The water outside the string while it is lifted: at rest, for the pump does not run then."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.units import magnitude, quantity
from fieldbook.quantities.convert import show
from fieldbook.record.levels import at_rest, is_at_rest
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job


@dataclass(frozen=True, slots=True)
class Outside:
    """A level that a load may be computed with.

    Attributes:
        level: Depth to water below the datum of the well.
        state: "static", "pumping" or "recovering", as the crew wrote it; empty where nobody said.
    """

    level: Quantity
    state: str

    @property
    def is_at_rest(self) -> bool:
        """Whether the well stood at rest, or nobody wrote otherwise."""
        return is_at_rest(self.state)

    @property
    def words(self) -> str:
        """Which level it is, for those who read a load that rests on it."""
        said = f"water at {show(self.level, 'ft', 1)}"
        if not self.state:
            return f"{said}, taken as static"
        return f"{said}, {self.state}{'' if self.is_at_rest else ': no static level is written'}"


def outside(levels: Sequence[Entry]) -> Outside | None:
    """The level to expect the load at: the newest at rest, else the newest of all; None of none.

    A pumping level says how far a running pump had drawn the well down. The string that is lifted
    does not pump, and the well comes back.

    Args:
        levels: `level` entries in the order of the log.
    """
    for entry in reversed(at_rest(levels) or levels):
        level = of_entry(entry, "water_level")
        if level is not None:
            return Outside(level, entry.text("level_state"))
    return None


def deepest(job: Job) -> tuple[Quantity | None, bool]:
    """The deepest the water may stand during the lift, and whether a reading proved it deeper.

    It is the crew's to say. A level read at rest below it proves it wrong, and so does any that was
    read later; one that was pumped before they said it is for them to weigh.

    Returns:
        The level, None where nobody said one; and whether it is a reading that goes deeper.
    """
    said = next((e for e in reversed(job.live("well")) if "deepest_level" in e.values), None)
    stated = of_entry(said, "deepest_level") if said is not None else None
    if said is None or stated is None:
        return None, False
    feet = [
        magnitude(level, "ft", "water level")
        for entry in job.live("level")
        if is_at_rest(entry.text("level_state")) or entry.order > said.order
        if (level := of_entry(entry, "water_level")) is not None
    ]
    least = magnitude(stated, "ft", "deepest level")
    if not feet or max(feet) <= least:
        return stated, False
    return quantity(max(feet), "ft"), True
