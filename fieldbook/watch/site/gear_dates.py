"""The gear in use against the days until which its inspection or calibration counts."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from fieldbook.quantities.dates import DATES, DateStatus, standing
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.labels import within
from fieldbook.record.in_use import in_use

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job

NAME = "gear"
_NAMES = {"rig": "rig_name", "gauge": "gauge_name", "redirect": "part", "piece": "piece"}
_NO_FIGURE = frozenset({*DATES, *kinds()["seal"].may, "library_item"})
_BY_HAND = (("rig", "rig_inspection_due"), ("wire rope", "rope_inspection_due"))
"""What of a rig has a date of its own on the forms."""
_SOURCE = (
    "dates as written; a calibration without one counts a year: Alberta OHS 768 as good practice"
)


@dataclass(frozen=True, slots=True)
class _Piece:
    """A piece of gear in use, by name, with its dates."""

    name: str
    dates: dict[str, str]


def gear_dates(job: Job, today: dt.date) -> Check | None:
    """Whether any gear in use is past its date on `today`; None while none is written."""
    pieces = list(_pieces(job))
    if not pieces:
        return None
    seen = [(piece.name, standing(piece.dates, today)) for piece in pieces]
    past = [f"{name}: {s.words}" for name, s in seen if s.status is DateStatus.PAST]
    undated = [name for name, s in seen if s.status is DateStatus.NOT_WRITTEN]
    lacking = f"no due date written: {', '.join(undated)}" if undated else ""
    if past:
        words = "; ".join([*past, *([lacking] if lacking else [])])
        return Check(NAME, Verdict.CAUTION, governs=past[0], note=words, source=_SOURCE)
    if len(undated) == len(seen):
        missing = tuple(f"due date of {name}" for name in undated)
        return Check(NAME, Verdict.UNKNOWN, missing=missing, source=_SOURCE)
    _, name, words = min((s.due, name, s.words) for name, s in seen if s.due is not None)
    governs = f"{name}: {words}"
    return Check(NAME, Verdict.WITHIN, governs=governs, note=lacking, source=_SOURCE)


def _pieces(job: Job) -> Iterator[_Piece]:
    yield from _of_rig(job)
    yield from _of_gauge(job)
    for kind in ("redirect", "piece"):
        for entry in job.live(kind):
            dates = _dates(entry)
            if dates or "library_item" in entry.values or kind == "redirect":
                yield _Piece(_name(entry, kind), dates)
    for kind in ("hose_sheet", "cable", "pump"):  # not every one of these is ever inspected
        yield from (piece for piece in _items_in_use(job, kind) if piece.dates)


def _of_rig(job: Job) -> Iterator[_Piece]:
    """Each item of the library that is in use on the rig, and what was dated by hand."""
    items = list(_items_in_use(job, "rig"))
    yield from items
    for name, due in _BY_HAND:
        day = job.text("rig", due)
        if day:
            yield _Piece(name, {"inspection_due": day})
        elif not items and job.live("rig") and (name == "rig" or job.value("rig", "rope_breaking")):
            yield _Piece(name, {})


def _items_in_use(job: Job, kind: str) -> Iterator[_Piece]:
    """The items of which a figure counts: no later item says it, and nobody wrote another."""
    entries = in_use(kind, job.live(kind))
    items = [entry for entry in entries if "library_item" in entry.values]
    for item in items:
        later = {name for entry in items if entry.order > item.order for name in entry.values}
        standing_on = item.values.keys() - _NO_FIGURE - later
        if any(_same(job.value(kind, name), item.values[name]) for name in standing_on):
            yield _Piece(_name(item, kind), _dates(item))


def _same(one: Value | None, other: Value) -> bool:
    if one is None or one.number is None:
        return one is not None and one.text == other.text
    return (one.number, one.unit) == (other.number, other.unit)


def _of_gauge(job: Job) -> Iterator[_Piece]:
    """The gauge: dates written since an item was taken speak of that item."""
    dates: dict[str, str] = {}
    named = ""
    for entry in job.live("gauge"):
        if "library_item" in entry.values:
            dates = {}
            named = entry.text("library_item")
        dates |= _dates(entry)
    if job.live("gauge"):
        yield _Piece(named or job.text("gauge", "gauge_name") or "gauge", dates)


def _dates(entry: Entry) -> dict[str, str]:
    return {name: entry.text(name) for name in DATES if name in entry.values}


def _name(entry: Entry, kind: str) -> str:
    return (
        entry.text("library_item")
        or entry.text(_NAMES.get(kind, ""))
        or within(kinds()[kind].label)
    )
