"""What the gauge should show next, how much pull is left, and how far that is at the hook."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.fill import Fill
from calc.stretch import Section, stuck_rate
from calc.units import magnitude, quantity
from fieldbook.watch.moment import pieces_off

if TYPE_CHECKING:
    from calc.gauge import Band
    from calc.units import Quantity
    from fieldbook.watch.lift import Lift
    from fieldbook.watch.moment import Moment
    from fieldbook.watch.readings import Instrument

_MARK_FT = 50.0
_SUDDEN_IN = 2.0  # of travel: no hand is quick enough to read a screen and stop; ours


@dataclass(frozen=True, slots=True)
class Ahead:
    """What comes next.

    Attributes:
        at: Where the next reading is taken, in words; empty at the end of the string.
        full: Reading to expect there with the line full.
        drained: Reading to expect there with the line drained.
        overpull: Hook load left between what hangs now and the limit; negative is past it.
        overpull_reading: The same as a reading, from the highest that may be shown now.
        travel: How far the hook rises until a string held at its bottom reaches the limit; held
            higher up, less. None where the line's stiffness is not known.
    """

    at: str = ""
    full: Band | None = None
    drained: Band | None = None
    overpull: Quantity | None = None
    overpull_reading: Quantity | None = None
    travel: Quantity | None = None

    @property
    def warning(self) -> str:
        """What a stuck string does to the limit; empty where there is time to see it come."""
        if self.travel is None:
            return ""
        inches = magnitude(self.travel, "in", "travel")
        if inches > _SUDDEN_IN:
            return ""
        return (
            f"held fast, it reaches the limit within {_inches(max(inches, 0.0))} in of travel:"
            " stop by hand, not by a screen"
        )

    def lines(self) -> list[str]:
        """Plain text lines for a screen or a terminal."""
        found = []
        if self.full is not None and self.drained is not None:
            full, drained = _span(self.full), _span(self.drained)
            found.append(f"next, {self.at}: {full} lbf full, {drained} drained")
        if self.overpull is not None:
            left = f"overpull left {magnitude(self.overpull, 'lbf', 'overpull'):,.0f} lbf of load"
            if self.overpull_reading is not None:
                reading = magnitude(self.overpull_reading, "lbf", "overpull")
                left += f", {reading:,.0f} lbf of reading"
            if self.travel is not None:
                left += f", {_inches(magnitude(self.travel, 'in', 'travel'))} in held at its bottom"
            found.append(left)
        if self.warning:
            found.append(self.warning)
        return found


def _span(band: Band) -> str:
    low, high = (magnitude(end, "lbf", "band") for end in (band.low, band.high))
    return f"{low:,.0f} to {high:,.0f}"


def ahead(
    now: Moment,
    answer: Lift,
    tool: Instrument | None,
    never: Quantity | None,
    *,
    fill: Fill,
    setting: bool,
) -> Ahead:
    """What comes next on the string as it hangs.

    Args:
        now: Where it stands.
        answer: The lift check, for its limit.
        tool: The gauge as rigged.
        never: The reading never to pass.
        fill: What the bore is taken to hold now.
        setting: The string is going in.
    """
    if now.record.string is None or not now.hangs or now.lost or now.level is None:
        return Ahead()
    load = now.load(now.level, fill)
    left = answer.limit - load if answer.limit is not None else None
    shown = never - tool.expect(load).high if tool is not None and never is not None else None
    at, then = _next(now, setting=setting)
    full = drained = None
    if tool is not None and then is not None:
        full = tool.expect(then.load(now.level, Fill.FULL))
        drained = tool.expect(then.load(now.level, Fill.DRAINED))
    return Ahead(at, full, drained, left, shown, _travel(now, left))


def _next(now: Moment, *, setting: bool) -> tuple[str, Moment | None]:
    """Where the next reading is taken, and the moment of it."""
    record, step = now.record, -1 if setting else 1
    if now.footage_out is not None:
        out = magnitude(now.footage_out, "ft", "footage out")
        marks = out / _MARK_FT
        feet = _MARK_FT * (int(marks) + 1 if step > 0 else int(-(-marks // 1)) - 1)
        if not 0.0 <= feet < record.hose_ft:
            return "", None
        footage = quantity(feet, "ft")
        return f"{feet:,.0f} ft of hose out", replace(now, out=footage, footage_out=footage)
    joints = now.joints_out + step
    if not 0 <= joints < len(record.joint_ends):
        return "", None
    moved = replace(now, out=pieces_off(record, joints), joints_out=joints)
    return f"{joints} joint{'s' if joints != 1 else ''} out", moved


def _travel(now: Moment, left: Quantity | None) -> Quantity | None:
    """Inches of hook travel that use up `left`, the string held at its lower end."""
    record = now.record
    if left is None or now.footage_out is not None or not isinstance(now.out, int):
        return None
    lengths: dict[float, float] = {}
    for piece in record.pieces[now.out :]:
        line = record.lines.get(piece.name)
        if line is None:
            continue  # valves and pump are short and stiff beside the pipe
        if line.stiffness is None:
            return None
        stiff = magnitude(line.stiffness, "lbf", "stiffness")
        lengths[stiff] = lengths.get(stiff, 0.0) + piece.numbers.length
    if not lengths:
        return None
    sections = [Section(quantity(ft, "ft"), quantity(ae, "lbf")) for ae, ft in lengths.items()]
    rate = magnitude(stuck_rate(sections), "lbf/in", "pull an inch")
    return quantity(magnitude(left, "lbf", "overpull") / rate, "in")


def _inches(travel: float) -> str:
    """Inches as far as they matter: on steel they are few."""
    return f"{travel:,.1f}" if travel >= 1.0 else f"{travel:.2f}"
