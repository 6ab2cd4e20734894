"""Reads one log file: every whole line, and the name of everything that is wrong with the rest."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING, BinaryIO

from fieldbook.quantities.admit import problems
from fieldbook.record.codec import BadEntry, from_document
from fieldbook.store.log.fast_reader import quick_entry
from fieldbook.store.log.line import FORMAT, LONGEST, VERSION, BadLine, LogLine, decode
from fieldbook.store.log.logfile import LogFile, named
from fieldbook.store.log.upgrades import upgraded

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from fieldbook.record.entry import Entry

FURTHEST_AHEAD = 1_000_000
"""How far an entry's number may be above those before it in its file: more entries than a gauge
that is read every second makes in eleven days."""


def read_log(path: Path) -> LogFile:
    """Read a whole log file.

    Raises:
        OSError: It cannot be read.
    """
    log = named(path)
    with path.open("rb") as file:
        _read(log, file)
    return log


def read_start(path: Path, size: int) -> bytes:
    """The first bytes of a file, and not one more, whatever it has become.

    Raises:
        OSError: It cannot be read.
    """
    with path.open("rb") as file:
        return file.read(size)


def job_named(path: Path) -> str:
    """The job that a log's first line names; empty where it cannot be read.

    Raises:
        OSError: It cannot be read.
    """
    log = named(path)
    with path.open("rb") as file:
        raw = file.readline(LONGEST + 2)
    with contextlib.suppress(BadLine):
        line = decode(raw.removesuffix(b"\n"))
        if line.key == "head":
            log.header = line.body
    return log.job_id


def read_on(log: LogFile) -> list[Entry]:
    """Read what was added to a file since it was last read, and return it.

    Raises:
        OSError: It cannot be read.
    """
    before = len(log.entries)
    with log.path.open("rb") as file:
        file.seek(log.whole_bytes)
        _read(log, file)
    return [entry for _, entry in log.entries[before:]]


def _read(log: LogFile, file: BinaryIO) -> None:
    log.torn = b""
    whole = _is_whole(log)
    for raw, size, ended in _raw_lines(file):
        number = log.last_number + 1
        if whole and ended and (found := quick_entry(raw, number, log.head, log.device)):
            log.lines += 1
            log.whole_bytes += size
            entry, line_hash = found
            _follow(log, number, line_hash)
            _count(log, entry)
            continue
        if log.lines == 1 and log.is_newer:  # the first line tells; nothing after it is read
            return
        if not ended and _is_cut_short(raw, size):
            log.torn = raw
            return
        log.lines += 1
        log.whole_bytes += size
        _careful(log, raw if ended else None)
        whole = _is_whole(log)


def _is_whole(log: LogFile) -> bool:
    """Whether the next line must be one of the present format that follows from the last."""
    return log.version == VERSION and not log.gap and log.lines > 0


def _careful(log: LogFile, raw: bytes | None) -> None:
    """Take a line, None where its end is not what was written, or note what is wrong with it."""
    try:
        line = decode(raw) if raw is not None else None
    except BadLine as error:
        _spoiled(log, str(error))
        return
    if line is None:
        _spoiled(log, "its line end is not what was written")
    else:
        _take(log, line)


def _spoiled(log: LogFile, why: str) -> None:
    log.broken(f"damaged: {why}; the lines around it are read")
    log.gap = True


def _raw_lines(file: BinaryIO) -> Iterator[tuple[bytes, int, bool]]:
    """Each line without its end, its size, and whether it has an end.

    Of a line that is too long only the beginning, so that no line can fill the memory.
    """
    while raw := file.readline(LONGEST + 2):
        size = len(raw)
        if raw.endswith(b"\n"):
            yield raw[:-1], size, True
            continue
        ended = False
        while not ended and (more := file.readline(LONGEST)):
            size, ended = size + len(more), more.endswith(b"\n")
        yield raw, size, ended


def _is_cut_short(raw: bytes, size: int) -> bool:
    """Whether the end of a file is a line that was never finished, and not a spoiled whole one."""
    if size > LONGEST:
        return False
    try:
        decode(raw[:-1])
    except BadLine:
        return True
    return False


def _take(log: LogFile, line: LogLine) -> None:
    follows = line.number == log.last_number + 1 and line.previous == log.head
    if log.gap:  # the line before cannot say what this one must name
        follows = line.number > log.last_number
    if not follows:
        log.broken("does not follow the line before it: a line was taken out, put in or altered")
    log.gap = False
    _follow(log, line.number, line.hash)
    if line.key == "head":
        _take_header(log, line)
    else:
        _take_entry(log, line)


def _follow(log: LogFile, number: int, line_hash: str) -> None:
    log.head, log.last_number = line_hash, number
    log.line_of[line_hash] = log.lines
    if not log.damaged:
        log.chained = log.lines


def _take_header(log: LogFile, line: LogLine) -> None:
    if log.lines != 1 or line.body.get("format") != FORMAT:
        log.broken("not the first line of a log of ours")
        return
    log.header = line.body
    if log.is_newer:
        log.trouble(1, f"written by a newer fieldbook (format {log.version}); update this one")
    elif line.body.get("device") != log.device:
        log.broken("the file's name and its first line name different devices")


def _take_entry(log: LogFile, line: LogLine) -> None:
    try:
        version = VERSION if log.version is None else log.version
        entry = from_document(upgraded(line.body, version))
    except BadEntry as error:
        log.trouble(log.lines, f"not an entry: {error}")
        return
    if found := problems(entry):
        log.trouble(log.lines, f"not taken: {found[0]}")
    elif entry.device != log.device:
        log.trouble(log.lines, "not taken: it names another device than its file")
    else:
        _count(log, entry)


def _count(log: LogFile, entry: Entry) -> None:
    """Count an entry; one whose number nothing explains by its place in the file.

    An entry is numbered one above the highest that its device had seen, so a number may leap over
    what other devices wrote, here or not. Where it leaps over more than any job holds it is none,
    and every later reading would come before it.
    """
    if entry.seq > log.last_seq + FURTHEST_AHEAD:
        words = f"its number {entry.seq} is beyond what any job holds: counted where it stands,"
        log.trouble(log.lines, f"{words} as {log.last_seq + 1}")
        entry = entry._replace(seq=log.last_seq + 1)
    log.last_seq = max(log.last_seq, entry.seq)
    log.entries.append((log.lines, entry))
