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

EQUIVALENT: dict[str, str] = {}
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
