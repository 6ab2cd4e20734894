"""Where the string is now: what is out, what hangs, where the water is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.errors import OutOfRange
from calc.hydraulics.water import weight_density
from calc.units import magnitude, quantity
from fieldbook.record.footage import footage
from fieldbook.record.string import is_lost, is_planned, newest_move
from fieldbook.record.tally import tally
from fieldbook.watch.lift.more_out import beyond
from fieldbook.watch.state.depth_frame import frame_of
from fieldbook.watch.state.estimates import estimates
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.water_level import deepest, outside

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.string import StringRecord
    from fieldbook.watch.state.water_level import Outside

PLANNED = "nothing hangs yet: the whole string as it is to hang"
_LANDING = "set.land"  # the step whose entry says that the string is on its hanger or plate
_HEAVIEST_WATER = quantity(39.2, "degF")


@dataclass(frozen=True, slots=True)
class Moment:
    """One moment of the lift.

    Attributes:
        record: The string as recorded.
        out: Pieces, or feet of hose, that are off its top.
        joints_out: How many joints that is.
        footage_out: How much hose that is; None on a pipe string.
        top: Depth of the string's top below the datum.
        deepest: Deepest plausible outside level; None is taken as no water in the well.
        deepest_is_read: A level was read below the deepest that the crew had said.
        outside: The water to expect about the string; None when no level was recorded.
        water_weight: Of the water, a volume.
        hangs: Whether anything still hangs.
        planned: Nothing hangs yet, and this is the whole string as it is to hang.
        counted_in: What moves is counted as it goes in: a string is to be set, or was.
        visit: A check visit, and no string is described: nothing is lifted.
        lost: The string is lost or parted: what still hangs is less than all that is described.
        landed: The string that was set is on its hanger or plate, and the gauge has let go of it.
        estimated: Which of piece, cable, pump and level hold an estimate.
        beyond: More went out, or in, than the string has, in words: what hangs is not known then.
    """

    record: StringRecord
    out: int | Quantity
    joints_out: int
    footage_out: Quantity | None
    top: Quantity
    deepest: Quantity | None
    deepest_is_read: bool
    outside: Outside | None
    water_weight: Quantity
    hangs: bool
    planned: bool
    counted_in: bool
    visit: bool
    lost: bool
    landed: bool
    beyond: str = ""
    estimated: frozenset[str] = frozenset()

    @property
    def level(self) -> Quantity | None:
        """Outside level to expect; None when none was recorded."""
        return self.outside.level if self.outside is not None else None

    @property
    def has_load(self) -> bool:
        """Whether there is a load to compute: of what hangs, or of what is to."""
        return self.is_lifted or self.planned

    @property
    def is_lifted(self) -> bool:
        """Whether something hangs that the hoist lifts or lowers."""
        return self.hangs and not self.visit

    def load(
        self, level: Quantity | None, fill: Fill, *, raised: Quantity | None = None
    ) -> Quantity:
        """The hook load now, for an outside level and what is in the bore.

        Args:
            level: Outside level, or None for no water in the well.
            fill: What is in the bore.
            raised: How far the string is raised above its hang; None for not at all.
        """
        assert self.record.string is not None
        return self.record.string.hook_load(
            level=level,
            top=self.top if raised is None else self.top - raised,
            fill=fill,
            water_weight=self.water_weight,
            out=self.out,
        )

    def column_load(self, level: Quantity | None) -> Quantity:
        """What draining takes off the hook: the bore water above the outside level."""
        full, drained = (
            magnitude(self.load(level, fill), "lbf", "hook load")
            for fill in (Fill.FULL, Fill.DRAINED)
        )
        return quantity(full - drained, "lbf")

    def joint_number(self, from_top: int) -> int:
        """The number the crew gives a joint: from the top down, but going in from the pump up.

        Args:
            from_top: Its number in the string, the top joint being 1.
        """
        return len(self.record.joint_ends) + 1 - from_top if self.counted_in else from_top

    @property
    def joint_names(self) -> dict[str, str]:
        """Name of each joint in the record -> as the crew counts it now."""
        ends = self.record.joint_ends
        return {
            self.record.pieces[end - 1].name: f"joint {self.joint_number(number)}"
            for number, end in enumerate(ends, 1)
        }

    @property
    def hanging_ft(self) -> float:
        """Length that still hangs, in feet."""
        if self.record.string is None or not self.hangs:
            return 0.0
        return magnitude(self.record.string.remaining(out=self.out), "ft", "hanging length")

    @property
    def line_ft(self) -> float:
        """Length that hangs above the pump, in feet, whatever it weighs."""
        if not self.hangs:
            return 0.0
        stretches = self.record.stretches
        if self.footage_out is not None:
            whole = sum(stretch.feet for stretch in stretches)
            return whole - magnitude(self.footage_out, "ft", "hose out")
        return sum(
            stretch.feet for stretch in stretches[pieces_off(self.record, self.joints_out) :]
        )


def moment(
    job: Job, record: StringRecord, *, joints_out: int | None = None, at: Entry | None = None
) -> Moment:
    """The moment at which the job's newest entries leave the string.

    Args:
        job: The job.
        record: Its string as recorded.
        joints_out: Ask about this many joints out instead of where the job is.
        at: Ask about the moment of this entry, with nothing that came after it.
    """
    facts = Facts(job)
    stick_up = facts.get("well", "stick_up")
    # Where nobody named the datum the string is taken to stand higher: more of it is above water.
    above_ground = facts.words("well", "datum") != "top of casing"
    hose_out = footage_out(job, record, at) if record.hose_ft and joints_out is None else None
    count = joints_off(job, record, at) if joints_out is None else joints_out
    planned = joints_out is None and is_planned(job, at)
    lowest, is_read = deepest(job)
    return Moment(
        record=record,
        out=hose_out if hose_out is not None else pieces_off(record, count),
        joints_out=count,
        footage_out=hose_out,
        top=quantity(-_feet(stick_up) if above_ground else 0.0, "ft"),
        deepest=lowest,
        deepest_is_read=is_read,
        outside=outside(_before(job, "level", at)),
        water_weight=water_weight(facts.get("well", "water_temperature")),
        hangs=joints_out is not None or _hangs(job, planned=planned),
        planned=planned,
        counted_in=is_planned(job, at) or moving_in(job, at),
        visit=job.text("job", "work") == "check" and not job.live("piece"),
        lost=is_lost(job),
        landed=joints_out is None and _has_landed(job, at),
        beyond=beyond(job, record, joints_out=joints_out, at=at),
        estimated=frozenset(k for k in ("piece", "cable", "pump", "level") if estimates(job, k)),
    )


def idle_words(now: Moment) -> str:
    """Why there is no load to compute."""
    return "check visit: nothing is lifted" if now.visit else "pump out, nothing hangs"


def _hangs(job: Job, *, planned: bool) -> bool:
    """Whether a string is in the well: not once the pump is out, until pipe or hose goes in."""
    out = job.last("pump_out")
    if out is None or planned:
        return not planned
    moves = (*job.live("joint"), *job.live("footage"))
    return any(e.order > out.order and e.text("direction") == "in" for e in moves)


def _has_landed(job: Job, at: Entry | None) -> bool:
    """Whether the string was landed, nothing moved since, and no reading shows it lifted again."""
    move = newest_move(job, at)
    read = [e for e in _before(job, "load", at) if move is not None and e.order > move.order]
    landings = [entry for entry in read if entry.text("step") == _LANDING]
    if not landings:
        return False
    rest = of_entry(landings[-1], "gauge_reading")
    later = (of_entry(e, "gauge_reading") for e in read if e.order > landings[-1].order)
    return all(load is None or (rest is not None and load <= rest) for load in later)


def water_weight(temperature: Quantity | None) -> Quantity:
    """Of the water at its temperature; of the heaviest water where that is not known."""
    try:
        return weight_density(temperature if temperature is not None else _HEAVIEST_WATER)
    except OutOfRange:
        return weight_density(_HEAVIEST_WATER)


def _feet(length: Quantity | None) -> float:
    return magnitude(length, "ft", "length") if length is not None else 0.0


def intake_depth(job: Job, now: Moment) -> tuple[Quantity | None, tuple[str, ...]]:
    """Where the pump's intake hangs, below the datum, or what is missing to know it."""
    if not now.hangs:
        return None, ("a string that hangs",)
    facts = Facts(job)
    below = facts.need("pump", "intake_below")
    if now.record.unmeasured or below is None:
        return None, (*now.record.unmeasured, *facts.missing)
    return quantity(_feet(hung_at(job, now)) + now.line_ft + _feet(below), "ft"), ()


