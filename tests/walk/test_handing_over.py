"""A hand-over counts what the book has counted, the way the string goes, or says so."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.walk.counts import counts
from fieldbook.walk.handing_over import counted_otherwise
from tests.walk.logs import Log


def moved(line: str) -> Log:
    """Five joints or 400 ft out, and two joints or 120 ft in again."""
    log = Log()
    if line == "hose":
        for direction, counter in (("out", "400 ft"), ("in", "120 ft")):
            log.write("footage", direction=direction, footage=counter)
        return log
    for direction, number in (("out", 5), ("in", 2)):
        for joint in range(1, number + 1):
            log.write("joint", direction=direction, joint_number=joint, joint_length=21)
    return log


@pytest.mark.parametrize(
    ("line", "direction", "said", "words"),
    [
        ("steel", "in", {"count_now": 2}, ""),
        ("steel", "in", {"count_now": 5}, "counted 5 joints in, 2 are written"),
        ("steel", "out", {"count_now": 5}, ""),
        ("steel", "out", {"count_now": 6}, "counted 6 joints out, 5 are written"),
        ("hose", "in", {"footage": "120.5 ft"}, ""),
        ("hose", "in", {"footage": "36.6 m"}, ""),
        ("hose", "in", {"footage": "400 ft"}, "the counter reads 400 ft in, 120 ft is written"),
        ("hose", "out", {"footage": "400 ft"}, ""),
        ("hose", "out", {"footage": "390 ft"}, "the counter reads 390 ft out, 400 ft is written"),
    ],
)
def test_what_was_counted_is_held_against_what_is_written(
    line: str, direction: str, said: dict[str, Any], words: str
) -> None:
    log = moved(line)
    entry = log.write("handover", witness="CD", direction=direction, **said)

    assert words == counted_otherwise(counts(log.job), direction, entry)


def test_nothing_written_is_nothing_counted() -> None:
    log = Log()
    entry = log.write("handover", witness="CD", direction="in", footage="3 ft")

    assert counted_otherwise(counts(log.job), "in", entry).endswith("0 ft is written")
