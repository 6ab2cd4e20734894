"""How warm and how cold the water was, by everything that was recorded of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job


def read_warm(job: Job) -> list[Entry]:
    """The `meter` entries that read the water's temperature."""
    return [entry for entry in job.live("meter") if "water_temperature" in entry.values]


def temperatures(job: Job) -> list[Quantity]:
    """What was written of the well, and every reading."""
    written = Facts(job).get("well", "water_temperature")
    read = (of_entry(entry, "water_temperature") for entry in read_warm(job))
    return [degrees for degrees in (written, *read) if degrees is not None]


def hottest(job: Job) -> Quantity | None:
    """The warmest water on record, for what plastic withstands; None where none was recorded."""
    return max(temperatures(job), default=None)
