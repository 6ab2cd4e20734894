"""Whether the dates of a piece of gear are past, on a day that the caller names."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within

if TYPE_CHECKING:
    from collections.abc import Mapping

DATES = ("inspected", "inspection_due", "calibrated", "calibration_due")
"""What is said of when gear was looked at, and until when that counts."""
SOON_DAYS = 30
"""Days ahead within which a date is said to be due soon: ours, no published source."""
_PAIRS = (DATES[:2], DATES[2:])


class DateStatus(StrEnum):
    """How the dates of a piece of gear stand."""

    PAST = "past"
    SOON = "soon"
    GOOD = "good"
    NOT_WRITTEN = "not written"


@dataclass(frozen=True, slots=True)
class DateCheck:
    """How the dates of a piece of gear stand on a day.

    Attributes:
        status: The worst of them.
        words: What to say of them, such as "inspection was due 2026-10-01".
        due: The earliest day on which something is due; None where none is written.
    """

    status: DateStatus
    words: str
    due: dt.date | None = None


def standing(dates: Mapping[str, str], today: dt.date) -> DateCheck:
    """How `dates` stand on `today`; the day itself on which something is due still counts.

    A calibration without a due date counts for a year (Alberta OHS 768 as good practice: by the
    maker's rule, or yearly).

    Args:
        dates: Names of `DATES` with their days, as year-month-day.
        today: The day.

    >>> standing({"inspection_due": "2026-10-01"}, dt.date(2026, 10, 2)).words
    'inspection was due 2026-10-01'
    """
    found = [(due, words) for done, due_on in _PAIRS for due, words in _due(dates, done, due_on)]
    if not found:
        done = [
            f"{within(definition(name).label)} {dates[name]}" for name in DATES if name in dates
        ]
        return DateCheck(DateStatus.NOT_WRITTEN, ", ".join([*done, "no due date written"]))
    first = min(due for due, _ in found)
    said = [words.format("was due" if due < today else "due") for due, words in sorted(found)]
    if first < today:
        status = DateStatus.PAST
    else:
        status = DateStatus.SOON if (first - today).days <= SOON_DAYS else DateStatus.GOOD
    return DateCheck(status, ", ".join(said), first)


def _due(dates: Mapping[str, str], done: str, due_on: str) -> list[tuple[dt.date, str]]:
    """The day on which one thing is due, and the words for it with room for the verb."""
    word = within(definition(due_on).label.removesuffix(" due"))
    if due_on in dates:
        due = dt.date.fromisoformat(dates[due_on])
        return [(due, f"{word} {{}} {due}")]
    if done != "calibrated" or done not in dates:
        return []
    due = _a_year_after(dt.date.fromisoformat(dates[done]))
    return [(due, f"{word} {{}} {due}, a year after the last")]


def _a_year_after(day: dt.date) -> dt.date:
    if day.year == dt.MAXYEAR:
        return dt.date.max
    try:
        return day.replace(year=day.year + 1)
    except ValueError:  # 29 February
        return day.replace(year=day.year + 1, day=28)
