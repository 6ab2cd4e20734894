"""`fieldbook jobs`, `fieldbook find` and `fieldbook log`."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from fieldbook.cli.opening import code_of, day_of, fresh_shelf, read_job
from fieldbook.quantities.plain import plain
from fieldbook.record.codec import to_document
from fieldbook.store.shelf.names import folder_name
from fieldbook.store.shelf.query import Wanted

if TYPE_CHECKING:
    import argparse

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.store.shelf.shelf import Listing


def jobs(given: argparse.Namespace) -> int:
    """Print the shelf; 1 when a job on it cannot be read."""
    words = "The shelf is empty. `fieldbook` opens the app; press n there for a new job."
    shelf = fresh_shelf(given)
    listings = [shelf.listing(summary) for summary in shelf.index.documents()]
    _print(listings, otherwise=words, as_json=given.json)
    return code_of(shelf)


def find(given: argparse.Namespace) -> int:
    """Print the jobs that are as wanted; 1 when a job cannot be read, which may be one."""
    shelf = fresh_shelf(given)
    wanted = Wanted(
        words=tuple(word for words in given.words for word in words.split()),
        owner=given.owner,
        well=given.well,
        pump=given.pump,
        finding=given.finding,
        since=day_of(given.since),
    )
    found = [shelf.listing(summary) for summary in shelf.find_jobs(wanted)]
    _print(found, otherwise="No job is as wanted.", as_json=given.json)
    return code_of(shelf)


def _print(listings: list[Listing], *, otherwise: str, as_json: bool) -> None:
    if as_json:
        documents = [_document(listing) for listing in listings]
        print(json.dumps(documents, indent=2))
        return
    if not listings:
        print(otherwise)
        return
    print(f"{'JOB':<12}{'TITLE':<34}{'LINE':<7}{'WORK':<14}SAVED")
    for listing in listings:
        saved = listing.saved.strftime("%Y-%m-%d %H:%M") if listing.saved else "-"
        if listing.folder.name != folder_name(listing.job_number):  # its number is another job's
            saved += f"  as {plain(listing.folder.name)}"
        print(
            f"{plain(listing.job_number)[:11]:<12}{plain(listing.title)[:33]:<34}"
            f"{plain(listing.line):<7}{plain(listing.work):<14}{saved}"
        )


def _document(listing: Listing) -> dict[str, object]:
    return {
        "job": listing.job_number,
        "title": listing.title,
        "owner": listing.owner,
        "well": listing.well,
        "line": listing.line,
        "work": listing.work,
        "saved": listing.saved.isoformat() if listing.saved else None,
        "sealed": listing.sealed,
        "entries": listing.entries,
        "folder": str(listing.folder),
    }


def log(given: argparse.Namespace) -> int:
    """Print every entry as recorded, struck ones marked."""
    job = read_job(given, given.job)
    for entry in job.entries:
        if given.json:
            document = to_document(entry)
            struck = [striker.id for striker in job.struck_by(entry)]
            print(json.dumps(document | ({"struck_by": struck} if struck else {})))
        else:
            print(_line(job, entry))
    return 0


def _line(job: Job, entry: Entry) -> str:
    values = ", ".join(
        f"{name} {value.text if value.number is None else _figure(value.text, value.unit)}"
        for name, value in entry.values.items()
    )
    words = "; ".join(word for word in (values, entry.note) if word)
    mark = " "
    if not job.is_live(entry):
        by = ", ".join(striker.by for striker in job.struck_by(entry))
        mark, words = "X", f"{words} [crossed out by {by}]"
    time = entry.time.strftime("%Y-%m-%d %H:%M:%S")
    return plain(f"{entry.seq:>5} {mark} {time} {entry.by:<4} {entry.kind:<12} {words}")


def _figure(text: str, unit: str) -> str:
    return f"{text} {unit}" if unit and text.replace(".", "").lstrip("+-").isdigit() else text
