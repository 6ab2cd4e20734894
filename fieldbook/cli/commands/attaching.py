"""`fieldbook attach`: photos and papers into a job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.opening import open_book
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.plain import plain
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.store.job.attachments import attach as copy_in
from fieldbook.store.job.attachments import refusal
from fieldbook.store.job.errors import NotSaved

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

    from fieldbook.store.job.book import Book


def attach(given: argparse.Namespace) -> int:
    """Copy each file into the job's folder and record it; nothing is taken if one cannot be."""
    for path in given.files:
        if why := refusal(path):
            raise CannotGoOn(f"{path}: {why}")
    with open_book(given, given.job, write=True) as book:
        if book.holder is not None:
            raise CannotGoOn(f"the book cannot be written: {book.holder}")
        for path in given.files:
            _attach(book, path, given)
    return 0


def _attach(book: Book, path: Path, given: argparse.Namespace) -> None:
    try:
        attached = copy_in(book.folder, path)
        values = attached.values()
        if given.part:
            values["part"] = plain_value(given.part)
        if given.inside:
            values["for_customer"] = plain_value("no")
        entry = book.record(Draft("attachment", given.by.strip(), values, note=given.note))
    except (Refused, ValueError) as problem:
        raise CannotGoOn(f"{path}: {problem}") from problem
    except NotSaved as problem:
        raise CannotGoOn(f"{path}: NOT SAVED: {problem}") from problem
    except OSError as error:
        raise CannotGoOn(f"{path}: NOT SAVED: {error.strerror or error}") from error
    print(plain(f"{entry.seq:>5} {attached.name} {attached.title}"))
