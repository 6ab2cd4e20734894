"""What the index keeps of a job: enough to list it, to find it, and to follow its well on.

A summary is a plain JSON document, made wholly from the job's logs. Figures stand in it as a number
and its unit, as typed; words as words.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from fieldbook.record.days import day_of, finished_on
from fieldbook.record.promised import promised, to_file
from fieldbook.record.string import newest_move

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.record.promised import Promise
    from fieldbook.store.log.problem import Problem

Summary = dict[str, Any]

HISTORY = {
    "level": (
        "water_level",
        "level_state",
        "flow",
        "minutes_off",
        "minutes_on",
        "measuring_point",
    ),
    "meter": ("insulation", "amps_a", "amps_b", "amps_c", "water_temperature", "part"),
    "prior": ("setting_depth", "datum", "set_on", "water_level", "insulation"),
    "depth": ("setting_depth", "datum"),
    "done": ("setting_depth",),
}
"""Kind -> what of its entries is a well's history, where one of `TELLING` is among it.

A setting that is only planned is none."""
TELLING = {"set_on", "water_level", "insulation", "amps_a", "amps_b", "amps_c", "setting_depth"}
_MOST_WORDS = 200


def summarize(
    folder: str,
    job_id: str,
    job: Job,
    reports: Iterable[Problem],
    status_of: Callable[[Job], str] | None = None,
) -> Summary:
    """The summary of a job.

    Args:
        folder: Name of the job's folder.
        job_id: The id that its logs carry.
        job: The job.
        reports: What was found wrong with its logs.
        status_of: Says where a job is, in words.
    """
    entries = job.entries
    finished = finished_on(job)
    findings = job.live("finding")
    return {
        "folder": folder,
        "job": job_id,
        "number": job.text("job", "job_number") or folder,
        "title": job.text("job", "job_title"),
        "owner": job.text("job", "owner"),
        "well": job.text("job", "well_name"),
        "well_id": job.text("job", "well_id") or job.text("well", "well_id"),
        "site": job.text("job", "site"),
        "line": job.text("job", "line"),
        "work": job.text("job", "work"),
        "pumps": _distinct(entry.text("pump_model") for entry in job.live("pump")),
        "findings": _distinct(_words(entry) for entry in findings),
        "causes": _distinct(entry.text("cause") for entry in findings),
        "begun": entries[0].time.isoformat() if entries else "",
        "saved": entries[-1].time.isoformat() if entries else "",
        "begun_at": entries[0].time.timestamp() if entries else 0.0,
        "at": entries[-1].time.timestamp() if entries else 0.0,
        "sealed": job.last("seal") is not None,
        "entries": len(entries),
        "problems": [problem.document() for problem in reports],
        "stands": status_of(job) if status_of is not None else "",
        "datum": job.text("well", "datum"),
        "history": [kept for kind in HISTORY for e in job.live(kind) if (kept := _kept(e))],
        "seen": _seen(job),
        "out_on": _out_on(job),
        "finished": finished.isoformat() if finished is not None else "",
        "waits": [_wait(promise) for promise in (*promised(job), *to_file(job))],
    }


def words_of(summary: Summary) -> str:
    """Everything in a summary that words are looked for in, in small letters."""
    names = ("number", "title", "owner", "well", "well_id", "site", "line", "work", "stands")
    words = [str(summary.get(name, "")) for name in names]
    words += [str(summary.get(name, ""))[:10] for name in ("begun", "saved")]
    for name in ("pumps", "findings", "causes"):
        words += map(str, summary.get(name, ()))
    return "\n".join(words).casefold()


def _distinct(words: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(word for word in words if word))[:_MOST_WORDS]


def _words(finding: Entry) -> str:
    return f"{finding.text('part')}: {finding.text('finding')}"


def _kept(entry: Entry) -> dict[str, Any] | None:
    values = {
        name: _figure(entry.values[name]) for name in HISTORY[entry.kind] if name in entry.values
    }
    if TELLING.isdisjoint(values):
        return None
    return {"kind": entry.kind, "time": entry.time.isoformat(), **values}


def _figure(value: Value) -> str | list[str | float]:
    return value.text if value.number is None else [value.number, value.unit]


def _seen(job: Job) -> dict[str, dict[str, int]]:
    """How often each condition of line and cable was written on the way out, by its word."""
    out = [
        entry
        for kind in ("joint", "footage")
        for entry in job.live(kind)
        if entry.text("direction") == "out"
    ]
    names = ("pipe_condition", "hose_condition", "cable_condition")
    counted = {name: Counter(e.text(name) for e in out if e.text(name)) for name in names}
    return {name: dict(counts) for name, counts in counted.items() if counts}


def _out_on(job: Job) -> str:
    """The day on which the pump came out, where nothing went in again; empty elsewhere."""
    out, move = job.last("pump_out"), newest_move(job)
    back = out is not None and move is not None and move.order > out.order
    return "" if out is None or back else day_of(out).isoformat()


def _wait(promise: Promise) -> dict[str, str]:
    return {
        "id": promise.entry.id,
        "kind": promise.kind,
        "due": promise.due,
        "words": promise.words,
        "by": promise.entry.by,
        "told": promise.entry.time.isoformat(),
    }
