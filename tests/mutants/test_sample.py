"""The mistakes that the study makes can be made: each is in its file, and is still a program."""

from __future__ import annotations

import ast
from pathlib import Path

from tests.mutants.sample import EQUIVALENT, SHARES, sample

TOP = Path(__file__).resolve().parents[2]


def test_every_mistake_changes_its_file_and_still_compiles() -> None:
    chosen = list(sample(TOP))
    assert len(chosen) == sum(SHARES.values()) == 200
    for mutant in chosen:
        text = (TOP / mutant.path).read_text(encoding="utf-8")
        applied = mutant.applied(text)
        assert applied != text, mutant.key
        ast.parse(applied)


def test_what_is_called_equivalent_is_drawn() -> None:
    assert set(EQUIVALENT) <= {mutant.key for mutant in sample(TOP)}
