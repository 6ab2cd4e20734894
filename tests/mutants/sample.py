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
"""Room -> mistakes made in it; 200 in all, more where a mistake costs more."""

EQUIVALENT: dict[str, str] = {
    "fieldbook/record/job.py::add: 1 -> (1 + 1)": "a revision is only held against another",
    "fieldbook/record/worn.py::_thinnest: 0.0 -> (0.0 + 1)": "a wall is a length, above zero",
    "fieldbook/walk/hold_check.py::_number: value.number is not None -> (value.number is None)": (
        "the other way computes the same number, and loads pint for it"
    ),
    "fieldbook/watch/depth/by_load_break.py::_is_the_water: air > 0.0 -> (air >= 0.0)": (
        "no load changes less than none, which is asked next"
    ),
    "fieldbook/store/shelf/index.py::_stamps: 1 -> (1 + 1)": "any stamp that no file has",
    "fieldbook/office/sheet/drawing.py::_words: True -> False": "as many places as labels, always",
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
        chosen = sorted(found, key=_draw)[:count]
        yield from sorted(chosen, key=lambda mutant: (mutant.path, mutant.start))


def _draw(mutant: Mutant) -> str:
    """A lot that falls the same way as long as function and mistake are the same."""
    return hashlib.sha256(mutant.key.encode()).hexdigest()