def hung_at(job: Job, now: Moment) -> Quantity:
    """Depth of the string's top below the datum: of its hanger, once it is landed.

    On the hook the top is at the casing; a pitless takes it down below the ground.
    """
    frame = frame_of(job, "in")[0] if now.landed else None
    return quantity(frame.hang, "ft") if frame is not None else now.top


def _before(job: Job, kind: str, at: Entry | None) -> list[Entry]:
    return [entry for entry in job.live(kind) if at is None or entry.order < at.order]


def moving_in(job: Job, at: Entry | None = None) -> bool:
    """Whether the string is being set: the newest joint or footage, before `at`, went in."""
    newest = newest_move(job, at)
    return newest is not None and newest.text("direction") == "in"


def goes_in(job: Job) -> bool:
    """Whether the string goes in, or is to, and the pump has not run on it yet."""
    if is_planned(job):
        return True
    newest = newest_move(job)
    if newest is None or newest.text("direction") != "in":
        return False
    ran = (e for e in reversed(job.live("meter")) if "amps_a" in e.values)
    last = next(ran, None)
    return last is None or last.order < newest.order


def joints_off(job: Job, record: StringRecord, at: Entry | None = None) -> int:
    """How many joints are not in the well, at most as many as the string has."""
    total = len(record.joint_ends)
    moves = _before(job, "joint", at)
    if moving_in(job, at):
        return max(total - tally(moves, "in").count, 0)
    if is_planned(job, at):
        return 0
    return min(tally(moves, "out").count, total)


def pieces_off(record: StringRecord, joints: int) -> int:
    """How many pieces are off once that many joints are off."""
    if joints <= 0 or not record.joint_ends:
        return 0
    return record.joint_ends[min(joints, len(record.joint_ends)) - 1]


def footage_out(job: Job, record: StringRecord, at: Entry | None = None) -> Quantity:
    """Hose out of the well, by the counter as corrected at the last mark, at most all of it."""
    direction = "in" if moving_in(job, at) else "out"
    if is_planned(job, at):
        return quantity(0.0, "ft")
    moved = footage(_before(job, "footage", at), direction, record.hose_ft).feet or 0.0
    run = min(max(moved, 0.0), record.hose_ft)
    return quantity(record.hose_ft - run if direction == "in" else run, "ft")
