"""A job with one figure written otherwise, taken away, or added: what the proofs are made of."""

from __future__ import annotations

import datetime as dt
from functools import cache
from typing import TYPE_CHECKING

from fieldbook.office.samples import sample_names
from fieldbook.quantities.admit import problems, value_problem
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.typed import LARGEST
from fieldbook.record.entry import Entry, Value
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job
from tests.office.sampled import sample_job

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

Entries = tuple[Entry, ...]

MOMENTS = {
    "planned": 0.25,
    "halfway": 0.5,
    "late": 0.75,
    "whole": 1.0,
}
"""Name of a moment -> the share of the entries that are written by then."""


@cache
def sample_entries(name: str) -> Entries:
    """The entries of a sample job to its end."""
    return tuple(sample_job(name).entries)


def at_moment(name: str, moment: str) -> Entries:
    """The entries of a sample as they stood at a moment."""
    entries = sample_entries(name)
    return entries[: round(len(entries) * MOMENTS[moment])]


def every_moment() -> list[tuple[str, str]]:
    """Each sample at each moment, by name."""
    return [(name, moment) for name in sample_names() for moment in MOMENTS]


def pairs() -> list[tuple[str, str]]:
    """Every kind with every number that it may speak of."""
    return [
        (kind.name, name)
        for kind in kinds().values()
        for name in (*kind.needs, *kind.may)
        if not definition(name).is_words
    ]


def extremes(name: str) -> list[Value]:
    """Zero, the least and the most that is no nonsense, as values of the quantity."""
    known = definition(name)
    step = 1.0 if known.dimension == "count" else 1e-6
    least = known.at_least
    if least is None:
        least = known.above + step if known.above is not None else -LARGEST
    most = known.at_most if known.at_most is not None else LARGEST
    return [value_of(name, number) for number in dict.fromkeys((0.0, least, most))]


def value_of(name: str, number: float) -> Value:
    """A number in the quantity's own unit."""
    return Value(f"{number:.9g}", number, definition(name).unit)


def may_say(kind: str, name: str, value: Value) -> bool:
    """Whether the gate takes it."""
    return not value_problem(kind, name, value)


def written(entries: Sequence[Entry], kind: str, name: str, value: Value) -> Entries | None:
    """The entries with `name` written as `value` in every entry of `kind` that says it.

    Where none says it, one that says it is added at the end; None where the gate refuses it.
    """
    if not may_say(kind, name, value):
        return None
    if any(entry.kind == kind and name in entry.values for entry in entries):
        return tuple(
            entry._replace(values={**entry.values, name: value})
            if entry.kind == kind and name in entry.values
            else entry
            for entry in entries
        )
    return _added(entries, kind, name, value)


def _added(entries: Sequence[Entry], kind: str, name: str, value: Value) -> Entries | None:
    """One entry of `kind` more: as the newest of its kind with `name`, else with its needs."""
    newest = next((entry for entry in reversed(entries) if entry.kind == kind), None)
    values = dict(newest.values) if newest is not None else dict(_needs(kind))
    values[name] = value
    added = entry_of(entries, kind, values)
    return None if problems(added) else (*entries, added)


def entry_of(entries: Sequence[Entry], kind: str, values: dict[str, Value]) -> Entry:
    """The next entry of a log."""
    last = entries[-1]
    time = last.time + dt.timedelta(minutes=1)
    return Entry(
        id=new_id(time),
        seq=last.seq + 1,
        time=time,
        by="QA",
        device=last.device,
        kind=kind,
        values=values,
        note="words",
    )


def _needs(kind: str) -> Iterator[tuple[str, Value]]:
    for name in kinds()[kind].needs:
        known = definition(name)
        if known.is_words:
            words = {"date": "2026-05-14", "time of day": "09:00", "yes or no": "yes"}
            text = known.choices[0] if known.choices else words.get(known.dimension, "words")
            yield name, Value("0" * 64 if known.dimension == "file" else text)
        else:
            yield name, value_of(name, 1.0)


def without(entries: Sequence[Entry], kind: str, name: str) -> Entries:
    """The entries with `name` taken out of every entry of `kind`; what needs it goes with it."""
    if name in kinds()[kind].needs:
        return tuple(entry for entry in entries if entry.kind != kind)
    return tuple(
        entry._replace(values={n: v for n, v in entry.values.items() if n != name})
        if entry.kind == kind
        else entry
        for entry in entries
    )


def job_of(entries: Iterable[Entry]) -> Job:
    """The fold over them."""
    return Job(entries)
