"""The figures of a job that are followed over the years.

Nothing here is judged. Levels and depths are as measured, with what they are measured from beside
them; insulation is as read, with the temperature beside it and not brought to another, and only
with the motor in the well, so that like is compared with like.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from calc.errors import OutOfRange
from calc.hydraulics.well import drawdown, specific_capacity
from calc.units import quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.units import Quantity
    from fieldbook.store.shelf.summary import Summary

STATIC, CAPACITY, INSULATION, AMPS, SETTING = SERIES_NAMES = (
    "static level",
    "specific capacity",
    "insulation",
    "amps",
    "setting",
)
SERIES = dict(zip(SERIES_NAMES, ("ft", "gpm/ft", "Mohm", "A", "ft"), strict=True))
"""What is followed over the years, and its unit."""
_LEGS = ("amps_a", "amps_b", "amps_c")
_Entry = dict[str, Any]
_Figure = tuple[str, float, str]


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure of one day.

    Attributes:
        time: When it was read.
        value: In the unit that `SERIES` names.
        beside: What it rests on: datum and point of a depth, temperature of an insulation.
        job_number: Of the job that read it.
    """

    time: dt.datetime
    value: float
    beside: str
    job_number: str


def readings(job: Summary, *, first: bool) -> Iterator[tuple[str, Reading]]:
    """The figures of one job, each under its name in `SERIES`.

    Args:
        job: Its summary.
        first: Whether no earlier job on the well is known, so that what it wrote of the last record
            is all that is left of the time before.
    """
    static: _Entry | None = None
    for entry in job["history"]:
        time = dt.datetime.fromisoformat(entry["time"])
        if entry["kind"] == "level":
            static = entry if entry.get("level_state") == "static" else static
            found = _of_level(job, entry, static)
        elif entry["kind"] == "meter":
            found = _of_meter(entry)
        elif entry["kind"] == "prior":
            if not first or "set_on" not in entry:
                continue
            set_on = dt.date.fromisoformat(entry["set_on"])
            time = dt.datetime.combine(set_on, dt.time(12), time.tzinfo)
            found = _of_record(job, entry)
        else:
            found = _of_setting(job, entry)
        for name, value, beside in found:
            yield name, Reading(time, value, beside, job["number"])


def _of_level(job: Summary, entry: _Entry, static: _Entry | None) -> Iterator[_Figure]:
    if entry is static:
        words = (str(entry.get("measuring_point") or ""), str(job["datum"]))
        beside = ", ".join(word for word in words if word)
        yield STATIC, _number(entry, "water_level", "ft"), f"from {beside}" if beside else ""
    elif entry.get("level_state") == "pumping" and static is not None and "flow" in entry:
        try:
            down = drawdown(
                static_level=_quantity(static, "water_level"),
                pumping_level=_quantity(entry, "water_level"),
            )
            capacity = specific_capacity(flow=_quantity(entry, "flow"), drawdown=down)
        except OutOfRange:
            return
        minutes = _number(entry, "minutes_on", "min") if "minutes_on" in entry else None
        beside = f"after {minutes:g} min" if minutes is not None else ""
        yield CAPACITY, float(capacity.m_as("gpm/ft")), beside


def _of_meter(entry: _Entry) -> Iterator[_Figure]:
    if entry.get("part"):
        return
    if "insulation" in entry:
        warm = _number(entry, "water_temperature", "degF") if "water_temperature" in entry else None
        beside = f"water {warm:.0f} F" if warm is not None else ""
        yield INSULATION, _number(entry, "insulation", "Mohm"), beside
    if legs := [_number(entry, leg, "A") for leg in _LEGS if leg in entry]:
        yield AMPS, max(legs), f"highest of {len(legs)}" if len(legs) > 1 else ""


def _of_record(job: Summary, entry: _Entry) -> Iterator[_Figure]:
    beside = "by the last record"
    if "water_level" in entry:
        yield STATIC, _number(entry, "water_level", "ft"), beside
    if "insulation" in entry:
        yield INSULATION, _number(entry, "insulation", "Mohm"), beside
    for name, value, datum in _of_setting(job, entry):
        yield name, value, f"{datum}, {beside}" if datum else beside


def _of_setting(job: Summary, entry: _Entry) -> Iterator[_Figure]:
    if "setting_depth" in entry:
        datum = str(entry.get("datum") or job["datum"])
        yield SETTING, _number(entry, "setting_depth", "ft"), f"from {datum}" if datum else ""


def _quantity(entry: _Entry, name: str) -> Quantity:
    number, unit = entry[name]
    return quantity(number, unit)


def _number(entry: _Entry, name: str, unit: str) -> float:
    number, given = entry[name]
    return float(number if given == unit else quantity(number, given).m_as(unit))
