"""The bill's lines: hours and miles, what was approved and by whom, materials."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.office.export.cell_time import TIME_HEADS, time_cells
from fieldbook.quantities.convert import number_in

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_Key = tuple[str, ...]

NOBODY = "person not written"
HEADS = ("what", "item", "amount", "unit", "approved by", *TIME_HEADS, "by", "note")


@dataclass(frozen=True, slots=True)
class BillLine:
    """One line of the bill.

    Attributes:
        what: "hours", "miles", "approval" or "material".
        item: The person, what was used, or what was said yes to.
        amount: How much; empty for an approval: the hours and materials stand on lines of their
            own.
        unit: Of the amount.
        approved_by: Who said yes, and how.
        time: When that was, by the device's clock; empty on a sum.
        by: Initials of those who wrote it.
        note: Their words.
    """

    what: str
    item: str
    amount: str = ""
    unit: str = ""
    approved_by: str = ""
    time: str = ""
    by: str = ""
    note: str = ""

    @property
    def cells(self) -> tuple[str, ...]:
        """The line as `HEADS` names its columns."""
        return (
            self.what, self.item, self.amount, self.unit, self.approved_by,
            *time_cells(dt.datetime.fromisoformat(self.time) if self.time else None), self.by,
            self.note,
        )  # fmt: skip


def bill(job: Job) -> list[BillLine]:
    """Every line of the bill; prices are the office's, and nothing here is estimated.

    Hours are summed a person and miles in all; materials of one name and unit are summed. What is
    spelt differently is listed by itself, since only a person can tell whether it is the same.
    """
    return [*_hours(job), *_miles(job), *_approvals(job), *_materials(job)]


def _hours(job: Job) -> Iterator[BillLine]:
    said = [e for e in job.live("hours") if "hours" in e.values or "miles" not in e.values]
    rows = [((entry.text("crew").strip() or NOBODY,), entry) for entry in said]
    for entries, (person,) in _alike(rows):
        hours = [_number(entry, "hours", "hour") for entry in entries if "hours" in entry.values]
        amount = f"{sum(hours):g}" if hours else ""
        yield BillLine("hours", person, amount, "hour", by=_who(entries), note=_notes(entries))


def _miles(job: Job) -> Iterator[BillLine]:
    entries = [entry for entry in job.live("hours") if "miles" in entry.values]
    if entries:
        miles = sum(_number(entry, "miles", "mile") for entry in entries)
        alone = [entry for entry in entries if "hours" not in entry.values]
        words = _notes(alone)
        yield BillLine("miles", "driven", f"{miles:g}", "mile", by=_who(entries), note=words)


def _approvals(job: Job) -> Iterator[BillLine]:
    for e in job.live("approval"):
        time = e.time.isoformat(timespec="seconds")
        yes = e.text("approved_by") or "nobody named"
        yield BillLine("approval", e.note, approved_by=yes, time=time, by=e.by)


def _materials(job: Job) -> Iterator[BillLine]:
    names = ("item", "amount_unit")
    rows = [(tuple(e.text(n).strip() for n in names), e) for e in job.live("material")]
    for entries, (item, unit) in _alike(rows):
        amount = sum(_number(entry, "amount", "") for entry in entries)
        yield BillLine(
            "material", item, f"{amount:g}", unit, by=_who(entries), note=_notes(entries)
        )


def _alike(rows: Iterable[tuple[_Key, Entry]]) -> Iterator[tuple[list[Entry], _Key]]:
    """Entries under one key, whatever its case, in the order of the log."""
    found: dict[_Key, tuple[list[Entry], _Key]] = {}
    for key, entry in rows:
        folded = tuple(word.casefold() for word in key)
        found.setdefault(folded, ([], key))[0].append(entry)
    yield from found.values()


def _number(entry: Entry, name: str, unit: str) -> float:
    return number_in(entry.values[name], unit)


def _who(entries: Iterable[Entry]) -> str:
    return ", ".join(dict.fromkeys(entry.by for entry in entries))


def _notes(entries: Iterable[Entry]) -> str:
    return "; ".join(entry.note for entry in entries if entry.note)
