"""What a job promised and has not answered yet: follow-ups, lab results, records to file."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.record.days import closings, finished_on

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_SAID_BY = {
    "follow_up": ("item",),
    "sample": ("sample_id", "sample_tests", "laboratory"),
    "permit": ("record_duty",),
}
"""Kind of entry that promises -> the quantities that say what."""
KINDS = frozenset((*_SAID_BY, "record"))
"""Every kind of promise."""
_OF_IT = r"(?: (?:is|are|known|owed|due|needed|required|asked for|called for|to file|here))*"
_DENIAL = re.compile(
    rf"(?:none|nothing|no (?:new |other |pump |well )*(?:record|report|filing)s?){_OF_IT}"
    r"|not (?:needed|required|owed|due)(?: here)?",
    re.IGNORECASE,
)
_A_REASON = re.compile(r"[.!]?$|[,:(]| (?:for|on|in|as|since|because)\b", re.IGNORECASE)
_OF_A_RECORD = re.compile(
    r";|\b(?:but|and|records?|reports?|forms?|logs?|copy|copies|fil(?:e|ed|es|ing)|send|sent|county"
    r"|state|board|within|days?)\b",
    re.IGNORECASE,
)
"""What a reason for owing nothing never speaks of; words that do may owe something after all."""


@dataclass(frozen=True, slots=True)
class Promise:
    """One thing that was promised.

    Attributes:
        entry: The entry that promises it; an `answer` entry names it.
        kind: "follow_up", "sample", "permit", or "record" for one that the place may ask for.
        words: What was written of it; empty for a record nobody spoke of.
    """

    entry: Entry
    kind: str
    words: str

    @property
    def due(self) -> str:
        """The day that was named for it; empty where none was."""
        return self.entry.text("due") if self.kind != "record" else ""


def says_nothing_owed(words: str) -> bool:
    """Whether the words on a record to file say, as a whole, that there is none.

    They do when they are a denial, or a reason and a denial ("repair in kind: no new record"), or a
    denial and a reason ("none, same pump") that speaks of no record. A denial in passing ("pump
    record to the county, no new well") is none: what is in doubt is owed, for a line too many in a
    list of debts is seen and answered, and one that is not there is not.
    """
    whole = " ".join(words.split())
    before, colon, after = whole.partition(": ")
    return _denies(whole) or (bool(colon) and not _among_others(before) and _denies(after))


def _denies(words: str) -> bool:
    denial = _DENIAL.match(words)
    if denial is None:
        return False
    rest = words[denial.end() :]
    return _A_REASON.match(rest) is not None and _OF_A_RECORD.search(rest) is None


def _among_others(words: str) -> bool:
    """Whether what is denied is only one of several things."""
    return "," in words or ";" in words


def promised(job: Job) -> list[Promise]:
    """What entries of the job promise, and no answer settles.

    A record to file whose words say that there is none is owed only when a day is named.
    """
    answered = _answered(job)
    found = (_promise(entry) for kind in _SAID_BY for entry in job.live(kind))
    return [p for p in found if p is not None and p.entry.id not in answered]


def _promise(entry: Entry) -> Promise | None:
    words = ", ".join(text for name in _SAID_BY[entry.kind] if (text := entry.text(name)))
    owed = entry.kind != "permit" or (words and not says_nothing_owed(words))
    return Promise(entry, entry.kind, words or entry.note) if owed or entry.text("due") else None


def to_file(job: Job) -> Iterator[Promise]:
    """A record that the place may ask for of work that is over, where no permit says of one.

    It hangs on the entry that closed the work; whether and by when the place asks is not known
    here.
    """
    over = closings(job)
    has_duty = any(entry.text("record_duty") for entry in job.live("permit"))
    if (
        finished_on(job) is not None
        and not has_duty
        and _answered(job).isdisjoint(e.id for e in over)
    ):
        yield Promise(over[0], "record", "")


def _answered(job: Job) -> set[str]:
    return {entry.text("answers") for entry in job.live("answer")}
