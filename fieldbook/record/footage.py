"""Hose counted from its entries: the reel counter as the marks on the hose correct it. Feet only.

Only exact factors stand here, so that it can be computed before the unit registry is loaded.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from fieldbook.record.entry import Entry

_FEET = {
    "ft": 1.0,
    "in": 1.0 / 12.0,
    "mile": 5280.0,
    "m": 1.0 / 0.3048,
    "cm": 0.01 / 0.3048,
    "mm": 0.001 / 0.3048,
    "km": 1000.0 / 0.3048,
}
"""Feet in one of each unit; the foot is 0.3048 m exactly (NIST SP 811, from memory)."""


def to_feet(number: float, unit: str) -> float:
    """A length in feet.

    Raises:
        KeyError: `unit` is not a unit of length.
    """
    return number * _FEET[unit]


def in_feet(entry: Entry, name: str) -> float | None:
    """The length `name` of an entry in feet; None when the entry does not say it."""
    value = entry.values.get(name)
    return None if value is None or value.number is None else to_feet(value.number, value.unit)


@dataclass(frozen=True, slots=True)
class Footage:
    """Hose that went one way.

    Attributes:
        counted_ft: The counter as last read; None when it was not.
        feet: The same corrected at the last mark; None when it was not read.
        off_ft: What the counter was short (or over, minus) at the last mark; None without one.
        since_mark_ft: What went by the counter alone, since the last mark or from the start; None
            when it was not read.
    """

    counted_ft: float | None = None
    feet: float | None = None
    off_ft: float | None = None
    since_mark_ft: float | None = None


def footages(
    entries: Iterable[Entry], direction: str, hose_ft: float | None
) -> Iterator[tuple[Entry, Footage]]:
    """Each `footage` entry that went "out" or "in", with the hose that had gone by then.

    A mark on the hose is the truth; the counter only counts on from the last one.

    Args:
        entries: The live `footage` entries of a job, in the order of the log.
        direction: "out" or "in".
        hose_ft: Length of the whole hose. Marks are counted from its top end, so going in they
            count down, and say nothing where this is None.
    """
    correction = start = 0.0
    off = None
    for entry in entries:
        counter = in_feet(entry, "footage")
        if entry.text("direction") != direction or counter is None:
            continue
        mark = in_feet(entry, "mark")
        if mark is not None and (direction == "out" or hose_ft is not None):
            passed = mark if direction == "out" or hose_ft is None else hose_ft - mark
            off = correction = passed - counter
            start = counter
        yield entry, Footage(counter, counter + correction, off, counter - start)


def with_the_pump(gone: Footage, pump_out: Iterable[Entry]) -> Footage:
    """The hose that is out once the pump is: its last feet are read when the pump is at the lip.

    Args:
        gone: What the entries along the way say.
        pump_out: The live `pump_out` entries; the first with a counter was written at the well.
    """
    counters = (in_feet(entry, "footage") for entry in pump_out)
    counter = next((feet for feet in counters if feet is not None), None)
    if counter is None:
        return gone
    last = counter - (gone.counted_ft or 0.0)
    return Footage(
        counter, (gone.feet or 0.0) + last, gone.off_ft, (gone.since_mark_ft or 0.0) + last
    )


def footage(entries: Iterable[Entry], direction: str, hose_ft: float | None) -> Footage:
    """The hose that has gone "out" or "in" by now; as `footages`."""
    gone = [found for _, found in footages(entries, direction, hose_ft)]
    return gone[-1] if gone else Footage()
