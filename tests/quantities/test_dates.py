"""Dates of gear, held against a day that is given."""

from __future__ import annotations

import datetime as dt

import pytest

from fieldbook.quantities.dates import SOON_DAYS, DateStatus, standing

DUE = dt.date(2026, 10, 1)


@pytest.mark.parametrize(
    ("days", "status", "words"),
    [
        (-1, DateStatus.SOON, "inspection due 2026-10-01"),
        (0, DateStatus.SOON, "inspection due 2026-10-01"),
        (1, DateStatus.PAST, "inspection was due 2026-10-01"),
        (-SOON_DAYS, DateStatus.SOON, "inspection due 2026-10-01"),
        (-SOON_DAYS - 1, DateStatus.GOOD, "inspection due 2026-10-01"),
    ],
)
def test_the_day_itself_still_counts_and_the_next_does_not(
    days: int, status: DateStatus, words: str
) -> None:
    seen = standing({"inspection_due": "2026-10-01"}, DUE + dt.timedelta(days=days))

    assert (seen.status, seen.words, seen.due) == (status, words, DUE)


def test_a_calibration_counts_for_a_year_where_no_due_date_is_written() -> None:
    """Alberta OHS 768: by the maker's rule or yearly."""
    dates = {"calibrated": "2025-10-01"}

    assert standing(dates, DUE).status is DateStatus.SOON
    seen = standing(dates, DUE + dt.timedelta(days=1))
    assert seen.status is DateStatus.PAST
    assert seen.words == "calibration was due 2026-10-01, a year after the last"


@pytest.mark.parametrize(
    ("calibrated", "due"), [("2028-02-29", "2029-02-28"), ("9999-05-01", "9999-12-31")]
)
def test_a_year_after_any_day_is_a_day(calibrated: str, due: str) -> None:
    seen = standing({"calibrated": calibrated}, DUE).due

    assert seen is not None
    assert seen.isoformat() == due


def test_a_due_date_that_is_written_rules_over_the_year() -> None:
    dates = {"calibrated": "2024-10-01", "calibration_due": "2027-10-01"}

    assert standing(dates, DUE).status is DateStatus.GOOD


def test_the_worst_of_two_dates_rules_and_comes_first() -> None:
    dates = {"inspection_due": "2027-01-01", "calibration_due": "2026-09-30"}
    seen = standing(dates, DUE)

    assert seen.status is DateStatus.PAST
    assert seen.words == "calibration was due 2026-09-30, inspection due 2027-01-01"


@pytest.mark.parametrize(
    ("dates", "words"),
    [({}, "no due date written"), ({"inspected": "2026-01-02"}, "inspected 2026-01-02, no due")],
)
def test_no_due_date_is_said_and_is_never_good(dates: dict[str, str], words: str) -> None:
    seen = standing(dates, DUE)

    assert (seen.status, seen.due) == (DateStatus.NOT_WRITTEN, None)
    assert seen.words.startswith(words)
