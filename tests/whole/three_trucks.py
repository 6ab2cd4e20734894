"""Three trucks' folders as they come to an office: one damaged, one in which two devices clash."""

from __future__ import annotations

import datetime as dt
import shutil
import struct
import zlib
from pathlib import Path

from fieldbook.office.samples import build_job
from fieldbook.quantities.definition import definition
from fieldbook.quantities.typed import parse, plain_value
from fieldbook.record.entry import Draft, Entry
from fieldbook.store.job.attachments import attach
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home

WHOLE, SPOILED, TORN, CLASHING = "26-127", "26-114", "26-131", "26-142"
SECOND = "d-tablet001"


def three_trucks(root: Path) -> list[Path]:
    """The folders of the three trucks, made anew under `root`."""
    return [_whole(Home(root / "truck 1")), _damaged(Home(root / "truck 2")),
            _clashing(Home(root / "truck 3"), root)]  # fmt: skip


def picture(shade: int) -> bytes:
    """A small picture of one shade, as a camera would have made it."""
    rows = b"".join(b"\0" + bytes([shade, 120, 90]) * 160 for _ in range(120))
    head = struct.pack(">IIBBBBB", 160, 120, 8, 2, 0, 0, 0)
    parts = ((b"IHDR", head), (b"IDAT", zlib.compress(rows)), (b"IEND", b""))
    chunks = (
        struct.pack(">I", len(raw)) + name + raw + struct.pack(">I", zlib.crc32(name + raw))
        for name, raw in parts
    )
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunks)


def wrote(folder: Path, device: str, *drafts: Draft) -> list[Entry]:
    """Record more on a job, a minute after its newest entry and after one another."""
    with Book.open(folder, device, write=False) as book:
        last = book.job.entries[-1].time
    minutes = iter(range(1, 1000))
    with Book.open(
        folder, device, clock=lambda: last + dt.timedelta(minutes=next(minutes))
    ) as book:
        return [book.record(draft) for draft in drafts]


def _whole(home: Home) -> Path:
    """A finished job with a photo for the customer and one that stays inside."""
    folder = build_job(home, "26-127-steel", complete=True)
    for title, words, shade, for_customer in (
        ("well head.png", "Well head as left", 200, "yes"),
        ("yard invoice.png", "Invoice of the yard", 40, "no"),
    ):
        source = home.path / title
        source.write_bytes(picture(shade))
        values = attach(folder, source).values() | {"for_customer": plain_value(for_customer)}
        wrote(folder, home.device_id(), Draft("attachment", "RO", values, words))
        source.unlink()
    return home.path


def _damaged(home: Home) -> Path:
    """A sealed log with one byte that is not what was sealed, and one whose end is torn."""
    sealed = build_job(home, "26-114-pvc", complete=True)
    (log,) = sealed.glob("*.jsonl")
    lines = log.read_bytes().splitlines(keepends=True)
    at = next(n for n, line in enumerate(lines) if b'"kind":"level"' in line)
    lines[at] = lines[at].replace(b'"number":', b'"numbur":', 1)
    log.write_bytes(b"".join(lines))
    (torn,) = build_job(home, "26-131-hose").glob("*.jsonl")
    whole = torn.read_bytes()
    torn.write_bytes(whole + whole.splitlines(keepends=True)[-1][:40])
    return home.path


def _clashing(home: Home, root: Path) -> Path:
    """A job on which a second device wrote the same joint; and another job of truck 1's number."""
    folder = build_job(home, "26-142-steel")
    joint = next(e for e in _entries(folder) if e.kind == "joint")
    length = parse("19.40 ft", definition("joint_length"))
    wrote(folder, SECOND, Draft("joint", "MV", {**joint.values, "joint_length": length}))
    again = Home(root / "again")
    build_job(again, "26-127-steel")
    shutil.copytree(again.jobs_folder / WHOLE, home.jobs_folder / f"{WHOLE} second")
    return home.path


def _entries(folder: Path) -> list[Entry]:
    with Book.open(folder, "d-reader0001", write=False) as book:
        return list(book.job.entries)
