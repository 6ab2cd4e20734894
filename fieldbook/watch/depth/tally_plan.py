"""The string that is to go in, summed before any of it hangs, against the depth that was chosen."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.units import quantity
from fieldbook.record.footage import in_feet
from fieldbook.record.string import is_planned, joints_in, string_pieces
from fieldbook.watch.depth.methods import listed
from fieldbook.watch.state.depth_frame import frame_of

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.depth_frame import Frame

NAME = "tally plan"
_PIPE_FT = 1.0
_HOSE_SHARE = 0.01
_FORMULA = "hanger + joints, pups or hose + fittings + intake below the pump's top, against setting"
_SOURCE = "about 1 ft, on hose 1 %: common practice, no published source"


@dataclass(frozen=True, slots=True)
class _Line:
    """The drop line that is to go in; feet.

    Attributes:
        length: All of it.
        joint: A joint of it, by the mean; None on hose.
        words: How its length is known.
    """

    length: float
    joint: float | None
    words: str


def tally_plan(job: Job) -> Check | None:
    """Where the intake will hang by the list and the rack, against the setting depth.

    What is off is a caution and says by which joint and pup the depth is hit; it is no stop, for
    the crew may change the depth as well as the string. None before a depth is chosen, and once
    the string is on its way in: the depth itself is reconciled then.
    """
    planned = job.last("setting")
    if planned is None or not is_planned(job):
        return None
    frame, missing = frame_of(job, "in")
    line, lacking = _line(job)
    aim = _aim(planned, frame) if frame is not None else None
    if frame is not None and aim is None:
        lacking = (*lacking, "stick-up")
    if frame is None or line is None or aim is None:
        return _check(Verdict.UNKNOWN, missing=(*missing, *lacking))
    off = frame.depth(line.length) - aim
    allowed = _PIPE_FT if line.joint is not None else max(_PIPE_FT, _HOSE_SHARE * abs(aim))
    words = f"intake at {aim + off:z,.1f} ft {line.words}, {aim:z,.1f} chosen"
    if abs(off) <= allowed:
        return _check(Verdict.WITHIN, words, off=off, allowed=allowed)
    return _check(Verdict.CAUTION, words, off=off, allowed=allowed, note=_remedy(line, off))


def _check(
    verdict: Verdict,
    governs: str = "",
    *,
    off: float | None = None,
    allowed: float | None = None,
    missing: tuple[str, ...] = (),
    note: str = "",
) -> Check:
    return Check(
        NAME,
        verdict,
        demand=quantity(abs(off), "ft") if off is not None else None,
        allowable=quantity(allowed, "ft") if allowed is not None else None,
        share=abs(off) / allowed if off is not None and allowed is not None else None,
        governs=governs,
        missing=missing,
        formula=_FORMULA,
        source=_SOURCE,
        note=note,
    )


def _aim(planned: Entry, frame: Frame) -> float | None:
    """The depth that was chosen, below the datum of the well; None without the stick-up."""
    depth = in_feet(planned, "setting_depth")
    return frame.on_datum(depth, planned.text("datum")) if depth is not None else None


def _line(job: Job) -> tuple[_Line | None, tuple[str, ...]]:
    """The line of the string that goes in, or what is missing to sum it."""
    pieces = string_pieces(job)
    if job.text("job", "line") == "hose":
        hose = [in_feet(piece, "piece_length") for piece in pieces if piece.text("piece") == "hose"]
        known = [length for length in hose if length is not None]
        if not known or len(known) < len(hose):
            return None, ("length of the hose",)
        return _Line(sum(known), None, "by the hose as listed"), ()
    found = [in_feet(piece, "piece_length") for piece in pieces if piece.text("piece") == "pup"]
    pups = [length for length in found if length is not None]
    joints = listed(job, "in")
    if not joints or len(joints) + len(pups) < joints_in(pieces):
        return None, ("length of every joint and pup",)
    return _measured(job, joints, pups), ()


def _measured(job: Job, joints: list[float], pups: list[float]) -> _Line:
    """By the rack as soon as each joint on it was measured, by the list until then."""
    rack = {e.text("joint_number"): in_feet(e, "joint_length") for e in job.live("rack")}
    rows = [length for length in rack.values() if length is not None]
    mean = sum(joints) / len(joints)
    if len(rows) == len(joints) + len(pups):
        return _Line(sum(rows), mean, "by the rack")
    if len(rows) == len(joints):
        return _Line(sum(rows) + sum(pups), mean, "by the rack")
    words = f"as listed, {len(rows)} of {len(joints) + len(pups)} measured" if rows else "as listed"
    return _Line(sum(joints) + sum(pups), mean, words)


def _remedy(line: _Line, off: float) -> str:
    """What to change so that the intake hangs where it was meant to; more than allowed is off."""
    way = "too deep" if off > 0.0 else "too high"
    if line.joint is None:
        return f"{abs(off):,.1f} ft {way}: other hose, or another depth"
    if off > 0.0:
        joints = ceil((off - _PIPE_FT) / line.joint)
        pup = joints * line.joint - off
        parts = [f"leave out {_joints(joints)}"]
    else:
        joints = int((-off + _PIPE_FT) // line.joint)
        pup = -off - joints * line.joint
        parts = [f"{_joints(joints)} more"] if joints else []
    if pup > _PIPE_FT:
        parts.append(f"a pup of {pup:,.1f} ft")
    return f"{abs(off):,.1f} ft {way}: {', '.join(parts)}, or another depth"


def _joints(count: int) -> str:
    return "1 joint" if count == 1 else f"{count} joints"
