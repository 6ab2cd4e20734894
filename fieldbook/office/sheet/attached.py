"""The files that were attached to a job, as they leave the book with a copy of the sheet."""

from __future__ import annotations

import base64
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import quote

from fieldbook.office.sheet.markup import Child, element
from fieldbook.office.sheet.parts import day_and_time, section, table
from fieldbook.store.job.attachments import read_attachment

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from xml.etree.ElementTree import Element

    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.entry import Entry

HASH_SHOWN = 16
"""Digits of its hash by which a file is named beside the sheet and listed on it."""
MOST_SHOWN = 24 * 2**20
"""Bytes of pictures that one sheet holds in itself; ours, so that a reader can still open it."""
_LONGEST_NAME = 80
_PICTURES = (
    (re.compile(rb"\x89PNG\r\n\x1a\n"), "image/png"),
    (re.compile(rb"\xff\xd8\xff"), "image/jpeg"),
    (re.compile(rb"GIF8[79]a"), "image/gif"),
    (re.compile(rb"RIFF....WEBP", re.DOTALL), "image/webp"),
)
"""How the files begin that every browser shows and that cannot carry a script."""


@dataclass(frozen=True, slots=True)
class AttachedFile:
    """A file that an entry of the job names.

    Attributes:
        entry: The entry.
        name: What it is called beside the sheet.
        raw: What it holds, which is what its hash says; None where it cannot be had.
        trouble: Why it cannot; empty when it can.
    """

    entry: Entry
    name: str
    raw: bytes | None
    trouble: str = ""

    @property
    def picture(self) -> str:
        """Its media type where a browser shows it as a picture; empty for all else."""
        raw = self.raw or b""
        return next((media for begins, media in _PICTURES if begins.match(raw)), "")


def beside(context: SheetContext) -> str:
    """The folder beside a copy of the sheet in which its files lie."""
    return "customer_files" if context.for_customer else "sheet_files"


def attached_files(context: SheetContext) -> Iterator[AttachedFile]:
    """Every file that this copy of the job names, read one after the other, each checked."""
    for entry in context.job.live("attachment"):
        name = _name(entry)
        try:
            raw = read_attachment(context.folder / entry.text("file_hash"))
        except (OSError, ValueError) as error:
            yield AttachedFile(entry, name, None, getattr(error, "strerror", None) or str(error))
        else:
            yield AttachedFile(entry, name, raw)


def _name(entry: Entry) -> str:
    """Its hash and what it was called, with nothing in it that could name another place."""
    called = re.sub(r"[^A-Za-z0-9._-]+", "_", entry.text("file_title"))[-_LONGEST_NAME:]
    return f"{entry.text('file_hash')[:HASH_SHOWN]}_{called}".rstrip("._")


def attachments_part(context: SheetContext) -> Element | None:
    """The files by name and by what they hold; those that are pictures are shown."""
    rows: list[list[Child]] = []
    shown: list[Element] = []
    room = MOST_SHOWN
    for file in attached_files(context):
        picture = file.raw if file.raw is not None and file.picture else None
        if picture is not None and len(picture) <= room:
            room -= len(picture)
            shown.append(_figure(file, picture))
            picture = None
        rows.append(_row(file, beside(context), is_left_out=picture is not None))
    if not rows:
        return None
    heads = ("@When", "File", "Words", "SHA-256 begins", "By")
    words = f"They lie beside this sheet in the folder {beside(context)}."
    album = element("div", *shown, class_="album") if shown else None
    return section("Files attached", table(heads, rows), element("p", words), album)


def _row(file: AttachedFile, folder: str, *, is_left_out: bool) -> list[Child]:
    entry = file.entry
    title = entry.text("file_title") or "a file"
    if file.raw is None:
        called = element("span", title, " ", element("strong", f"NOT HERE: {file.trouble}"))
    else:
        called = element("a", title, href=f"{folder}/{quote(file.name)}")
    words: Iterable[str] = (entry.note, "too large to be shown here" if is_left_out else "")
    return [
        day_and_time(entry.time), called, "; ".join(filter(None, words)),
        entry.text("file_hash")[:HASH_SHOWN], entry.by,
    ]  # fmt: skip


def _figure(file: AttachedFile, raw: bytes) -> Element:
    address = f"data:{file.picture};base64,{base64.b64encode(raw).decode('ascii')}"
    entry = file.entry
    words = ". ".join(filter(None, (entry.note, entry.text("file_title"))))
    return element(
        "figure",
        element("img", src=address, alt=entry.note or entry.text("file_title")),
        element("figcaption", f"{words}, {day_and_time(entry.time)} {entry.by}"),
    )
