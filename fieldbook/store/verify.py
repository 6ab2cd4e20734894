"""Checks every line of every log under a path, every seal and attachment; says what it found."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.plain import plain
from fieldbook.store.attachments import attachment_problems
from fieldbook.store.folder import read_folder
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
        seals: Every seal in them, struck ones too.
        problems: Everything that is wrong, file by file and line by line.
    """

    path: Path
    logs: list[LogFile] = field(default_factory=list)
    seals: list[Entry] = field(default_factory=list)
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
            f"  seal of {seal.time:%Y-%m-%d %H:%M} by {plain(seal.by)}: {seal_hash(seal)}"
            for seal in self.seals
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
                {"id": seal.id, "by": seal.by, "time": seal.time.isoformat(timespec="seconds"),
                 "hash": seal_hash(seal)}
                for seal in self.seals
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
    folders = sorted([path, *(p for p in path.rglob("*") if p.is_dir())])
    for done, folder in enumerate(folders):
        if told is not None:
            told(done, len(folders))
        if not folder.is_symlink():
            job = read_folder(folder)
            found.logs += job.logs.values()
            found.seals += seals_of(job)
            found.problems += [*job.findings(), *seal_problems(job), *attachment_problems(job)]
    return found
