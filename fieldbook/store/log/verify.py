"""Checks every line of every log under a path, every seal and attachment; says what it found."""

from __future__ import annotations

import os
from dataclasses import dataclass, field, replace
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.plain import plain
from fieldbook.store.gather.placement import unread, walk
from fieldbook.store.job.attachments import attachment_problems
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.logfile import unfit
from fieldbook.store.log.problem import Problem
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.seal import seal_hash, seal_problems, seals_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from fieldbook.record.entry import Entry
    from fieldbook.store.log.logfile import LogFile


@dataclass(slots=True)
class Verification:
    """What was found under one path.

    Attributes:
        path: The path.
        logs: Every log file that was read.
        seals: Every seal in them, struck ones too, and the folder it is of, below the path.
        problems: Everything that is wrong, file by file, as named below the path, and line by line.
    """

    path: Path
    logs: list[LogFile] = field(default_factory=list)
    seals: list[tuple[str, Entry]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    @property
    def whole(self) -> bool:
        """Whether every acknowledged line, every seal and every attachment is whole.

        A torn tail was never acknowledged.
        """
        return bool(self.logs) and not any(problem.damage for problem in self.problems)

    def __str__(self) -> str:
        lines = [f"{self.path}: {'whole' if self.whole else 'NOT WHOLE'}"]
        lines += [f"  {self._name(log)}: {log.lines} lines, {log.head[:16]}" for log in self.logs]
        lines += [
            f"  {_in(folder)}seal of {seal.time:%Y-%m-%d %H:%M} by {seal.by}: {seal_hash(seal)}"
            for folder, seal in self.seals
        ]
        lines += [f"  {problem}" for problem in self.problems]
        if not self.logs:
            lines.append("  there is no log here")
        return "\n".join(map(plain, lines))

    def _name(self, log: LogFile) -> str:
        return log.path.name if log.path == self.path else str(log.path.relative_to(self.path))

    def document(self) -> dict[str, Any]:
        """The findings as a JSON document."""
        return {
            "path": str(self.path),
            "whole": self.whole,
            "files": [
                {"file": self._name(log), "lines": log.lines, "entries": len(log.entries),
                 "head": log.head}
                for log in self.logs
            ],
            "seals": [
                {"folder": folder, "id": seal.id, "by": seal.by,
                 "time": seal.time.isoformat(timespec="seconds"), "hash": seal_hash(seal)}
                for folder, seal in self.seals
            ],
            "problems": [problem.document() for problem in self.problems],
        }  # fmt: skip


def verify(path: Path, *, on_progress: Callable[[int, int], None] | None = None) -> Verification:
    """Check a log file, a job's folder, or every job under a folder.

    What cannot be read is among the problems, and nothing is left out for it.

    Args:
        path: What to check.
        on_progress: Is called with how many folders of how many are checked.
    """
    found = Verification(path)
    if not os.path.isdir(path):  # noqa: PTH112 - never raises
        _check_file(path, found)
        return found
    folders = sorted(_folders(path, found))
    for done, folder in enumerate(folders):
        if on_progress is not None:
            on_progress(done, len(folders))
        # A device's logs are called the same in every job.
        within = "" if folder == path else str(folder.relative_to(path))
        try:
            _check_folder(folder, within, found)
        except OSError as error:
            found.problems.append(unread(error, path))
    return found


def _folders(path: Path, found: Verification) -> Iterator[Path]:
    """A folder and all below it; links are not followed."""

    def unreadable(error: OSError) -> None:
        found.problems.append(unread(error, path))

    for folder, _, _ in walk(path, unreadable):
        yield Path(folder)


def _check_file(path: Path, found: Verification) -> None:
    try:
        if why := unfit(Path(os.path.realpath(path))):
            found.problems.append(Problem(path.name, 0, why))
            return
        log = read_log(path)
    except OSError as error:
        found.problems.append(unread(error, path.parent))
        return
    found.logs.append(log)
    found.problems += log.findings


def _check_folder(folder: Path, within: str, found: Verification) -> None:
    job = read_folder(folder)
    found.logs += job.logs.values()
    found.seals += [(within, seal) for seal in seals_of(job)]
    wrong = [*job.findings(), *seal_problems(job), *attachment_problems(job)]
    found.problems += [
        replace(problem, file=str(PurePath(within, problem.file))) for problem in wrong
    ]


def _in(folder: str) -> str:
    return f"{folder}: " if folder else ""
