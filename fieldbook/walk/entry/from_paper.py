"""Entries made after it happened, from paper mostly: how they are marked, and what is not believed.

The release of a hold point that is written down afterwards is a record that somebody gave it.
Nobody who answers for this log saw it, so it is never shown as a witnessed one.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.walk.moves import MOVES
from fieldbook.walk.release import same, text_of

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry, Value

AFTERWARDS = "afterwards"
NOT_WITNESSED = "afterwards, hold not witnessed"

_PAPER = ("written_by", "written_on", "written_at")
_MADE_NOW = frozenset({"strike", "seal", "sealed_logs", "attachment"})
"""Kinds of entry that are the act itself, which no paper can have done."""


@dataclass(frozen=True, slots=True)
class Paper:
    """What a paper says of itself while it is being put into the book.

    Attributes:
        by: Initials of who wrote it.
        on: Its day, as year-month-day.
        entered_by: Initials of who puts it in.
    """

    by: str
    on: str
    entered_by: str

    def problems(self, now: dt.datetime) -> list[str]:
        """Why there can be no such paper at the time `now`; empty when there can."""
        return paper_problems(from_paper(Draft("note", self.entered_by), self), now)


def is_afterwards(said: Draft | Entry) -> bool:
    """Whether it was made after it happened."""
    return text_of(said, "recorded").startswith(AFTERWARDS) or any(n in said.values for n in _PAPER)


def from_paper(draft: Draft, paper: Paper, at: Value | None = None) -> Draft:
    """`draft` as it is on `paper`, at the time of day `at` where the paper says one."""
    if draft.kind in _MADE_NOW:
        return draft
    values = dict(draft.values) | {
        "written_by": plain_value(paper.by),
        "written_on": plain_value(paper.on),
    }
    if at is not None:
        values["written_at"] = at
    if not same(paper.entered_by, draft.by):
        values["entered_by"] = plain_value(paper.entered_by)
    return marked(replace(draft, values=values))


def marked(draft: Draft) -> Draft:
    """`draft` with the mark that it was made afterwards, where it says that a paper has it."""
    if not is_afterwards(draft):
        return draft
    word = NOT_WITNESSED if draft.kind == "hold" or draft.kind in MOVES else AFTERWARDS
    if text_of(draft, "recorded") not in ("", AFTERWARDS):
        return draft
    return replace(draft, values=dict(draft.values) | {"recorded": plain_value(word)})


def paper_problems(draft: Draft, now: dt.datetime) -> list[str]:
    """Why what `draft` says of its paper cannot be so, in plain words; empty when it can.

    Args:
        draft: What is about to be recorded.
        now: The time by this device's clock, with its offset from UTC.
    """
    said = {name: text_of(draft, name) for name in _PAPER}
    if not any(said.values()):
        return []
    found = []
    if draft.kind in _MADE_NOW:
        found.append("this is done now, not on paper")
    if text_of(draft, "recorded") == "as it happened":
        found.append("what a paper says was not recorded as it happened")
    if not said["written_by"].strip():
        found.append("who wrote the paper is needed")
    if not said["written_on"]:
        found.append("the day of the paper is needed")
    else:
        day = dt.date.fromisoformat(said["written_on"])
        time = dt.time.fromisoformat(said["written_at"] or "00:00")
        if dt.datetime.combine(day, time) > now.replace(tzinfo=None):
            found.append("the paper is of a day or a time that has not come yet")
    return found
