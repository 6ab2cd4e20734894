"""What the gauge should show next, how much pull is left, and how far that is at the hook."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.drop_line.stretch import Section, stuck_rate
from calc.units import magnitude, quantity
from fieldbook.watch.bands import band_words
from fieldbook.watch.gauge.spread import expected_band
from fieldbook.watch.state.position import pieces_off

if TYPE_CHECKING:
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.lift.lift import Lift
    from fieldbook.watch.state.position import Moment

_MARK_FT = 50.0
_AT_A_MARK_FT = 0.01  # less than a counter shows: feet in are a difference, and seldom round
_SUDDEN_IN = 2.0  # of travel: no hand is quick enough to read a screen and stop; ours


@dataclass(frozen=True, slots=True)
class Ahead:
    """What comes next.

    Attributes:
        at: Where the next reading is taken, in words; empty at the end of the string.
        full: Reading to expect there with the line full.
        drained: Reading to expect there with the line drained.
        overpull: Hook load left between what hangs now and the limit; negative is past it.
        overpull_reading: The same as a reading, from `most`.
        most: The highest reading to expect now.
        travel: How far the hook rises until a string held at its bottom reaches the limit; held
            higher up, less. None where the line's stiffness is not known.
        fill: What the bore is taken to hold: which of the two readings is the one to expect.
    """

    at: str = ""
    full: Band | None = None
    drained: Band | None = None
    overpull: Quantity | None = None
    overpull_reading: Quantity | None = None
    most: Quantity | None = None
    travel: Quantity | None = None
    fill: Fill = Fill.FULL

    @property
    def warning(self) -> str:
        """What a stuck string does to the limit; empty where there is time to see it come."""
        if self.travel is None:
            return ""
        inches = magnitude(self.travel, "in", "travel")
        if inches > _SUDDEN_IN:
            return ""
        within = _inches(max(inches, 0.0))
        return f"if stuck: limit in {within} in of pull: stop by hand, not by a screen"

    @property
    def coming(self) -> str:
        """The next reading to expect, "2 joints out: 844 to 931 lbf full"; empty for none."""
        drained = self.fill is Fill.DRAINED
        band = self.drained if drained else self.full
        if band is None:
            return ""
        return f"{self.at}: {band_words(band)} {'drained' if drained else 'full'}"

    def lines(self) -> list[str]:
        """Plain text lines for a screen or a terminal."""
        found = [f"next, {self.coming}"] if self.coming else []
        if self.overpull is not None:
            left = f"{magnitude(self.overpull, 'lbf', 'overpull'):z,.0f} lbf left at the hook"
            if self.overpull_reading is not None and self.most is not None:
                reading = magnitude(self.overpull_reading, "lbf", "overpull")
                most = magnitude(self.most, "lbf", "reading")
                left += f", {reading:z,.0f} left on the gauge over {most:z,.0f}"
            if self.travel is not None and not self.warning:
                inches = _inches(magnitude(self.travel, "in", "travel"))
                left += f", {inches} in of pull if stuck at the bottom"
            found.append(left)
        if self.warning:
            found.append(self.warning)
        return found


def ahead(
    now: Moment,
    answer: Lift,
    tool: Instrument | None,
    never: Quantity | None,
    *,
    fill: Fill,
) -> Ahead:
    """What comes next on the string as it hangs, or as it is to hang.

    Args:
        now: Where it is.
        answer: The lift check, for its limit.
        tool: The gauge as rigged.
        never: The reading never to pass.
        fill: What the bore is taken to hold now.
    """
    if now.record.string is None or not now.has_load or now.lost or now.beyond or now.level is None:
        return Ahead()
    at, then = _next(now)
    full = drained = None
    if tool is not None and then is not None:
        full = expected_band(tool, then, now.level, Fill.FULL)
        drained = expected_band(tool, then, now.level, Fill.DRAINED)
    coming = Ahead(at, full, drained, fill=fill)
    if now.planned or now.landed:
        return coming  # nothing to pull on: it does not hang yet, or no longer on the hook
    load = now.load(now.level, fill)
    left = answer.limit - load if answer.limit is not None else None
    most = expected_band(tool, now, now.level, fill).high if tool is not None else None
    shown = never - most if most is not None and never is not None else None
    return replace(
        coming, overpull=left, overpull_reading=shown, most=most, travel=_travel(now, left)
    )


def _next(now: Moment) -> tuple[str, Moment | None]:
    """Where the next reading is taken, and the moment of it."""
    if now.footage_out is not None:
        return _next_mark(now, magnitude(now.footage_out, "ft", "footage out"))
    record = now.record
    whole = len(record.joint_ends)
    moved = (0 if now.planned else whole - now.joints_out) if now.counted_in else now.joints_out
    moved += 1
    # With every joint out nothing is left to read; with every joint in all of it hangs.
    if moved > (whole if now.counted_in else whole - 1):
        return "", None
    joints = whole - moved if now.counted_in else moved
    then = replace(now, out=pieces_off(record, joints), joints_out=joints)
    return f"{moved} joint{'s' if moved != 1 else ''} {_way(now)}", then


def _next_mark(now: Moment, out: float) -> tuple[str, Moment | None]:
    """The same on hose: the next round mark of what is out, or in; in at the last the whole."""
    whole = now.record.hose_ft
    moved = (0.0 if now.planned else whole - out) if now.counted_in else out
    mark = _MARK_FT * (int((moved + _AT_A_MARK_FT) / _MARK_FT) + 1)
    if now.counted_in:
        mark = min(mark, whole)
    if not moved < mark <= whole or (mark == whole and not now.counted_in):
        return "", None
    footage = quantity(whole - mark if now.counted_in else mark, "ft")
    then = replace(now, out=footage, footage_out=footage)
    return f"{mark:,.0f} ft of hose {_way(now)}", then


def _way(now: Moment) -> str:
    return "in" if now.counted_in else "out"


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
