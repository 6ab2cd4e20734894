"""Which mistakes are made: so many a room, spread over its files, the same in every run."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path

from tests.mutants.operators import Mutant, mutants_of

SHARES = {
    "calc": 40, "fieldbook/record": 14, "fieldbook/quantities": 14, "fieldbook/walk": 34,
    "fieldbook/watch": 52, "fieldbook/store": 34, "fieldbook/office": 12,
}  # fmt: skip
"""Room -> mistakes drawn in it; 200 in all, more where a mistake costs more."""

_WRITER, _READER = "fieldbook/store/log/writer.py", "fieldbook/store/log/reader.py"
_SCAN = "fieldbook/store/gather/folder_scan.py"
_UNCHANGED = "DISK.is_unchanged(self._descriptor, self._path, size)"
FIXED = (
    f"{_WRITER}::_put_header: DISK.sync_folder(self._folder) -> pass",
    f"{_WRITER}::_put: not {_UNCHANGED} -> ({_UNCHANGED})",
    f'{_READER}::_take_header: log.broken("not the first line of a log of ours") -> pass',
    f"{_SCAN}::_files: log.job_id and log.lines -> ((log.job_id) or (log.lines))",
    "fieldbook/walk/barring.py::stopped: step.records in _LIFTS -> (step.records not in _LIFTS)",
    "fieldbook/office/sql/rows.py::entry_row: not job.is_live(entry) -> (job.is_live(entry))",
)
"""Keys of mistakes that are made in every run, besides those that are drawn."""

EQUIVALENT: dict[str, str] = {
    "fieldbook/record/job.py::add: 1 -> (1 + 1)": "A revision is only held against another.",
    "fieldbook/record/worn.py::_thinnest: 0.0 -> (0.0 + 1)": "A wall is a length, above zero.",
    "fieldbook/walk/hold_check.py::_number: value.number is not None -> (value.number is None)": (
        "The other way computes the same number, and loads pint for it."
    ),
    "fieldbook/watch/depth/by_load_break.py::_is_the_water: air > 0.0 -> (air >= 0.0)": (
        "A slope of zero is never the steeper of the two, which the next line asks."
    ),
    "fieldbook/store/shelf/index.py::_stamps: 1 -> (1 + 1)": (
        "Any size or time below zero marks a folder that could not be read."
    ),
    "fieldbook/office/sheet/drawing.py::_words: True -> False": (
        "There are always as many places as labels."
    ),
}
"""Key of a mistake -> why the program does the same with it."""


def sample(top: Path) -> Iterator[Mutant]:
    """The mistakes of every room, in the order of its files."""
    for room, count in SHARES.items():
        found = [
            mutant
            for path in sorted((top / room).rglob("*.py"))
            for mutant in mutants_of(top, path)
        ]
        drawn = sorted(found, key=_draw)
        chosen = drawn[:count] + [mutant for mutant in drawn[count:] if mutant.key in FIXED]
        yield from sorted(chosen, key=lambda mutant: (mutant.path, mutant.start))


def _draw(mutant: Mutant) -> str:
    """A lot that falls the same way as long as function and mistake are the same."""
    return hashlib.sha256(mutant.key.encode()).hexdigest()
