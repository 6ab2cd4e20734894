"""Finds and opens the job that a command names."""

from __future__ import annotations

import datetime as dt
import sys
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.cli.many import progress_of_many
from fieldbook.office.export.address import is_address, not_here
from fieldbook.quantities.plain import plain
from fieldbook.small_file import read_small
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.shelf import NoSuchJob, Shelf
from fieldbook.walk.definition.loading import as_started, load_leaving_out
from fieldbook.walk.definition.steps import BadWalk

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

    from fieldbook.record.job import Job
    from fieldbook.walk.walk import Walk

_LARGEST_CARD = 256 * 1024

_MANY = 200  # fewer jobs are read before anybody has read how many


def fresh_shelf(given: argparse.Namespace) -> Shelf:
    """The shelf, looked at again; how far that is, where many jobs have to be read.

    Raises:
        CannotGoOn: The folder of the jobs cannot be read.
    """
    home = home_of(given)
    shelf = Shelf(home)
    try:
        with progress_of_many("read", _MANY) as on_progress:
            shelf.refresh(on_progress=on_progress)
    except OSError as error:
        words = f"cannot read the shelf {home.jobs_folder}: {error.strerror or error}"
        raise CannotGoOn(words) from error
    return shelf


def code_of(shelf: Shelf) -> int:
    """The exit code of an answer from all jobs; 1 and a line for each that cannot be read."""
    unread = [shelf.listing(job) for job in shelf.index.documents() if job.get("passing")]
    for listing in unread:
        for problem in listing.problems:
            print(f"fieldbook: {problem}", file=sys.stderr)
    return 1 if unread else 0


def day_of(text: str | None) -> dt.date | None:
    """The day that an argument names; None where there is no argument.

    Raises:
        CannotGoOn: It is no day.
    """
    try:
        return dt.date.fromisoformat(text) if text else None
    except ValueError as error:
        raise CannotGoOn(f"{plain(text or '')[:40]} is no day; write it as 2026-05-14") from error


def find(given: argparse.Namespace, job: str) -> Path:
    """The folder of the job that `job` names, by number or by path.

    Raises:
        CannotGoOn: There is none, or it is an address.
    """
    if is_address(job):
        raise CannotGoOn(not_here(job))
    try:
        return Shelf(home_of(given)).find(job)
    except NoSuchJob as problem:
        raise CannotGoOn(f"{problem}; `fieldbook jobs` lists the shelf") from problem


def open_book(given: argparse.Namespace, job: str, *, write: bool) -> Book:
    """The job's book; what its opening found is reported on standard error.

    Raises:
        CannotGoOn: There is no such job, or it cannot be read.
    """
    folder = find(given, job)
    try:
        book = Book.open(folder, home_of(given).device_id(), write=write)
    except OSError as error:
        raise CannotGoOn(f"cannot open {folder}: {error.strerror or error}") from error
    if book.doubtful is not None:
        words = f"entry {book.doubtful.seq} ({book.doubtful.kind}) was written, and nobody was told"
        ask = "it counts; sent again it stands once; cross it out if it did not happen"
        print(f"fieldbook: {words} that it is saved: {ask}", file=sys.stderr)
    for report in book.reports:
        print(f"fieldbook: {report}", file=sys.stderr)
    return book


def load_walk(given: argparse.Namespace, job: Job) -> Walk:
    """The walk of a job; what is wrong of the company's own steps is left out, and named.

    Raises:
        CannotGoOn: The log does not say which walk it is.
    """
    walk = walk_of(given, job.text("job", "line"), job.text("job", "work"))
    return as_started(walk, job.text("job", "start"))


def walk_of(given: argparse.Namespace, line: str, work: str) -> Walk:
    """As `load_walk`, for a line and a work without a job.

    Raises:
        CannotGoOn: There is no such line or work.
    """
    try:
        walk = load_leaving_out(line, work, home_of(given).company_steps)
    except BadWalk as problem:
        raise CannotGoOn(f"there is no walk to follow: {problem}") from problem
    if walk.left_out:
        print(f"fieldbook: {plain(walk.left_out_words)}", file=sys.stderr)
    return walk


def read_job(given: argparse.Namespace, job: str) -> Job:
    """The job as recorded, read without holding its book."""
    with open_book(given, job, write=False) as book:
        return book.job


def job_or_card(given: argparse.Namespace) -> Job:
    """The job that the arguments name, or the one that their card describes.

    Raises:
        CannotGoOn: Neither or both are named, or it cannot be read.
    """
    if (given.job is None) == (given.card is None):
        raise CannotGoOn("give a job number or --card FILE, one of the two")
    return read_job(given, given.job) if given.card is None else card_job(given.card)


def doubts_on_card(given: argparse.Namespace, job: Job) -> list[str]:
    """What looks wrong on the card of which `job` was made; nothing of a job, which was asked.

    Args:
        given: The arguments.
        job: What they name.
    """
    if given.card is None:
        return []
    from fieldbook.walk.entry.doubts import doubts_of_all  # noqa: PLC0415 - loads pint

    return doubts_of_all(job)


def card_job(path: Path) -> Job:
    """The job that a card describes.

    Raises:
        CannotGoOn: It cannot be read, or is no card.
    """
    from fieldbook.watch.card import BadCard, job_from_card  # noqa: PLC0415 - loads pint

    try:
        raw = read_small(path, _LARGEST_CARD, links=True)
        if len(raw) > _LARGEST_CARD:
            raise CannotGoOn(f"{path} is too large to be a card")
        return job_from_card(raw.decode("utf-8"))
    except OSError as error:
        raise CannotGoOn(f"cannot read {path}: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise CannotGoOn(f"{path} is not UTF-8 text") from error
    except BadCard as problem:
        raise CannotGoOn(f"{path}: {problem}; --blank prints an empty card") from problem
