"""`fieldbook gear`."""

from __future__ import annotations

import datetime as dt
import json
import textwrap
from typing import TYPE_CHECKING, Any

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.gear.inventory import load
from fieldbook.gear.item import KINDS, BadGear, Item
from fieldbook.quantities.dates import SOON_DAYS, DateCheck, DateStatus, standing
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.plain import plain
from fieldbook.quantities.units import show_unit

if TYPE_CHECKING:
    import argparse

_WIDTH = 78


def gear(given: argparse.Namespace) -> int:
    """Print the company's gear, kind by kind, and below it what is past or due soon."""
    today = _day(given.on) if given.on is not None else dt.datetime.now().astimezone().date()
    folder = home_of(given).gear_folder
    try:
        items = sorted(load(folder), key=lambda item: KINDS.index(item.kind))
    except BadGear as problem:
        raise CannotGoOn(plain(str(problem))) from problem
    seen = [(item, standing(item.dates, today)) for item in items]
    if given.json:
        documents = [_document(item, status) for item, status in seen]
        print(json.dumps({"on": str(today), "items": documents}, indent=2))
        return 0
    if not items:
        print(f"No gear is kept yet: {folder} holds no item.")
        return 0
    print(f"GEAR on {today}")
    print(f"{'FOR':<21}{'TITLE':<26}DATES")
    for item, status in seen:
        words = "retired" if item.retired else status.words
        print(f"{kinds()[item.kind].label:<21}{plain(item.title)[:25]:<26}{words}")
    print()
    _print_those("Past", seen, DateStatus.PAST)
    _print_those(f"Due within {SOON_DAYS} days", seen, DateStatus.SOON)
    return 0


def _day(text: str) -> dt.date:
    try:
        return dt.date.fromisoformat(text)
    except ValueError as error:
        raise CannotGoOn("--on takes a day such as 2026-05-14") from error


def _print_those(head: str, seen: list[tuple[Item, DateCheck]], which: DateStatus) -> None:
    titles = [plain(i.title) for i, s in seen if s.status is which and not i.retired]
    words = f"{head}: {'; '.join(titles) or 'none'}"
    print(textwrap.fill(words, _WIDTH, subsequent_indent="  "))


def _document(item: Item, status: DateCheck) -> dict[str, Any]:
    values = {
        name: {
            "value": value.text if value.number is None else value.number,
            "unit": show_unit(value.unit),
            "origin": str(value.origin),
        }
        for name, value in item.values.items()
    }
    return {
        "id": item.id,
        "title": item.title,
        "kind": item.kind,
        "source": item.source,
        "values": values,
        "dates": dict(item.dates),
        "stands": str(status.status),
        "words": status.words,
        "due": str(status.due) if status.due is not None else None,
        "notes": item.notes,
        "retired": item.retired,
        "file": item.file,
    }
