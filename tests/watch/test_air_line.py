"""The level by an air line beside the level that was written."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.quantities.admit import draft_from
from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import load
from fieldbook.walk.entry.doubts import Asked, doubt_about
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import job_of, says

AIR = {"water_level": "92.3 ft", "air_line_depth": "150 ft", "air_line_pressure": "25 psi"}
"""MIL-HDBK-1164 Appendix A: 150 ft of air line, 25 psi: 57.7 ft covered, 92.3 ft to water."""


def check(**level: Any) -> Check | None:
    job = job_of(
        says("job", job_number="A-1", line="pvc", work="check"),
        says("level", level_state="static", **level),
    )
    return next((c for c in Watcher(job).look().checks if c.name == "air line"), None)


def test_the_printed_example() -> None:
    found = check(**AIR)

    assert found is not None
    assert found.verdict is Verdict.WITHIN
    assert found.governs.startswith("92.3 ft to water by the air line")


def test_a_level_apart_is_a_caution() -> None:
    found = check(**{**AIR, "water_level": "57.7 ft"})

    assert found is not None
    assert found.verdict is Verdict.CAUTION
    assert "is wrong" in found.note


@pytest.mark.parametrize(
    ("gone", "named"),
    [("air_line_depth", "air line ends at"), ("air_line_pressure", "air line gauge")],
)
def test_each_figure_taken_away_is_named(gone: str, named: str) -> None:
    found = check(**{n: v for n, v in AIR.items() if n != gone})

    assert found is not None
    assert found.verdict is Verdict.UNKNOWN
    assert found.missing == (named,)


def test_more_pressure_than_the_line_is_deep_is_unknown() -> None:
    found = check(**{**AIR, "air_line_pressure": "300 psi"})

    assert found is not None
    assert found.verdict is Verdict.UNKNOWN
    assert "plugged" in found.missing[0]


def test_without_an_air_line_nothing_is_said() -> None:
    assert check(water_level="92.3 ft") is None


@pytest.mark.parametrize(("level", "doubted"), [("92.3 ft", False), ("57.7 ft", True)])
def test_the_form_says_what_the_air_line_gives(level: str, doubted: bool) -> None:
    step = next(s for s in load("pvc", "check").steps if s.id == "test.level")
    said = draft_from(says("level", **{**AIR, "water_level": level})).values
    told = doubt_about(Job(), Asked.at(step), "air_line_pressure", said)

    assert told == ("150 - 25 psi x 2.31 = 92.2 ft to water" if doubted else "")
