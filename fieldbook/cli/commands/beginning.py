"""`fieldbook new`: a job from flags, and from a card, for scripts and for the office."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.cli.opening import card_job
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.quantities.plain import plain
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.record.entry import Draft, Origin, Value
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.shelf import Shelf
from fieldbook.walk.entry.doubts import doubts_of_all

if TYPE_CHECKING:
    import argparse

    from fieldbook.record.job import Job

FLAGS = ("line", "work", "start", "job_title", "owner", "well_name")


def new(given: argparse.Namespace) -> int:
    """Put a new job on the shelf, and print its folder; 1 where the card has what looks wrong."""
    card = card_job(given.card) if given.card is not None else None
    said = {name: getattr(given, name) for name in FLAGS if getattr(given, name)}
    opening = _opening(given.job, given.by, said, card)
    home = home_of(given)
    doubts = doubts_of_all(card) if card is not None else []
    try:
        folder = Shelf(home).create(opening)
        if card is not None:
            with Book.open(folder, home.device_id()) as book:
                _take_card(book, card, given.by)
    except Refused as problem:
        raise CannotGoOn(str(problem)) from problem
    print(plain(str(folder)))
    for words in doubts:
        print(f"fieldbook: look again: {plain(words)}", file=sys.stderr)
    return 1 if doubts else 0


def _opening(number: str, by: str, said: dict[str, str], card: Job | None) -> Draft:
    """The first entry of the job: flags go before what the card says."""
    on_card = card.last("job") if card is not None else None
    values = dict(on_card.values) if on_card is not None else {}
    merged = values | {n: _parsed(n, text) for n, text in ({"job_number": number} | said).items()}
    if lacking := [f"--{name}" for name in ("line", "work") if name not in merged]:
        raise CannotGoOn(f"a new job needs {' and '.join(lacking)}, or a card that says so")
    return Draft("job", by, merged)


def _parsed(name: str, text: str) -> Value:
    quantity = definition(name)
    try:
        return parse(text, quantity, origin=Origin.STATED)
    except NotUnderstood as problem:
        raise CannotGoOn(f"{within(quantity.label)}: {problem}") from problem


def _take_card(book: Book, card: Job, by: str) -> None:
    for entry in card.entries:
        if entry.kind != "job":
            book.record(Draft(entry.kind, by, dict(entry.values)))
