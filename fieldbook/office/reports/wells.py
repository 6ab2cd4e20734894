"""A well over the years: what every job on it found and left, and what is owed on it."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from fieldbook.office.reports.due import owed
from fieldbook.office.reports.well_readings import SERIES, readings
from fieldbook.store.shelf.wells import wells as wells_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from fieldbook.office.reports.due import Owed
    from fieldbook.office.reports.well_readings import Reading
    from fieldbook.store.shelf.shelf import Shelf
    from fieldbook.store.shelf.summary import Summary


@dataclass(frozen=True, slots=True)
class Visit:
    """One job on the well.

    Attributes:
        job_number: Its number.
        folder: Its folder.
        day: On which it was begun.
        line: Its drop line.
        work: What was done.
        causes: Why the pump had quit.
        line_seen: Condition of the line as it came out, in words; empty when none was written.
        cable_seen: The same of the cable.
    """

    job_number: str
    folder: Path
    day: dt.date
    line: str
    work: str
    causes: tuple[str, ...]
    line_seen: str
    cable_seen: str


@dataclass(frozen=True, slots=True)
class Well:
    """A well and its jobs.

    Attributes:
        tag: Its tag, as last written; empty when no job names one.
        owner: As last written.
        name: As last written.
        visits: Its jobs, the oldest first.
        series: Name of `SERIES` -> its readings, the oldest first.
        set_on: The day the string that hangs there was last set, as far as the jobs tell. That is
            not the age of its pipe, which nobody may have written down.
        out_on: The day it came out, where no string was set since; None where it hangs.
        owed: What is owed on it, the latest first.
    """

    tag: str
    owner: str
    name: str
    visits: tuple[Visit, ...]
    series: dict[str, tuple[Reading, ...]]
    set_on: dt.date | None
    out_on: dt.date | None
    owed: tuple[Owed, ...]

    @property
    def title(self) -> str:
        """Owner, name and tag in one line."""
        tag = f"tag {self.tag}" if self.tag else ""
        return ", ".join(word for word in (self.owner, self.name, tag) if word)

    def last(self, series: str) -> Reading | None:
        """The newest reading."""
        return self.series[series][-1] if self.series[series] else None

    @property
    def set_words(self) -> str:
        """When the string was set, and since when it is out; empty where neither is recorded."""
        day = f"{self.set_on}" if self.set_on is not None else ""
        out = f"out since {self.out_on}" if self.out_on is not None else ""
        return ", ".join(word for word in (day, out) if word)

    def document(self) -> dict[str, Any]:
        """The well as a JSON document."""
        return {
            "tag": self.tag,
            "owner": self.owner,
            "well": self.name,
            "set_on": self.set_on.isoformat() if self.set_on is not None else None,
            "out_on": self.out_on.isoformat() if self.out_on is not None else None,
            "jobs": [
                {
                    "job": visit.job_number,
                    "day": visit.day.isoformat(),
                    "line": visit.line,
                    "work": visit.work,
                    "causes": list(visit.causes),
                    "line_seen": visit.line_seen,
                    "cable_seen": visit.cable_seen,
                    "folder": str(visit.folder),
                }
                for visit in self.visits
            ],
            "readings": {
                f"{name} [{SERIES[name]}]": [
                    {
                        "time": reading.time.isoformat(),
                        "value": round(reading.value, 6),
                        "beside": reading.beside,
                        "job": reading.job_number,
                    }
                    for reading in read
                ]
                for name, read in self.series.items()
            },
            "owed": [debt.document() for debt in self.owed],
        }


def all_wells(shelf: Shelf, on: dt.date) -> list[Well]:
    """Every well that the jobs tell, the last visited first, as of the shelf's last refresh.

    Args:
        shelf: The jobs.
        on: The day that what is owed is looked at from.
    """
    found = [well_of(shelf, jobs, on) for jobs in wells_of(shelf.index.documents()).values()]
    return sorted(found, key=lambda well: well.visits[-1].day, reverse=True)


def well_of(shelf: Shelf, jobs: Iterable[Summary], on: dt.date) -> Well:
    """The well that `jobs` were on."""
    oldest_first = sorted(jobs, key=lambda job: (job["begun_at"], job["number"]))
    series: dict[str, list[Reading]] = {name: [] for name in SERIES}
    for job in oldest_first:
        for name, reading in readings(job, first=job is oldest_first[0]):
            series[name].append(reading)
    return Well(
        tag=_last(oldest_first, "well_id"),
        owner=_last(oldest_first, "owner"),
        name=_last(oldest_first, "well"),
        visits=tuple(_visit(shelf, job) for job in oldest_first),
        series={
            name: tuple(sorted(readings, key=lambda r: r.time)) for name, readings in series.items()
        },
        set_on=(set_on := _set_on(oldest_first)),
        out_on=_out_since(oldest_first, set_on),
        owed=tuple(owed(shelf, on, summaries=oldest_first)),
    )


def _last(jobs: Sequence[Summary], name: str) -> str:
    return next((str(job[name]) for job in reversed(jobs) if job[name]), "")


def _visit(shelf: Shelf, job: Summary) -> Visit:
    seen = job["seen"]
    return Visit(
        job_number=job["number"],
        folder=shelf.folder_of(job),
        day=dt.datetime.fromisoformat(job["begun"]).date(),
        line=job["line"],
        work=job["work"],
        causes=tuple(job["causes"]),
        line_seen=_counted(seen.get("pipe_condition", {}) | seen.get("hose_condition", {})),
        cable_seen=_counted(seen.get("cable_condition", {})),
    )


def _counted(conditions: dict[str, int]) -> str:
    return ", ".join(f"{count} {word}" for word, count in conditions.items())


def _set_on(jobs: Sequence[Summary]) -> dt.date | None:
    """The newest day on which a string was set: by a job that set one, or by what a record said."""
    days = []
    for job in jobs:
        for entry in job["history"]:
            if entry["kind"] == "depth" and "set" in job["work"].split():
                days.append(dt.datetime.fromisoformat(entry["time"]).date())
            elif entry["kind"] == "prior" and entry.get("set_on"):
                days.append(dt.date.fromisoformat(entry["set_on"]))
    return max(days, default=None)


def _out_since(jobs: Sequence[Summary], set_on: dt.date | None) -> dt.date | None:
    """The day on which the string came out, where none was set since; None where it hangs."""
    days = [dt.date.fromisoformat(job["out_on"]) for job in jobs if job["out_on"]]
    out = max(days, default=None)
    return out if out is not None and (set_on is None or out >= set_on) else None
