"""What is found otherwise than the last record of the well says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.convert import number_in
from fieldbook.quantities.definition import definition
from fieldbook.quantities.units import show_unit
from fieldbook.record.string import (
    is_described_after,
    is_length,
    joints_in,
    pump_came_out,
    string_pieces,
)
from fieldbook.record.tally import tally

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.record.memory import Memory

_FOUND = ("pump", "cable", "well", "hose_sheet", "tank")
_STATED_LATER = ("measuring_point", "shut_off_head", "deepest_level", "surface_pressure")
"""What a crew chooses again each time, and so differs without anything having been found."""
_SAME = 0.002  # share by which two figures may differ and be the same but for rounding


def differences(job: Job, memory: Memory | None) -> list[str]:
    """Each difference in words, "what: now; as it was"; empty without a memory.

    Only what was found counts: a pump, cable or string that is chosen to be set is none of it.
    """
    if memory is None:
        return []
    return [
        *_of_facts(job, memory),
        *_of_string(job, memory),
        *_of_counts(job, memory),
        *_of_readings(job, memory),
    ]


def _of_facts(job: Job, memory: Memory) -> Iterator[str]:
    for (kind, name), was in memory.said.items():
        if kind in _FOUND and name not in _STATED_LATER:
            yield from _apart(definition(name).label, _as_found(job, kind, name), was)
    yield from _apart("Setting depth", job.value("prior", "setting_depth"), _prior(memory))


def _prior(memory: Memory) -> Value | None:
    return memory.prior.get("setting_depth")


def _as_found(job: Job, kind: str, name: str) -> Value | None:
    """What the job found, not what it chose to set afterwards."""
    out = pump_came_out(job)
    for entry in reversed(job.live(kind)):
        if name in entry.values and (out is None or not is_described_after(job, entry, out)):
            return entry.values[name]
    return None


def _of_string(job: Job, memory: Memory) -> Iterator[str]:
    if not memory.hangs:
        return
    pieces = string_pieces(job, as_found=True)
    if not pieces:
        return
    lengths = [piece for piece in pieces if is_length(piece)]
    fittings = [piece for piece in pieces if not is_length(piece)]
    for now, was in ((lengths, memory.lengths), (fittings, memory.fittings)):
        if _kinds(now) != _kinds(was):
            yield f"String: {_kinds(now) or 'none'}; was {_kinds(was) or 'none'}"
            continue
        for piece, before in zip(now, was, strict=True):
            for name, value in before.values.items():
                if name not in ("place", "joint_count", "step"):
                    label = f"{definition(name).label} of {piece.text('piece')}"
                    yield from _apart(label, piece.values.get(name), value)


def _kinds(pieces: Sequence[Entry]) -> str:
    return ", ".join(
        f"{joints_in([piece])} joints" if piece.text("piece") == "joint" else piece.text("piece")
        for piece in pieces
    )


def _of_counts(job: Job, memory: Memory) -> Iterator[str]:
    """What came out, once the pump is out, against what went in."""
    if not memory.hangs or not memory.joints or job.last("pump_out") is None:
        return
    out = tally(job.live("joint"), "out").count
    if out != memory.joints:
        yield f"Joints out: {out}; {memory.joints} went in"


def _of_readings(job: Job, memory: Memory) -> Iterator[str]:
    """Level, insulation and specific capacity: by how much, and which way."""
    levels = [e for e in job.live("level") if e.text("level_state") == "static"]
    if levels:
        was = memory.said.get(("level", "water_level"))
        yield from _apart(
            "Static level", levels[0].values.get("water_level"), was, by_how_much=True
        )
    for kind, name in (("meter", "insulation"), ("duty", "specific_capacity")):
        was = memory.said.get((kind, name))
        first = next((e for e in job.live(kind) if name in e.values and not e.text("part")), None)
        if first is not None:
            counted = definition(name).counted_in
            yield from _apart(definition(name).label, first.values[name], was, counted)


def _apart(
    label: str,
    now: Value | None,
    was: Value | None,
    counted: str = "",
    *,
    by_how_much: bool = False,
) -> Iterator[str]:
    if now is None or was is None:
        return
    if now.number is None or was.number is None:
        if now.text.casefold() != was.text.casefold():
            yield f"{label}: {now.text}; was {was.text}"
        return
    here, there = now.number, number_in(was, now.unit)
    if abs(here - there) <= _SAME * max(abs(here), abs(there)):
        return
    unit = now.unit or counted
    shown = f" {show_unit(unit)}" if unit else ""
    change = f" ({here - there:+,.4g}{shown})" if by_how_much else ""
    yield f"{label}: {here:,.4g}{shown}; was {there:,.4g}{shown}{change}"
