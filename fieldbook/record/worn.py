"""Walls that were measured thin, and joints that were set aside: what findings say of the pipe.

A finding stays true of its joint wherever the joint is planned to hang again. Which joint of a run
that goes in it is, nobody writes, so the thinnest that may be among them speaks for the run.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from fieldbook.record.footage import in_feet
from fieldbook.record.string import (
    is_described_after,
    is_length,
    joints_in,
    pump_came_out,
    string_pieces,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job

NEW_PIPE = "new"
"""What `pipe_from` of a run says whose joints were not in the well before."""
_SET_ASIDE = "joint to replace"


class Worn(NamedTuple):
    """What findings say of a joint, or of a run of joints.

    Attributes:
        wall: The thinnest wall measured; None where none was.
        aside: Numbers of joints that were set aside and may be among them again.
    """

    wall: Value | None = None
    aside: tuple[int, ...] = ()


def worn_as_found(job: Job, number: int) -> Worn:
    """What findings say of joint `number` of the string as it hung, the top joint being 1."""
    found = (finding for finding in _walls(job) if _joint(finding) in (None, number))
    return Worn(_thinnest(found))


def worn_going_in(job: Job, piece: Entry) -> Worn:
    """What findings say of a run of joints that is to go in, or went in.

    A run of another size than what was found, and one that is written as new pipe, has none of
    it. A run that counts no more joints than were left holds none that was set aside.
    """
    if piece.text("pipe_from") == NEW_PIPE or not is_length(piece):
        return Worn()
    boundary = pump_came_out(job)
    walls = list(_walls(job))
    if boundary is None:
        return Worn(_thinnest(walls))
    size = _size(job, piece)
    found = [p for p in string_pieces(job, as_found=True) if _size(job, p) == size]
    if is_described_after(job, piece, boundary) and not found:
        return Worn()
    again = [
        p for p in string_pieces(job) if _size(job, p) == size and p.text("pipe_from") != NEW_PIPE
    ]
    aside = {number for finding in job.live("finding") if (number := _set_aside(finding))}
    if joints_in(again) <= joints_in(found) - len(aside):
        return Worn(_thinnest(wall for wall in walls if _joint(wall) not in aside))
    return Worn(_thinnest(walls), tuple(sorted(aside)))


def _walls(job: Job) -> Iterable[Entry]:
    return (entry for entry in job.live("finding") if "least_wall" in entry.values)


def _thinnest(findings: Iterable[Entry]) -> Value | None:
    thinnest = min(findings, key=lambda e: in_feet(e, "least_wall") or 0.0, default=None)
    return thinnest.values["least_wall"] if thinnest is not None else None


def _joint(finding: Entry) -> int | None:
    value = finding.values.get("joint_number")
    return int(value.number) if value is not None and value.number is not None else None


def _set_aside(finding: Entry) -> int | None:
    return _joint(finding) if finding.text("part") == _SET_ASIDE else None


def _size(job: Job, piece: Entry) -> tuple[str, str, str] | None:
    if not is_length(piece):
        return None
    line = piece.text("line") or job.text("job", "line")
    return line, piece.text("nps"), piece.text("schedule")
