"""Which entries describe the string: as it was found in the well, or as it is to go back in.

On a job that pulls and sets, what is written once the pump is out describes what goes in. Lengths
(joints, pups, hose) written then take the place of all lengths found, valves and fittings that of
all found; a class of which nothing is written goes back as it came. A correction describes the
same string as the entry it strikes.
"""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

LENGTHS = ("joint", "pup", "hose")
"""Pieces that are drop line, and not a valve or a fitting in it."""

_PLANNING = ("piece", "pump", "cable", "setting", "limit")
"""Kinds that, once the pump is out, describe what goes in."""


def pump_came_out(job: Job) -> Entry | None:
    """The entry by which the pump was out, on a job that sets one afterwards."""
    out = job.live("pump_out")
    return out[0] if out and job.text("job", "work") == "pull and set" else None


def newest_move(job: Job, at: Entry | None = None) -> Entry | None:
    """The newest `joint` or `footage` entry: what says which way the string moves.

    A joint that another device had written before did not move again, so what was written of it a
    second time says nothing of the way, however new it is.

    Args:
        job: The job.
        at: Ask about the moment of this entry, with nothing that came after it.
    """
    joints, hose = (_before(job, kind, at) for kind in ("joint", "footage"))
    again = written_again(joints)
    first = next((joint for joint in reversed(joints) if joint.id not in again), None)
    moves = [*hose[-1:], *([first] if first is not None else [])]
    return max(moves, key=lambda entry: entry.order, default=None)


def written_again(joints: Sequence[Entry]) -> set[str]:
    """Ids of the joints that another device had going the same way before.

    Only a person knows which of the two counts. Until then the later one moved nothing, and when
    its gauge was read nobody can say.

    Args:
        joints: Live `joint` entries, in the order of the log.
    """
    if len({joint.device for joint in joints}) < 2:
        return set()
    devices: defaultdict[tuple[str, float | None], set[str]] = defaultdict(set)
    again = set()
    for joint in joints:
        number = joint.values.get("joint_number")
        if number is None:
            continue
        before = devices[joint.text("direction"), number.number]
        if before - {joint.device}:
            again.add(joint.id)
        before.add(joint.device)
    return again


def is_described_after(job: Job, entry: Entry, boundary: Entry) -> bool:
    """Whether an entry, or the entry it corrects, was written after `boundary`."""
    first = entry
    while first.strikes is not None:
        struck = job.get(first.strikes)
        if struck is None or struck.order >= first.order:
            break
        first = struck
    return first.order > boundary.order


def string_pieces(job: Job, *, as_found: bool = False) -> list[Entry]:
    """The live `piece` entries of the string, from the top down.

    Args:
        job: The job.
        as_found: The string that was found, also where another is to be set by now.
    """
    pieces = sorted(job.live("piece"), key=_place)
    boundary = pump_came_out(job)
    if boundary is None:
        return pieces
    found = [piece for piece in pieces if not is_described_after(job, piece, boundary)]
    if as_found:
        return found
    written = [piece for piece in pieces if piece not in found]
    renewed = {is_length(piece) for piece in written}
    kept = [piece for piece in found if is_length(piece) not in renewed]
    return sorted([*kept, *written], key=_place)


def counted_on_from(job: Job, *, length: bool) -> list[Entry]:
    """The `piece` entries after which the next piece that is written has its place.

    Once the pump is out, the first length takes the place of all lengths found, and is the first of
    the string; the first fitting takes that of all fittings found, and comes after the lengths.

    Args:
        job: The job.
        length: Whether the next piece is drop line.
    """
    pieces = string_pieces(job)
    boundary = pump_came_out(job)
    if boundary is None:
        return pieces
    new = {piece.id for piece in pieces if is_described_after(job, piece, boundary)}
    if length:
        return [piece for piece in pieces if piece.id in new and is_length(piece)]
    return [piece for piece in pieces if piece.id in new or is_length(piece)]


def is_planned(job: Job, at: Entry | None = None) -> bool:
    """Whether the string is written down that is to go in, and nothing of it has gone in yet.

    Args:
        job: The job.
        at: Ask about the moment of this entry, with nothing that came after it.
    """
    if job.text("job", "work") not in ("set", "pull and set"):
        return False
    moves = (*_before(job, "joint", at), *_before(job, "footage", at))
    if any(entry.text("direction") == "in" for entry in moves):
        return False
    boundary = pump_came_out(job)
    if boundary is None:
        return job.text("job", "work") == "set"
    return any(
        is_described_after(job, entry, boundary)
        for kind in _PLANNING
        for entry in _before(job, kind, at)
    )


def _before(job: Job, kind: str, at: Entry | None) -> list[Entry]:
    return [entry for entry in job.live(kind) if at is None or entry.order < at.order]


def joints_in(pieces: list[Entry]) -> int:
    """How many joints, pups counted, the pieces are."""
    total = 0
    for piece in pieces:
        if piece.text("piece") in ("joint", "pup"):
            count = piece.values.get("joint_count") if piece.text("piece") == "joint" else None
            total += int(count.number) if count is not None and count.number is not None else 1
    return total


def is_length(piece: Entry) -> bool:
    """Whether a piece is drop line."""
    return piece.text("piece") in LENGTHS


def _place(entry: Entry) -> float:
    value = entry.values.get("place")
    return value.number if value is not None and value.number is not None else 0.0


def is_lost(job: Job) -> bool:
    """Whether the string, or a part of it, has stayed in the well, by the newest finding on it."""
    said = (entry.text("string_state") for entry in reversed(job.live("finding")))
    return next((word for word in said if word), "") == "lost"
