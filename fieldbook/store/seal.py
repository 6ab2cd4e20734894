"""The seal: an entry that names the last line of every log, so that paper can tell."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

from fieldbook.record.codec import to_document
from fieldbook.record.entry import Draft
from fieldbook.store.reading import read_log

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.store.book import Book


def seal_draft(book: Book, by: str) -> Draft:
    """The seal of a job as it stands now; its note names each file and its last line's hash."""
    lines = [f"{name} {head}" for name, head in book.heads().items()]
    return Draft(kind="seal", by=by, note="\n".join(lines))


def seal_hash(seal: Entry) -> str:
    """What is printed on the sheet: a hash over the whole seal, and so over every log it names."""
    text = json.dumps(to_document(seal), ensure_ascii=False, sort_keys=True, separators=(",", ":"))
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def broken_seals(book: Book, seal: Entry) -> list[str]:
    """The files in which the line that the seal names is no longer found; empty when it holds.

    Lines after the sealed one are what arrived after the seal, and break nothing.

    Raises:
        OSError: A log cannot be read.
    """
    broken = []
    for line in seal.note.splitlines():
        name, _, head = line.partition(" ")
        path = book.folder / name
        if "/" in name or not path.is_file() or head not in read_log(path).hashes:
            broken.append(name)
    return broken


def after_seal(book: Book, seal: Entry) -> list[Entry]:
    """The entries that came after the seal, by the order of the log or from a device it missed."""
    return [entry for entry in book.job.entries if entry.order > seal.order]
