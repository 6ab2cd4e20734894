"""What is owed over all jobs: follow-ups, lab results and records to file, by their day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from fieldbook.office.filing.localities import Locality
    from fieldbook.store.shelf.shelf import Shelf
    from fieldbook.store.shelf.summary import Summary


class DueState(StrEnum):
    """Whether what is owed is late on a day."""

    LATE = "late"
    NO_DAY = "no day named"
    DUE = "due"


WHAT = {
    "follow_up": "follow-up",
    "sample": "lab result",
    "permit": "record to file",
    "record": "record to file",
}
"""What is owed, by the kind of promise."""
_BY_THE_PLACE = {"permit", "record"}


@dataclass(frozen=True, slots=True)
class Owed:
    """One thing that is owed.

    Attributes:
        id: Of the entry that promised it; an `answer` entry names it.
        what: "follow-up", "lab result" or "record to file".
        words: What was written of it.
        due: By when; None when no day was named.
        state: Whether it is late.
        days: Until then, negative when it is late; None without a day.
        by: Who promised it.
        promised_at: When it was promised.
        job_number: Of the job.
        owner: Of the well.
        well: Name of the well.
        folder: Of the job.
    """

    id: str
    what: str
    words: str
    due: dt.date | None
    state: DueState
    days: int | None
    by: str
    promised_at: dt.datetime
    job_number: str
    owner: str
    well: str
    folder: Path

    def document(self) -> dict[str, Any]:
        """The debt as a JSON document."""
        return {
            "id": self.id,
            "what": self.what,
            "words": self.words,
            "due": self.due.isoformat() if self.due is not None else None,
            "state": self.state.value,
            "days": self.days,
            "by": self.by,
            "told": self.promised_at.isoformat(),
            "job": self.job_number,
            "owner": self.owner,
            "well": self.well,
            "folder": str(self.folder),
        }


def owed(
    shelf: Shelf,
    on: dt.date,
    *,
    summaries: Iterable[Summary] | None = None,
    place: Locality | None = None,
) -> list[Owed]:
    """Everything that is owed, what is latest first, then what has no day, then what comes.

    Args:
        shelf: The jobs, as last refreshed.
        on: The day to look from.
        summaries: Of some of its jobs; of all when None.
        place: Whose rule gives the day to a record of which the crew named none, and asks for one
            of work that is over where the crew said nothing of it.
    """
    jobs = shelf.index.documents() if summaries is None else summaries
    found = [
        _owed(shelf.folder_of(job), job, wait, on, place)
        for job in jobs
        for wait in job["waits"]
        if wait["kind"] != "record" or (place is not None and place.days is not None)
    ]
    order = list(DueState)
    return sorted(found, key=lambda o: (order.index(o.state), o.due or on, o.job_number, o.id))


def _owed(
    folder: Path, job: Summary, wait: dict[str, str], on: dt.date, place: Locality | None
) -> Owed:
    due, words = _day(wait["due"]), [wait["words"]]
    if due is None and place is not None and wait["kind"] in _BY_THE_PLACE:
        due = place.due(_day(job["finished"]))
        words.append(f"{place.name}, {place.days} days after the work" if due is not None else "")
    days = (due - on).days if due is not None else None
    state = DueState.NO_DAY if days is None else DueState.LATE if days < 0 else DueState.DUE
    return Owed(
        id=wait["id"],
        what=WHAT[wait["kind"]],
        words=", ".join(filter(None, words)),
        due=due,
        state=state,
        days=days,
        by=wait["by"],
        promised_at=dt.datetime.fromisoformat(wait["told"]),
        job_number=job["number"],
        owner=job["owner"],
        well=job["well"],
        folder=folder,
    )


def _day(text: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return None
