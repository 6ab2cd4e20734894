"""A job as rows of the tables."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.convert import number_in
from fieldbook.quantities.definition import definition

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.store.job.book import Book
    from fieldbook.store.shelf.summary import Summary
    from fieldbook.store.shelf.wells import WellKey

Row = dict[str, Any]


def stored(text: str) -> str:
    """Text as every database takes it: a NUL, which PostgreSQL refuses, becomes a mark."""
    return text.replace("\0", "\N{REPLACEMENT CHARACTER}")


def well_mark(key: WellKey) -> str | None:
    """How a well is known, in one word; None where the job tells none."""
    return stored(":".join(key))[:900] if key else None


def well_row(key: WellKey, jobs: Sequence[Summary]) -> Row:
    """A well, named as its newest job names it."""
    newest_first = sorted(jobs, key=lambda job: -job["begun_at"])
    names = {"tag": "well_id", "owner": "owner", "name": "well"}
    return {
        "well": well_mark(key),
        **{
            column: stored(next((job[name] for job in newest_first if job[name]), ""))
            for column, name in names.items()
        },
    }


def job_row(book: Book, well: str | None, seen: str) -> Row:
    """The job itself.

    Args:
        book: Of the job.
        well: How its well is known.
        seen: The state of its logs on disk.
    """
    job, entries = book.job, book.job.entries
    names = {"number": "job_number", "title": "job_title"}
    names |= {name: name for name in ("owner", "well_name", "site", "line", "work")}
    return {
        "job": book.job_id,
        "well": well,
        "begun": _utc(entries[0]) if entries else None,
        "saved": _utc(entries[-1]) if entries else None,
        "sealed": job.last("seal") is not None,
        "problems": sum(report.damage for report in book.reports),
        "heads": "\n".join(f"{name}={head}" for name, head in book.heads().items()),
        "seen": seen,
        **{column: stored(job.text("job", name)) for column, name in names.items()},
    }


def entry_row(job_id: str, job: Job, entry: Entry) -> Row:
    """One entry."""
    offset = entry.time.utcoffset()
    return {
        "entry": entry.id,
        "job": job_id,
        "seq": entry.seq,
        "time": _utc(entry),
        "utc_offset": int(offset.total_seconds() // 60) if offset is not None else 0,
        "by": stored(entry.by),
        "device": stored(entry.device),
        "kind": entry.kind,
        "note": stored(entry.note),
        "strikes": entry.strikes,
        "struck": not job.is_live(entry),
    }


def reading_rows(job_id: str, entry: Entry) -> Iterator[Row]:
    """What one entry says, a row a quantity."""
    for name, value in entry.values.items():
        unit = definition(name).unit
        yield {
            "entry": entry.id,
            "quantity": name,
            "job": job_id,
            "text": stored(value.text),
            "number": value.number,
            "unit": value.unit,
            "value": number_in(value, unit) if value.number is not None else None,
            "value_unit": unit if value.number is not None else "",
            "origin": value.origin.value,
        }


def _utc(entry: Entry) -> dt.datetime:
    return entry.time.astimezone(dt.UTC)
