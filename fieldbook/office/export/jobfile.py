"""The job file: the sheet, the customer's copy, their files, the tables and everything."""

from __future__ import annotations

import errno
import json
import re
from typing import TYPE_CHECKING

from fieldbook.office.export.everything import SCHEMA, everything, schema_text
from fieldbook.office.export.tables import TABLES, bill_table, events, table
from fieldbook.office.sheet.attached import HASH_SHOWN, attached_files, beside
from fieldbook.office.sheet.context import account_of, customer_copy
from fieldbook.office.sheet.sheet import sheet
from fieldbook.store.log.disk import DISK, make_folders, write_whole

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from fieldbook.office.filing.localities import Locality
    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.memory import Memory
    from fieldbook.store.job.book import Book

_OURS = re.compile(rf"[0-9a-f]{{{HASH_SHOWN}}}(_|$)")
"""Names of the files that a job file was given with its sheets; others there are not ours."""
_BOM = "\ufeff"  # spreadsheets take UTF-8 for what it is only with it


def write_jobfile(
    book: Book,
    folder: Path,
    *,
    company: Path | None = None,
    locality: Locality | None = None,
    letterhead: tuple[str, ...] = (),
    memory: Memory | None = None,
    on_progress: Callable[[int, int], None] | None = None,
) -> list[Path]:
    """Write the job file of `book` into `folder`, replacing an earlier one file by file.

    Args:
        book: The open book.
        folder: Where to; it is made if it is not there.
        company: Folder of a company's own step files, if it has one.
        locality: The place whose record is to be filed, if one was named.
        letterhead: Whose sheet it is, line by line.
        memory: What earlier jobs on the well remember.
        on_progress: Is called with how many of the attached files are written, for each copy
            of the sheet.

    Returns:
        The files written.

    Raises:
        OSError: The folder cannot be made or written, or a log cannot be read.
        BadWalk: A company's step file is wrong.
    """
    context = account_of(book, company, letterhead, memory)
    customers = customer_copy(context)
    texts = {"sheet.html": sheet(context, locality), "customer.html": sheet(customers, locality)}
    make_folders(folder)
    texts |= {f"{name}.csv": _BOM + table(book.job, name) for name in TABLES}
    texts["bill.csv"] = _BOM + bill_table(book.job)
    texts["events.csv"] = _BOM + events(book.job)
    whole = everything(context, book.heads(), locality)
    texts["everything.json"] = json.dumps(whole, ensure_ascii=False, indent=1, allow_nan=False)
    texts[SCHEMA] = schema_text()
    written = [_replace(folder / name, text.encode("utf-8")) for name, text in texts.items()]
    return [
        *written,
        *_write_attached(context, folder, on_progress),
        *_write_attached(customers, folder, on_progress),
    ]


def _write_attached(
    context: SheetContext, folder: Path, on_progress: Callable[[int, int], None] | None
) -> list[Path]:
    """Copy the files that a copy of the sheet names, and take away those it no longer names.

    A file that was struck since, or is inside now, would go out with the folder otherwise.
    """
    into = folder / beside(context)
    written = []
    of = len(context.job.live("attachment"))
    for done, file in enumerate(attached_files(context), 1):
        if on_progress is not None:
            on_progress(done, of)
        if file.raw is not None:
            DISK.make_folder(into)
            _refuse_elsewhere(into)
            written.append(_replace(into / file.name, file.raw))
    if into.is_dir():
        _refuse_elsewhere(into)
        for old in set(into.iterdir()) - set(written):
            if _OURS.match(old.name) and old.is_file():
                old.unlink()
    return list(dict.fromkeys(written))


def _refuse_elsewhere(into: Path) -> None:
    """Refuse a link in the place of a folder of ours: files elsewhere would be written over.

    Raises:
        OSError: It is a link.
    """
    if into.is_symlink():
        raise OSError(errno.EEXIST, f"{into.name} is a link and no folder: take it away")


def _replace(path: Path, raw: bytes) -> Path:
    """Write a whole file, so that a reader never sees half of it, and name it."""
    write_whole(path, raw)
    return path
