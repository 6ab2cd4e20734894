"""The drop lines that may be set: every size of PVC and steel, and the hose of the sheet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.drop_line.pipe import sizes
from fieldbook.quantities.convert import as_quantity, show
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.record.string import LENGTHS, string_pieces

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job

_THREADED_PVC = ("80", "120")  # ASTM D1785: lighter pipe is not threaded
_STEEL_SCHEDULE = "40"
_LEAST = ("tension_rating", "fitting_rating", "pressure_rating", "least_wall")
_FIGURES = frozenset((*kinds()["line_choice"].may, "least_wall")) - frozenset(kinds()["note"].may)


@dataclass(frozen=True, slots=True)
class Candidate:
    """One drop line that may be set.

    Attributes:
        line: "pvc", "steel" or "hose".
        nps: Nominal size; empty for hose.
        schedule: Of its wall; empty for hose.
        name: As a table shows it.
        values: What is known of it, as a piece of a string says it.
        hangs: Whether the job's own string is of it, so that its valves and fittings fit.
    """

    line: str
    nps: str
    schedule: str
    name: str
    values: Mapping[str, Value]
    hangs: bool


def candidates(job: Job) -> list[Candidate]:
    """Every candidate of a job, PVC first, then steel, then hose, each from small to large."""
    return [
        *_pipes(job, "pvc", "PVC", _THREADED_PVC),
        *_pipes(job, "steel", "steel", (_STEEL_SCHEDULE,)),
        *_hoses(job),
    ]


def _pipes(job: Job, line: str, material: str, schedules: tuple[str, ...]) -> Iterator[Candidate]:
    known = [*_pieces(job, line), *_choices(job, line)]
    named = {(entry.text("nps"), entry.text("schedule")) for entry in known}
    for nps, schedule in sizes(material):
        usual = nps in definition("nps").choices and schedule in schedules
        if not usual and (nps, schedule) not in named:
            continue
        pieces = [e for e in _pieces(job, line) if _size(e) == (nps, schedule)]
        values = _common(job, line)
        for entry in _choices(job, line):
            if entry.text("nps") in ("", nps) and entry.text("schedule") in ("", schedule):
                values |= _figures(entry)
        values |= _least(pieces)
        short = "PVC" if line == "pvc" else "steel"
        name = f"{short} {nps} sch {schedule}"
        yield Candidate(line, nps, schedule, name, values, hangs=bool(pieces))


def _hoses(job: Job) -> Iterator[Candidate]:
    """The hoses that are described, one a bore; an unwritten one where none is."""
    bores: dict[str, list[Entry]] = {}
    for entry in (*_choices(job, "hose"), *_pieces(job, "hose")):
        bores.setdefault(_bore(entry), []).append(entry)
    everywhere = bores.pop("", []) if len(bores) > 1 else []
    for bore, entries in (bores or {"": []}).items():
        pieces = [entry for entry in entries if entry.kind == "piece"]
        values: dict[str, Value] = {}
        for entry in (*everywhere, *entries):
            values |= _figures(entry)
        values |= _least(pieces)
        for name in ("flow_coefficient",):
            if name not in values and (found := job.value("hose_sheet", name)) is not None:
                values[name] = found
        yield Candidate("hose", "", "", f"hose {bore}".strip(), values, hangs=bool(pieces))


def _bore(entry: Entry) -> str:
    value = entry.values.get("hose_bore")
    return show(as_quantity(value), "in", 2) if value is not None else ""


def _size(entry: Entry) -> tuple[str, str]:
    return entry.text("nps"), entry.text("schedule")


def _choices(job: Job, line: str) -> list[Entry]:
    return [entry for entry in job.live("line_choice") if entry.text("line") == line]


def _pieces(job: Job, line: str) -> list[Entry]:
    default = job.text("job", "line")
    return [
        entry
        for entry in string_pieces(job)
        if entry.text("piece") in LENGTHS and (entry.text("line") or default) == line
    ]


def _figures(entry: Entry) -> dict[str, Value]:
    return {name: value for name, value in entry.values.items() if name in _FIGURES}


def _common(job: Job, line: str) -> dict[str, Value]:
    """What holds for a line whatever its size: the design factor is the crew's own choice."""
    for entry in reversed(_pieces(job, line)):
        if (value := entry.values.get("thread_design_factor")) is not None:
            return {"thread_design_factor": value}
    return {}


def _least(pieces: list[Entry]) -> dict[str, Value]:
    """What the pieces of one size say, the least where they differ in what they stand."""
    found: dict[str, Value] = {}
    for entry in pieces:
        for name, value in _figures(entry).items():
            had = found.get(name)
            if had is None or name not in _LEAST or as_quantity(value) < as_quantity(had):
                found[name] = value
    return found
