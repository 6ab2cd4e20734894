"""Where the pump is wanted, and between which depths the well itself has room for it."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from calc.units import magnitude, quantity
from fieldbook.watch.planner.known import Known, known, unknown
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.well_bottom import bottom

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job

SUBMERGENCE = quantity(10.0, "ft")
"""Least water over the intake while pumping: South Dakota ARSD 74:02:04:60."""
CLEARANCE = quantity(10.0, "ft")
"""Least room under the motor: common practice, no published source."""
_SOURCES = {"setting": "as planned", "prior": "as it was last set"}


class Room(NamedTuple):
    """Depths of the intake, below the datum.

    Attributes:
        least: Ten feet of water over it at the pumping level.
        most: Ten feet of room under the motor.
    """

    least: Known[Quantity]
    most: Known[Quantity]


def room_in(job: Job, level: Known[Quantity]) -> Room:
    """What the well allows, whatever hangs in it."""
    least: Known[Quantity] = unknown(*level.missing)
    if level.value is not None:
        how = "10 ft of water over it (South Dakota 74:02:04:60)"
        least = known(level.value + SUBMERGENCE, how)
    facts = Facts(job)
    length, below = facts.need("pump", "pump_length"), facts.need("pump", "intake_below")
    found = bottom(facts)
    if found.depth is None or length is None or below is None:
        return Room(least, unknown(*facts.missing))
    how = "as tagged" if found.tagged else "by the record"
    how = f"10 ft under the motor (common practice), bottom {how}"
    return Room(least, known(found.depth - CLEARANCE - (length - below), how))


def wanted_setting(job: Job, room: Room) -> Known[Quantity]:
    """Depth of the intake to plan for: as planned, as last set, or the least by rule."""
    for kind, how in _SOURCES.items():
        for entry in reversed(job.live(kind)):
            depth = of_entry(entry, "setting_depth")
            if depth is not None:
                return _on_datum(job, depth, entry.text("datum"), how)
    if room.least.value is None:
        return unknown("setting depth", *room.least.missing)
    return known(room.least.value, f"the least by rule: {room.least.how}")


def _on_datum(job: Job, depth: Quantity, datum: str, how: str) -> Known[Quantity]:
    """A depth on the well's own datum."""
    facts = Facts(job)
    ours = facts.words("well", "datum")
    if datum in ("", ours):
        return known(depth, how)
    stick_up = facts.need("well", "stick_up")
    if not ours or stick_up is None:
        facts.need_words("well", "datum")
        return unknown(*facts.missing)
    shift = magnitude(stick_up, "ft", "stick-up") * (1.0 if ours == "top of casing" else -1.0)
    shifted = depth + quantity(shift, "ft")
    if shifted.magnitude < 0.0:
        return unknown(f"a setting below the {ours} (stick-up {stick_up.to('ft'):.1f~})")
    return known(shifted, f"{how}, brought to the {ours}")
