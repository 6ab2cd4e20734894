"""Which readings of the meter speak of the motor as it is now."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum, auto
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_MOVES = ("joint", "footage")


class MeterPlace(Enum):
    """Where the motor is."""

    IN_SERVICE = auto()
    ON_THE_WAY_OUT = auto()
    OUT = auto()
    NEWLY_SET = auto()


@dataclass(frozen=True, slots=True)
class Metered:
    """The readings that count.

    Attributes:
        place: Where the motor is.
        entries: The live `meter` entries since it came there, or since another motor took its
            place, in the order of the log; none while the string is on its way out, for what was
            wrong with it is why it is pulled.
        is_another: Whether the motor is one that is to go in instead of the one that came out.
    """

    place: MeterPlace
    entries: Sequence[Entry]
    is_another: bool = False

    def newest(self, *names: str) -> Entry | None:
        """The newest that says any of `names`."""
        return next(self.saying(*names), None)

    def saying(self, *names: str) -> Iterator[Entry]:
        """Those that say any of `names`, the newest first."""
        return (e for e in reversed(self.entries) if any(name in e.values for name in names))


def metered(job: Job) -> Metered:
    """The readings since the motor came to where it is."""
    out, into = _moves(job, "out"), _moves(job, "in")
    was_out = job.last("pump_out") is not None
    left = out[-1].order if out else None
    if was_out and left is None:
        left = job.live("pump_out")[0].order
    set_since = [e for e in into if left is None or e.order > left]
    if set_since:
        return Metered(MeterPlace.NEWLY_SET, _since(job, set_since[0]))
    if was_out:
        # A pump that is described now is the one to go in: what was read before is of the old one.
        described = [e.order for e in job.live("pump") if left and e.order > left]
        since = max(described, default=left)
        read = [e for e in job.live("meter") if since and e.order > since]
        return Metered(MeterPlace.OUT, read, is_another=bool(described))
    if out:
        return Metered(MeterPlace.ON_THE_WAY_OUT, ())
    place = MeterPlace.OUT if job.text("job", "work") == "set" else MeterPlace.IN_SERVICE
    return Metered(place, job.live("meter"))


def was_on_the_bench(job: Job, reading: Entry) -> bool:
    """Whether a reading was taken with the motor out of the well."""
    before = [e for e in _moves(job, "in") if e.order < reading.order]
    outs = [e for e in job.live("pump_out") if e.order < reading.order]
    if not before:
        return bool(outs) or job.text("job", "work") == "set"
    return bool(outs) and outs[-1].order > before[-1].order


def _moves(job: Job, direction: str) -> list[Entry]:
    moves = [e for kind in _MOVES for e in job.live(kind) if e.text("direction") == direction]
    return sorted(moves, key=lambda entry: entry.order)


def _since(job: Job, first: Entry) -> list[Entry]:
    return [entry for entry in job.live("meter") if entry.order > first.order]
