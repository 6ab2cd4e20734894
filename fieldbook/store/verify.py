"""Checks every line of every log under a path, every seal and attachment; says what it found."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import PurePath
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.plain import plain
from fieldbook.store.attachments import attachment_problems
from fieldbook.store.folder import read_folder
from fieldbook.store.names import UNFINISHED
from fieldbook.store.reading import read_log
from fieldbook.store.seal import seal_hash, seal_problems, seals_of

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from fieldbook.record.entry import Entry
    from fieldbook.store.logfile import LogFile
    from fieldbook.store.problem import Problem


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
        """Whether every acknowledged line, every seal and every attachment stands.

        A torn tail was never acknowledged.
        """
        return bool(self.logs) and not any(problem.damage for problem in self.problems)

    def __str__(self) -> str:
        lines = [f"{self.path}: {'whole' if self.whole else 'NOT WHOLE'}"]
        lines += [f"  {self._name(log)}: {log.lines} lines, {log.head[:16]}" for log in self.logs]
        lines += [
            f"  {plain(_in(folder))}seal of {seal.time:%Y-%m-%d %H:%M} by {plain(seal.by)}:"
            f" {seal_hash(seal)}"
            for folder, seal in self.seals
        ]
        lines += [f"  {problem}" for problem in self.problems]
        if not self.logs:
            lines.append("  there is no log here")
        return "\n".join(lines)

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


def verify(path: Path, *, told: Callable[[int, int], None] | None = None) -> Verification:
    """Check a log file, a job's folder, or every job under a folder.

    Args:
        path: What to check.
        told: Is told how many folders of how many are checked.

    Raises:
        OSError: Something there cannot be read.
    """
    found = Verification(path)
    if path.is_file():
        log = read_log(path)
        found.logs.append(log)
        found.problems += log.findings
        return found
    below = (p for p in path.rglob("*") if p.is_dir())
    folders = sorted([path, *(p for p in below if UNFINISHED not in p.relative_to(path).parts)])
    for done, folder in enumerate(folders):
        if told is not None:
            told(done, len(folders))
        if not folder.is_symlink():
            job = read_folder(folder)
            found.logs += job.logs.values()
            # A device's logs are called the same in every job.
            within = "" if folder == path else str(folder.relative_to(path))
            wrong = (*job.findings(), *seal_problems(job), *attachment_problems(job))
            found.seals += [(within, seal) for seal in seals_of(job)]
            found.problems += [
                replace(problem, file=str(PurePath(within, problem.file))) for problem in wrong
            ]
    return found


def _in(folder: str) -> str:
    return f"{folder}: " if folder else ""
