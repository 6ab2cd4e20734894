"""No figure that the gate takes is more than the book can answer: each at its ends, and absent."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest

from fieldbook.office.samples import sample_names
from fieldbook.record.entry import Value
from fieldbook.record.job import Job
from tests.proof.changed import Entries, at_moment, extremes, pairs, without, written
from tests.proof.reading import Read, noting
from tests.proof.surfaces import lifted, planned, printed, shown, watched
from tests.watch.attempt_jobs import BASES
from tests.watch.jobs import job_of, says

MOVED = {
    "pvc": [says("joint", direction="out", joint_number=n, joint_length=20) for n in (1, 2)],
    "steel": [says("joint", direction="out", joint_number=n, joint_length=21) for n in (1, 2)],
    "hose": [says("footage", direction="out", footage=60 * n) for n in (1, 2)],
}
SAID = (
    says("load", gauge_reading=900),
    says("meter", volts_ab=230, volts_bc=229, volts_ca=231, amps_a=15, amps_b=15, amps_c=15,
         ohms_ab=1, ohms_bc=1, ohms_ca=1, insulation=90),
    says("duty", duty_flow="20 gpm", pumping_level="120 ft", discharge_pressure="50 psi"),
    says("setting", datum="top of casing", setting_depth="240 ft"),
    *(says("curve_point", curve_flow=flow, curve_head=head, curve_efficiency=50)
      for flow, head in ((0, 260), (20, 220), (40, 100))),
    says("chlorine", chlorine_dose="50 mg/L", chlorine_rule="county", chlorine_asked="50 mg/L"),
)  # fmt: skip
_LIFTED, _PRINTED = 4, 24  # every so many is also lifted, and printed, which takes as long as ten


def job_entries(line: str) -> Entries:
    """A small job on the way out, with a figure for most that is asked."""
    return tuple(job_of(*BASES[line], *MOVED[line], *SAID).entries)


LINES = {line: job_entries(line) for line in BASES}


def cases(entries: Entries) -> Iterator[tuple[str, str, str, Entries]]:
    """Every number that any kind may speak of, at each of its ends, and absent."""
    for kind, name in pairs():
        for value in extremes(name):
            if (changed := written(entries, kind, name, value)) is not None:
                yield kind, name, value.text, changed
        if any(name in entry.values for entry in entries if entry.kind == kind):
            yield kind, name, "absent", without(entries, kind, name)


def read_by(make: Callable[[Job], object]) -> set[str]:
    """Names of what is read where `make` is made of any line's job."""
    read: Read = set()
    for entries in LINES.values():
        make(noting(entries, read))
    return {name for _, name in read}


def seen(job: Job) -> None:
    """Every check, and what the panels, the trace and the shelf say of them."""
    shown(job, watched(job))


def of_line(line: str, names: set[str]) -> Iterator[tuple[int, str, Job]]:
    """The cases of what is read, shared out over the lines."""
    read = (case for case in cases(LINES[line]) if case[1] in names)
    for at, (kind, name, text, entries) in enumerate(read):
        if at % len(LINES) == list(LINES).index(line):
            yield at // len(LINES), f"{kind}.{name} = {text}", Job(entries)


@pytest.mark.long
@pytest.mark.parametrize("line", LINES)
def test_every_figure_at_its_ends_is_answered(line: str) -> None:
    """By every check and on the screens; in turn by `lift`, on paper and in the job file too."""
    tried = 0
    for at, words, job in of_line(line, read_by(seen)):
        try:
            look = watched(job)
            shown(job, look)
            if at % _LIFTED == 0:
                lifted(job, look)
            if at % _PRINTED == 0:
                printed(job, look)
        except Exception as problem:
            raise AssertionError(f"{words}: {problem!r}") from problem
        tried = at

    assert tried > 80


@pytest.mark.long
@pytest.mark.parametrize("line", LINES)
def test_every_figure_at_its_ends_is_planned_for(line: str) -> None:
    tried = 0
    for at, words, job in of_line(line, read_by(planned)):
        try:
            planned(job)
        except Exception as problem:
            raise AssertionError(f"{words}: {problem!r}") from problem
        tried = at

    assert tried > 15


def all_at(entries: Entries, which: int) -> Entries:
    """Every number of a job at zero, at its least or at its most at once, but what numbers it."""
    kept = ("joint_number", "place")
    found = []
    for entry in entries:
        values = dict(entry.values)
        for name, value in entry.values.items():
            if value.number is None or name in kept:
                continue
            ends: list[Value] = extremes(name)
            end = ends[min(which, len(ends) - 1)]
            alone = written((entry,), entry.kind, name, end)
            if alone is not None:
                values = values | {name: end}
        found.append(entry._replace(values=values))
    return tuple(found)


@pytest.mark.parametrize("which", [0, 1, 2], ids=["zero", "least", "most"])
@pytest.mark.parametrize("name", sample_names())
def test_all_figures_at_their_ends_at_once_are_answered(name: str, which: int) -> None:
    job = Job(all_at(at_moment(name, "late" if which else "whole"), which))
    look = watched(job)
    lifted(job, look)
    shown(job, look)
    printed(job, look)
    planned(job)
