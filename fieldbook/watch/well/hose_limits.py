"""The water, and the bends on the way to the reel, against what the hose's sheet allows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.units import magnitude
from fieldbook.record.string import string_pieces
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.rigging import place_of
from fieldbook.watch.state.temperature import temperatures

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

NAME = "hose window"
_WINDOWS = (
    ("water_temperature", "degF", "coldest", "hottest", "temperature"),
    ("water_ph", "dimensionless", "least_ph", "most_ph", "pH"),
)


def window(job: Job) -> Check | None:
    """Whether water and bends suit the hose; None when no hose hangs in the well.

    A bend whose radius nobody wrote is unknown: a roller that is too small ends a hose.
    """
    hoses = [entry for entry in string_pieces(job) if entry.text("piece") == "hose"]
    if not hoses:
        return None
    facts = Facts(job)
    bends, unread = _bends(job)
    outside = [
        words
        for entry in hoses
        for words in (*_outside(job, entry, facts), *_tight(entry, facts, bends))
    ]
    source = "hose maker's sheet"
    if outside:
        return Check(NAME, Verdict.STOP, governs=outside[0], note="; ".join(outside), source=source)
    for name in unread:
        facts.lack(f"bend radius at {name}")
    if facts.missing:
        return Check(NAME, Verdict.UNKNOWN, missing=tuple(facts.missing), source=source)
    seen = ", bends" if bends else ""
    return Check(NAME, Verdict.WITHIN, governs=f"temperature, pH{seen}", source=source)


def _outside(job: Job, entry: Entry, facts: Facts) -> list[str]:
    found = []
    for water, unit, low, high, word in _WINDOWS:
        # The coldest and the warmest that was read count, and not only what was written down first.
        values = temperatures(job) if water == "water_temperature" else []
        if not values and (value := facts.need("well", water)) is not None:
            values = [value]
        least, most = (_of_hose(entry, facts, name) for name in (low, high))
        if least is None or most is None:
            facts.lack(f"{word} window of the hose")
        numbers = [magnitude(value, unit, water) for value in values]
        if not numbers:
            continue
        if least is not None and min(numbers) < magnitude(least, unit, low):
            found.append(f"{word} of the water is below the hose's window")
        if most is not None and max(numbers) > magnitude(most, unit, high):
            found.append(f"{word} of the water is above the hose's window")
    return found


def _bends(job: Job) -> tuple[list[tuple[str, float]], list[str]]:
    """Each roller and pulley with the radius of its bend, in; and those without one."""
    found, unread = [], []
    for number, entry in enumerate(sorted(job.live("redirect"), key=place_of), 1):
        name = entry.text("part") or f"pulley {number}"
        radius = of_entry(entry, "bend_radius")
        if radius is None:
            unread.append(name)
        else:
            found.append((name, magnitude(radius, "in", "bend radius")))
    return found, unread


def _tight(entry: Entry, facts: Facts, bends: Sequence[tuple[str, float]]) -> list[str]:
    """The bends that are tighter than this hose may be bent."""
    smallest = _of_hose(entry, facts, "least_bend")
    if smallest is None:
        if bends:
            facts.lack("smallest bend of the hose")
        return []
    least = magnitude(smallest, "in", "least bend")
    return [
        f"bend of {radius:g} in at {name} is under the hose's {least:g} in"
        for name, radius in bends
        if radius < least
    ]


def _of_hose(entry: Entry, facts: Facts, name: str) -> Quantity | None:
    """What the piece says of its sheet, or else the sheet that was written for the whole hose."""
    value = of_entry(entry, name)
    return value if value is not None else facts.get("hose_sheet", name)
