"""The counts of a pull or a set: joints, footage, and where they leave the string. Feet only.

Plain numbers, so that a screen can be drawn before the unit registry is loaded.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import chain, islice
from typing import TYPE_CHECKING
from weakref import WeakKeyDictionary

from fieldbook.record.footage import Footage, footage, in_feet, with_the_pump
from fieldbook.record.string import joints_in, string_pieces
from fieldbook.record.tally import Tally, tally

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_FEW = 5  # numbers that are named one by one


@dataclass(frozen=True, slots=True)
class Counts:
    """What has gone out of the well and into it.

    Attributes:
        out: Joints out, by number.
        into: Joints in, by number.
        joints: How many joints the string had that was found; None when nothing says.
        joints_from: What says so, in words.
        set_joints: How many joints the string has that goes in.
        out_ft: Length of the joints out; joints without a length are left out.
        into_ft: Length of the joints in.
        hose_ft: Length of the hose that was found; None when nothing says.
        set_hose_ft: Length of the hose that goes in.
        hose_out: Hose out of the well in this pull.
        hose_in: Hose into the well in this set.
        problems: What does not agree, in words.
    """

    out: Tally
    into: Tally
    joints: int | None
    joints_from: str
    set_joints: int | None
    out_ft: float
    into_ft: float
    hose_ft: float | None
    set_hose_ft: float | None
    hose_out: Footage
    hose_in: Footage
    problems: tuple[str, ...]

    def where(self, direction: str) -> str:
        """Where a pull ("out") or a set ("in") is: "joint 12 of 24", "180 of 420 ft"."""
        hose = self.hose_out if direction == "out" else self.hose_in
        if hose.feet is not None:
            length = self.whole_ft(direction)
            of = f" of {length:.0f}" if length is not None else ""
            return f"{hose.feet:.0f}{of} ft"
        joints = self.out if direction == "out" else self.into
        whole = self.whole_joints(direction)
        of = f" of {whole}" if whole is not None else ""
        return f"joint {joints.count}{of}"

    def gaps(self, direction: str) -> str:
        """Which joints "out" or "in" nobody wrote, in words; empty where none."""
        numbers = (self.out if direction == "out" else self.into).gaps
        return f"joint {_few(numbers)} not written" if numbers else ""

    def whole_joints(self, direction: str) -> int | None:
        """How many joints all of the string is that goes "out" or "in"."""
        return self.joints if direction == "out" else self.set_joints

    def whole_ft(self, direction: str) -> float | None:
        """How long all of the hose is that goes "out" or "in"."""
        return self.hose_ft if direction == "out" else self.set_hose_ft


_cache: WeakKeyDictionary[Job, tuple[int, Counts]] = WeakKeyDictionary()


def counts(job: Job) -> Counts:
    """The counts of `job` as it is, counted again only when something was recorded."""
    revision, found = _cache.get(job, (-1, None))
    if found is None or revision != job.revision:
        found = _counted(job)
        _cache[job] = (job.revision, found)
    return found


def _counted(job: Job) -> Counts:
    out, into = (tally(job.live("joint"), direction) for direction in ("out", "in"))
    joints, joints_from = _joints(job, as_found=True)
    set_joints, _ = _joints(job, as_found=False)
    hose_ft, set_hose_ft = (_hose(job, as_found=found) for found in (True, False))
    hose_run = footage(job.live("footage"), "out", hose_ft)
    hose_in = footage(job.live("footage"), "in", set_hose_ft)
    problems = [
        *_doubts(out, "out", joints),
        *_doubts(into, "in", set_joints),
        *_hose_doubts(hose_run, "out", hose_ft),
        *_hose_doubts(hose_in, "in", set_hose_ft),
    ]
    return Counts(
        out=out,
        into=into,
        joints=joints,
        joints_from=joints_from,
        set_joints=set_joints,
        out_ft=_length(out.newest),
        into_ft=_length(into.newest),
        hose_ft=hose_ft,
        set_hose_ft=set_hose_ft,
        hose_out=with_the_pump(hose_run, job.live("pump_out")),
        hose_in=hose_in,
        problems=tuple(problems),
    )


def _joints(job: Job, *, as_found: bool) -> tuple[int | None, str]:
    total = joints_in(string_pieces(job, as_found=as_found))
    if total:
        return total, "pieces of the string"
    for kind in ("pump_out", "prior"):
        value = job.value(kind, "prior_count")
        if value is not None and value.number is not None:
            return int(value.number), "count on the last record"
    return None, ""


def _hose(job: Job, *, as_found: bool) -> float | None:
    lengths = [
        length
        for entry in string_pieces(job, as_found=as_found)
        if entry.text("piece") == "hose" and (length := in_feet(entry, "piece_length")) is not None
    ]
    if lengths:
        return sum(lengths)
    before = job.last("prior")
    return in_feet(before, "piece_length") if before is not None else None


def _length(joints: Iterable[Entry]) -> float:
    lengths = (in_feet(entry, "joint_length") for entry in joints)
    return sum(length for length in lengths if length is not None)


def _doubts(joints: Tally, direction: str, expected: int | None) -> list[str]:
    found = []
    if joints.gaps:
        found.append(f"not written {direction}: joint {_few(joints.gaps)}")
    if joints.doubles:
        found.append(f"written {direction} twice: joint {_few(_each(joints.doubles))}")
    if expected is not None and joints.count > expected:
        found.append(f"{joints.count} joints {direction}, {expected} in the string")
    return found


def _hose_doubts(hose: Footage, direction: str, hose_ft: float | None) -> list[str]:
    if hose.feet is None or hose_ft is None or hose.feet <= hose_ft:
        return []
    return [f"{hose.feet:.0f} ft of hose {direction}, {hose_ft:.0f} ft in the string"]


def _few(runs: Sequence[range]) -> str:
    count = sum(map(len, runs))
    shown = ", ".join(map(str, islice(chain.from_iterable(runs), _FEW)))
    return shown if count <= _FEW else f"{shown} and {count - _FEW:,} more"


def _each(numbers: Iterable[int]) -> list[range]:
    return [range(number, number + 1) for number in numbers]
