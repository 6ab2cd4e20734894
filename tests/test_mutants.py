"""The mistakes of the mutation study can be made: each stands in its file and compiles."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from tests.mutants.sample import EQUIVALENT, FIXED, SHARES, sample

TOP = Path(__file__).resolve().parents[1]
MUTANTS = tuple(sample(TOP))


def test_so_many_are_drawn_from_each_room() -> None:
    drawn = Counter(
        room
        for mutant in MUTANTS
        for room in SHARES
        if mutant.path.startswith(f"{room}/") and mutant.key not in FIXED
    )
    assert drawn == SHARES
    assert set(FIXED) <= {mutant.key for mutant in MUTANTS}


def test_each_changes_its_file_into_other_python() -> None:
    for mutant in MUTANTS:
        text = (TOP / mutant.path).read_text(encoding="utf-8")
        changed = mutant.applied(text)  # which asserts that the text it replaces is there
        assert changed != text, mutant.key
        compile(changed, mutant.path, "exec")


def test_what_counts_as_equivalent_is_drawn_and_says_why() -> None:
    assert set(EQUIVALENT) <= {mutant.key for mutant in MUTANTS}
    assert all(why.endswith(".") for why in EQUIVALENT.values())
