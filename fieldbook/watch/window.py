"""The water against the temperature and pH window of the hose's sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.units import magnitude
from fieldbook.record.string import string_pieces
from fieldbook.watch.facts import Facts, of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

NAME = "hose window"
_WINDOWS = (
    ("water_temperature", "degF", "coldest", "hottest", "temperature"),
    ("water_ph", "dimensionless", "least_ph", "most_ph", "pH"),
)


def window(job: Job) -> Check | None:
    """Whether the water suits the hose; None when no hose hangs in the well."""
    hoses = [entry for entry in string_pieces(job) if entry.text("piece") == "hose"]
    if not hoses:
        return None
    facts = Facts(job)
    outside = [words for entry in hoses for words in _outside(entry, facts)]
    source = "hose maker's sheet"
    if outside:
        return Check(NAME, Verdict.STOP, governs=outside[0], note="; ".join(outside), source=source)
    if facts.missing:
        return Check(NAME, Verdict.UNKNOWN, missing=tuple(facts.missing), source=source)
    return Check(NAME, Verdict.WITHIN, governs="temperature and pH", source=source)


def _outside(entry: Entry, facts: Facts) -> list[str]:
    found = []
    for water, unit, low, high, word in _WINDOWS:
        value = facts.need("well", water)
        least, most = (_of_hose(entry, facts, name) for name in (low, high))
        if least is None or most is None:
            facts.lack(f"{word} window of the hose")
        if value is None:
            continue
        number = magnitude(value, unit, water)
        if least is not None and number < magnitude(least, unit, low):
            found.append(f"{word} of the water is below the hose's window")
        if most is not None and number > magnitude(most, unit, high):
            found.append(f"{word} of the water is above the hose's window")
    return found


def _of_hose(entry: Entry, facts: Facts, name: str) -> Quantity | None:
    """What the piece says of its sheet, or else the sheet that was written for the whole hose."""
    told = of_entry(entry, name)
    return told if told is not None else facts.get("hose_sheet", name)
