"""What is known of the well and of what hangs in it, in feet below the datum, to be drawn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.units import magnitude
from fieldbook.record.string import pump_came_out
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.position import hung_at
from fieldbook.watch.state.string import string_record

if TYPE_CHECKING:
    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.job import Job


@dataclass(frozen=True, slots=True)
class PicturePart:
    """A piece of the string: what it is, and its ends in feet below the datum."""

    kind: str
    top: float
    end: float


@dataclass(frozen=True, slots=True)
class WellPicture:
    """What is drawn, in feet below the datum; None where it is not known.

    Attributes:
        datum: What the depths are measured from, in words.
        ground: Depth of the ground.
        rim: Depth of the top of the casing; None where the stick-up is not known.
        bottom: Depth of the well by its record.
        tagged: Depth to the bottom as tagged.
        screen: Top and bottom of the screen or open hole.
        levels: Words and depth of each water level.
        parts: The string from the top down.
        intake: Depth of the pump's intake.
        hangs: Whether the string is in the well, or is drawn as it was before it came out.
    """

    datum: str
    ground: float
    rim: float | None
    bottom: float | None
    tagged: float | None
    screen: tuple[float, float] | None
    levels: tuple[tuple[str, float], ...]
    parts: tuple[PicturePart, ...]
    intake: float | None
    hangs: bool

    @property
    def deepest(self) -> float:
        """The deepest thing that is known, a little more when that is not the bottom."""
        known = [depth for depth in (self.bottom, self.tagged) if depth is not None]
        # A casing that was cut off is below the ground.
        others = [max(self.ground, self.rim or 0.0) + 10.0, *(depth for _, depth in self.levels)]
        others += [part.end for part in self.parts] + ([self.screen[1]] if self.screen else [])
        return max(*known, *others) if known else max(others) * 1.1


def picture_of(context: SheetContext) -> WellPicture:
    """What the account knows of the well and of what hangs in it."""
    facts = Facts(context.job)
    bottom, low, high, stick_up = (
        _feet(facts, name) for name in ("well_depth", "screen_top", "screen_bottom", "stick_up")
    )
    tagged = _feet(facts, "tagged_depth")
    if tagged is None:
        tagged = _feet(facts, "tagged_depth", "pump_out")
    from_ground = facts.words("well", "datum") != "top of casing"
    ground = 0.0 if from_ground else (stick_up or 0.0)  # the well's depth is from the ground down
    parts, intake = _string(context)
    return WellPicture(
        datum=facts.words("well", "datum") or "a datum not named",
        ground=ground,
        rim=(None if stick_up is None else -stick_up) if from_ground else 0.0,
        bottom=bottom + ground if bottom is not None else None,
        tagged=tagged,
        screen=(low, high) if low is not None and high is not None and high > low else None,
        levels=_levels(context.job),
        parts=parts,
        intake=intake,
        hangs=context.look.now.hangs,
    )


def _feet(facts: Facts, name: str, kind: str = "well") -> float | None:
    value = facts.get(kind, name)
    return magnitude(value, "ft", name) if value is not None else None


def _levels(job: Job) -> tuple[tuple[str, float], ...]:
    newest: dict[str, float] = {}
    for entry in job.live("level"):
        level = of_entry(entry, "water_level")
        if level is not None:
            newest[entry.text("level_state")] = magnitude(level, "ft", "level")
    return tuple((f"{state} water".strip(), depth) for state, depth in newest.items())


def _string(context: SheetContext) -> tuple[tuple[PicturePart, ...], float | None]:
    """The pieces in the well, or as they were found where nothing hangs; and the intake's depth."""
    now, job = context.look.now, context.job
    record = now.record if now.hangs else string_record(job, as_found=True)
    if record.string is None:
        return (), None
    top = depth = magnitude(hung_at(job, now), "ft", "top")
    if now.hangs:
        depth -= magnitude(record.string.remaining(out=0), "ft", "length") - now.hanging_ft
    parts, intake = [], None
    for piece in record.pieces:
        end = depth + piece.numbers.length
        if end > top:
            parts.append(PicturePart(piece.kind, max(depth, top), end))
        if piece.kind == "pump":
            facts = Facts(job, until=None if now.hangs else pump_came_out(job))
            below = _feet(facts, "intake_below", "pump")
            intake = depth + below if below is not None else None
        depth = end
    return tuple(parts), intake
