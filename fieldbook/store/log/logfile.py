"""What one log file holds, and which files of a folder are logs."""

from __future__ import annotations

import re
import stat
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from fieldbook.record.ids import is_id
from fieldbook.store.log.line import NO_LINE, VERSION
from fieldbook.store.log.problem import Problem

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.record.entry import Entry

MOST_NUMBER = 9999
LARGEST_LOG = 64 * 1024 * 1024
"""Bytes of a log: a larger one is not read, and none is written, as a device goes on in a next."""
_NAME = re.compile(
    r"(?P<device>[a-z0-9-]{1,48})-(?P<number>[0-9]{4})(?P<twin>~[0-9a-f]{12})?\.jsonl"
)
_MOST_PROBLEMS = 100
_MOST_NOT_SAVED = 100


@dataclass(slots=True)
class LogFile:
    """What one file holds.

    Attributes:
        path: The file.
        device: The device it belongs to, by its name.
        number: Its place among that device's files; 0 when its name is not that of a log.
        twin: Whether it is a second file of that place, kept because the two differ.
        header: Its first line's document; None when it cannot be read.
        entries: Line number and entry of each line that can be read.
        problems: What is wrong with its lines, the unfinished end left out.
        head: Hash of the last whole line.
        last_number: The number that the last whole line carries.
        last_seq: The highest sequence number among its entries.
        line_of: Hash of every whole line -> where it is.
        chained: The line up to which each line follows from the one before.
        whole_bytes: Length of the file up to and with its last line end.
        lines: How many lines stand in those bytes, spoiled ones too.
        torn: The bytes after them: a line that was never finished.
        damaged: A line is not what was written; nothing more may be written to this file.
        gap: The last line is spoiled, so the next one need not name it.
    """

    path: Path
    device: str
    number: int
    twin: bool = False
    header: dict[str, Any] | None = None
    entries: list[tuple[int, Entry]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)
    head: str = NO_LINE
    last_number: int = 0
    last_seq: int = 0
    line_of: dict[str, int] = field(default_factory=dict)
    chained: int = 0
    whole_bytes: int = 0
    lines: int = 0
    torn: bytes = b""
    damaged: bool = False
    gap: bool = False

    @property
    def version(self) -> int | None:
        """The format it was written in; None when that cannot be read."""
        version = (self.header or {}).get("version")
        return version if isinstance(version, int) and not isinstance(version, bool) else None

    @property
    def is_newer(self) -> bool:
        """Whether a newer program wrote it, so that this one must leave it alone."""
        return self.version is not None and self.version > VERSION

    @property
    def job_id(self) -> str:
        """The job it belongs to, empty when that cannot be read."""
        job = (self.header or {}).get("job")
        return job if isinstance(job, str) and is_id(job) and not self.is_newer else ""

    @property
    def after(self) -> tuple[str, str] | None:
        """File and line hash that this file goes on from, if its first line names them."""
        named = (self.header or {}).get("after")
        if not isinstance(named, dict):
            return None
        return str(named.get("file")), str(named.get("hash"))

    @property
    def not_saved(self) -> list[str]:
        """Hashes of lines of earlier files whose saving failed, so that nobody counts on them."""
        named = (self.header or {}).get("not_saved")
        lines = named[:_MOST_NOT_SAVED] if isinstance(named, list) else []
        return [line for line in lines if isinstance(line, str) and len(line) == len(NO_LINE)]

    @property
    def findings(self) -> list[Problem]:
        """Everything that is wrong."""
        if not self.torn:
            return self.problems
        words = f"was never finished; its {len(self.torn)} bytes are not taken"
        return [*self.problems, Problem(self.path.name, self.lines + 1, words, damage=False)]

    def trouble(self, line: int, words: str) -> None:
        """Note that something is wrong."""
        if len(self.problems) < _MOST_PROBLEMS:
            self.problems.append(Problem(self.path.name, line, words))
        elif len(self.problems) == _MOST_PROBLEMS:
            words = "wrong too, and maybe more lines after it"
            self.problems.append(Problem(self.path.name, line, words))

    def broken(self, words: str) -> None:
        """Note that the line last read is not what was written there."""
        self.damaged = True
        self.trouble(self.lines, words)

    def leave_out(self, line_hash: str) -> None:
        """Do not count the entry of a line whose saving failed and which was tried again."""
        line = self.line_of.get(line_hash)
        self.entries = [(number, entry) for number, entry in self.entries if number != line]


def named(path: Path) -> LogFile:
    """An unread log file, known by its name."""
    match = _NAME.fullmatch(path.name)
    if match is None:
        return LogFile(path, "", 0)
    return LogFile(path, match["device"], int(match["number"]), twin=match["twin"] is not None)


def log_files(folder: Path) -> tuple[list[Path], list[Problem]]:
    """The log files of a job's folder by name, and what must not be read there.

    Raises:
        OSError: The folder cannot be read.
    """
    found, refused = [], []
    for path in sorted(path for path in folder.iterdir() if is_called_log(path.name)):
        if why := unfit(path):
            refused.append(Problem(path.name, 0, why))
        else:
            found.append(path)
    return found, refused


def is_called_log(name: str) -> bool:
    """Whether a file of that name is, or pretends to be, a log."""
    return _NAME.fullmatch(name) is not None


def unfit(path: Path) -> str:
    """Why what is called a log must not be read; empty where it may be.

    Raises:
        OSError: It cannot be read.
    """
    if not is_plain(path):
        return "not a plain file, so it is not read"
    if path.lstat().st_size > LARGEST_LOG:
        return f"larger than {LARGEST_LOG // 2**20} MB, which no log is, so it is not read"
    return ""


def is_plain(path: Path) -> bool:
    """Whether there is a file at `path`, which is no link."""
    try:
        return stat.S_ISREG(path.lstat().st_mode)
    except (FileNotFoundError, NotADirectoryError):
        return False
