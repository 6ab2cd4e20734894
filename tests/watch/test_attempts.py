"""Each attempt to make the book say what flatters gets the word that is owed to it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.watch.attempts import Attempt, attempts, said_to

TABLE = attempts()
MENDED = [each for each in TABLE if each.before not in each.owed]


def named(attempt: Attempt) -> str:
    return f"{attempt.item}-{attempt.base}-{attempt.asks}-{attempt.says}".replace("/", "_")


@pytest.mark.parametrize("attempt", TABLE, ids=named)
def test_an_attempt_gets_the_word_that_is_owed(tmp_path: Path, attempt: Attempt) -> None:
    assert said_to(attempt, tmp_path / "home") in attempt.owed


def test_the_table_holds_what_was_found_and_what_must_go_on_being_good() -> None:
    """Most were flattered before; the rest keep the mending from refusing what is true."""
    assert len(TABLE) >= 150
    assert len(
        {tuple(map(str, (t.base, t.put, t.drop, t.add, t.asks, t.says))) for t in TABLE}
    ) == len(TABLE)
    assert len(MENDED) >= 100
    assert {item for item in range(1, 14) if item != 12} <= {each.item for each in TABLE}
    assert {each.base for each in TABLE} >= {"pvc", "steel", "hose"}
