"""The job file: the sheet, the customer's copy, the tables and everything, in a folder."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from fieldbook.office.account import account_of, customer_copy
from fieldbook.office.everything import SCHEMA, everything, schema_text
from fieldbook.office.sheet import sheet
from fieldbook.office.tables import TABLES, bill_table, events, table

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.office.localities import Locality
    from fieldbook.store.book import Book

_BOM = "\ufeff"  # spreadsheets take UTF-8 for what it is only with it


def write_jobfile(
    book: Book,
    folder: Path,
    *,
    company: Path | None = None,
    locality: Locality | None = None,
    letterhead: tuple[str, ...] = (),
) -> list[Path]:
    """Write the job file of `book` into `folder`, replacing an earlier one file by file.

    Args:
        book: The open book.
        folder: Where to; it is made if it is not there.
        company: Folder of a company's own step files, if it has one.
        locality: The place whose record is to be filed, if one was named.
        letterhead: Whose sheet it is, line by line.

    Returns:
        The files written.

    Raises:
        OSError: The folder cannot be made or written, or a log cannot be read.
        BadWalk: A company's step file is wrong.
    """
    account = account_of(book, company, letterhead)
    texts = {
        "sheet.html": sheet(account, locality),
        "customer.html": sheet(customer_copy(account), locality),
    }
    folder.mkdir(parents=True, exist_ok=True)
    texts |= {f"{name}.csv": _BOM + table(book.job, name) for name in TABLES}
    texts["bill.csv"] = _BOM + bill_table(book.job)
    texts["events.csv"] = _BOM + events(book.job)
    whole = everything(account, book.heads(), locality)
    texts["everything.json"] = json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False)
    texts[SCHEMA] = schema_text()
    return [_replace(folder / name, text) for name, text in texts.items()]


def _replace(path: Path, text: str) -> Path:
    """Write beside and move into place, so that a reader never sees half a file."""
    beside = path.with_name(f".{path.name}.next")
    beside.write_text(text, encoding="utf-8", newline="")
    return beside.replace(path)
