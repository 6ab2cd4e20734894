"""Reads one log file: every whole line, and the name of everything that is wrong with the rest."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, BinaryIO

from fieldbook.quantities.admit import problems
from fieldbook.record.codec import BadEntry, from_document
from fieldbook.record.entry import Draft
from fieldbook.store.line import FORMAT, LONGEST, NO_LINE, VERSION, BadLine, Line, decode
from fieldbook.store.problem import Problem
from fieldbook.store.upgrades import upgraded

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from fieldbook.record.entry import Entry

_NAME = re.compile(r"(?P<device>[a-z0-9-]{1,48})-(?P<number>[0-9]{4})(?:~[0-9a-f]{12})?\.jsonl")


@dataclass(slots=True)
class LogFile:
    """What one file holds.

    Attributes:
        path: The file.
        device: The device it belongs to, by its name.
        number: Its place among that device's files.
        header: Its first line's document; None when it cannot be read.
        entries: Line number and entry of each line that stands.
        problems: Everything that is wrong.
        head: Hash of the last whole line.
        hashes: Hash of every whole line.
        whole_bytes: Length of the file up to and with its last whole line.
        lines: How many lines stand in those bytes.
        torn: The bytes after them: a line that was never finished.
        damaged: A line before the last is not what was written.
    """

    path: Path
    device: str
    number: int
    header: dict[str, Any] | None = None
    entries: list[tuple[int, Entry]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    head: str = NO_LINE
    hashes: set[str] = field(default_factory=set)
    whole_bytes: int = 0
    lines: int = 0
    torn: bytes = b""
    damaged: bool = False

    @property
    def version(self) -> int:
        """The format it was written in, 0 when that cannot be read."""
        version = (self.header or {}).get("version", 0)
        return version if isinstance(version, int) else 0

    @property
    def job_id(self) -> str:
        """The job it belongs to, empty when that cannot be read."""
        return str((self.header or {}).get("job", "")) if self.readable else ""

    @property
    def readable(self) -> bool:
        """Whether this program knows its format."""
        return self.header is not None and 0 < self.version <= VERSION

    def trouble(self, line: int, words: str, *, damage: bool = True) -> None:
        """Note that something is wrong."""
        self.problems.append(Problem(self.path.name, line, words, damage))


def log_files(folder: Path) -> tuple[list[Path], list[Problem]]:
    """The log files of a job's folder by name, and what must not be read there."""
    found, refused = [], []
    for path in sorted(folder.iterdir()):
        if _NAME.fullmatch(path.name) is None:
            continue
        if path.is_symlink() or not path.is_file():
            refused.append(Problem(path.name, 0, "not a plain file, so it is not read"))
        else:
            found.append(path)
    return found, refused


def read_log(path: Path) -> LogFile:
    """Read a whole log file.

    Raises:
        OSError: It cannot be read.
    """
    match = _NAME.fullmatch(path.name)
    log = LogFile(path, match["device"] if match else "", int(match["number"]) if match else 0)
    with path.open("rb") as file:
        _Reader(log).read(file)
    return log


def job_id_of(folder: Path) -> str:
    """The job that the logs in `folder` belong to; empty when none of them can say.

    Raises:
        OSError: A log cannot be read.
    """
    return next((job_id for path in log_files(folder)[0] if (job_id := read_log(path).job_id)), "")


def read_on(log: LogFile) -> list[Entry]:
    """Read what was added to an undamaged file since it was last read, and return it.

    Raises:
        OSError: It cannot be read.
    """
    before = len(log.entries)
    with log.path.open("rb") as file:
        file.seek(log.whole_bytes)
        log.torn = b""
        _Reader(log).read(file)
    return [entry for _, entry in log.entries[before:]]


class _Reader:
    """Walks the lines of one file; bad ones are held back until it is known what follows them."""

    def __init__(self, log: LogFile) -> None:
        self._log = log
        self._bad: list[tuple[int, str, bytes]] = []

    def read(self, file: BinaryIO) -> None:
        log = self._log
        for raw, ended in _raw_lines(file):
            number = log.lines + len(self._bad) + 1
            try:
                line = decode(raw) if ended else None
            except BadLine as error:
                self._bad.append((number, str(error), raw + b"\n"))
                continue
            if line is None:
                self._bad.append((number, "it was never finished", raw))
                continue
            self._settle_bad()
            self._take(line, number, len(raw) + 1)
            if log.header is not None and not log.readable:
                return
        self._tear()

    def _settle_bad(self) -> None:
        """Whole lines follow the bad ones, so those are damage and not a torn tail."""
        for number, words, raw in self._bad:
            self._log.trouble(number, f"damaged: {words}; the lines after it are read")
            self._log.damaged = True
            self._log.lines += 1
            self._log.whole_bytes += len(raw)
        self._bad.clear()

    def _tear(self) -> None:
        """Nothing whole follows the bad lines: they are the torn end of the last write."""
        if self._bad:
            number, words, _ = self._bad[0]
            self._log.torn = b"".join(raw for _, _, raw in self._bad)
            self._log.trouble(
                number, f"torn, {words}; {len(self._log.torn)} bytes set aside", damage=False
            )

    def _take(self, line: Line, number: int, size: int) -> None:
        log = self._log
        after_damage = log.damaged and log.lines > 0 and line.previous != log.head
        if line.number != number or (line.previous != log.head and not after_damage):
            log.trouble(
                number,
                "does not follow the line before it: a line was taken out, put in or altered",
            )
            log.damaged = True
        log.lines = number
        log.whole_bytes += size
        log.head = line.hash
        log.hashes.add(line.hash)
        if line.key == "head":
            self._take_header(line, number)
        else:
            self._take_entry(line, number)

    def _take_header(self, line: Line, number: int) -> None:
        log = self._log
        if number != 1 or line.body.get("format") != FORMAT:
            log.trouble(number, "not the first line of a log of ours")
            log.damaged = True
            return
        log.header = line.body
        if log.version > VERSION:
            log.trouble(1, f"written by a newer fieldbook (format {log.version}); update this one")
        elif line.body.get("device") != log.device:
            log.trouble(1, "the file's name and its first line name different devices")
            log.damaged = True

    def _take_entry(self, line: Line, number: int) -> None:
        log = self._log
        try:
            entry = from_document(upgraded(line.body, log.version or VERSION))
        except BadEntry as error:
            log.trouble(number, f"not an entry: {error}")
            return
        draft = Draft(entry.kind, entry.by, entry.values, entry.note, entry.strikes)
        if found := problems(draft):
            log.trouble(number, f"not taken: {found[0]}")
        elif entry.device != log.device:
            log.trouble(number, "not taken: it names another device than its file")
        else:
            log.entries.append((number, entry))


def _raw_lines(file: BinaryIO) -> Iterator[tuple[bytes, bool]]:
    """Each line without its end, and whether it had one; never more than a limit in memory."""
    while raw := file.readline(LONGEST + 2):
        if raw.endswith(b"\n"):
            yield raw[:-1], True
        else:
            yield raw, False
