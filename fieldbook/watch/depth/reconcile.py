"""How deep: every way of knowing it on one datum, weighed, and the odd one out named."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.drop_line.reconcile import Reconciled, reconcile
from calc.units import magnitude, quantity
from fieldbook.quantities.convert import show
from fieldbook.record.footage import in_feet
from fieldbook.watch.depth.by_hanging_weight import WEIGHT, by_weight
from fieldbook.watch.depth.by_load_break import crossing
from fieldbook.watch.depth.methods import ways_in, ways_out
from fieldbook.watch.depth.mistakes import likely
from fieldbook.watch.state.depth_frame import Frame, frame_of
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.position import moving_in
from fieldbook.watch.text import word_of

if TYPE_CHECKING:
    from calc.drop_line.reconcile import Way, Weighed
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.state.position import Moment

NAME = "depth"
_PIPE_FT = 1.0
_HOSE_SHARE = 0.01
_HALF_A_JOINT = 10.0
_SOURCE = "weights and chi-square: statistics; about 1 ft, on hose 1 %: common practice"
_FORMULA = "largest difference between the ways that are good to what is allowed / allowed"


@dataclass(frozen=True, slots=True)
class Depth:
    """How deep the intake hangs, or hung before it was pulled.

    Attributes:
        check: The ways against each other; None until there is something to reconcile.
        found: What the ways come to; None without any.
        datum: What every depth is below.
        lines: The same in words: what it comes to, then each way.
    """

    check: Check | None = None
    found: Reconciled | None = None
    datum: str = ""
    lines: tuple[str, ...] = ()


def depth(job: Job, now: Moment, tool: Instrument | None) -> Depth:
    """Reconcile the depth, once the pump is out or the whole string is in.

    Args:
        job: The job.
        now: Where its string is.
        tool: The gauge as rigged; None where it cannot be read, and the load tells no depth.
    """
    direction = _direction(job, now)
    if direction is None:
        return Depth()
    frame, missing = frame_of(job, direction)
    if frame is None:
        return Depth(_unknown(missing))
    gather = ways_in if direction == "in" else ways_out
    ways = [*gather(job, frame), *crossing(job, now, frame, tool, direction)]
    if direction == "in":
        ways += by_weight(job, now, frame, tool)
    if not ways:
        return Depth(_unknown(("any way of knowing the depth",)), datum=frame.datum)
    found = reconcile(ways)
    check = _check(job, frame, found, direction)
    lines = _lines(found, frame.datum, check)
    weighed = direction == "in" and Facts(job).get("depth", "gauge_reading") is not None
    if weighed and not any(way.name == WEIGHT for way in ways):
        lines += ("The weight read tells no depth: too coarse here, or a figure is missing.",)
    return Depth(check, found, frame.datum, lines)


def _direction(job: Job, now: Moment) -> str | None:
    """Whether the depth of a set or of a pull is asked for; None while the string is on its way."""
    if not now.hangs:
        return "out" if job.last("pump_out") is not None else None
    out, agreed = job.last("pump_out"), job.last("depth")
    if agreed is not None and (out is None or agreed.order > out.order):
        return "in"
    return "in" if moving_in(job) and now.record.string is not None and _all_in(now) else None


def _all_in(now: Moment) -> bool:
    if now.footage_out is None:
        return now.joints_out == 0
    return magnitude(now.footage_out, "ft", "hose out") < max(1.0, 0.01 * now.record.hose_ft)


def _unknown(missing: tuple[str, ...]) -> Check:
    return Check(NAME, Verdict.UNKNOWN, missing=missing, formula=_FORMULA, source=_SOURCE)


def _check(job: Job, frame: Frame, found: Reconciled, direction: str) -> Check:
    best = magnitude(found.depth, "ft", "depth")
    allowed = _PIPE_FT
    if job.text("job", "line") == "hose":
        allowed = max(allowed, _HOSE_SHARE * abs(best))
    spread = _spread(found, allowed)
    sure = show(found.uncertainty, "ft", 1)
    notes = [f"intake {best:z,.1f} +- {sure} below {frame.datum}"]
    said = _agreed(job, frame) if direction == "in" else None
    if said is not None and abs(said - best) > allowed:
        notes.append(f"{said:z,.1f} ft was agreed, {said - best:+z,.1f} ft off")
    missing = _open_questions(job, frame, found, spread, allowed, direction)
    if not missing and spread is not None and spread > allowed:
        notes.append(f"the ways are {spread:,.1f} ft apart, {allowed:.1f} allowed")
    if missing:
        verdict = Verdict.UNKNOWN
    elif spread is None or len(notes) > 1:
        verdict = Verdict.CAUTION
    else:
        verdict = Verdict.WITHIN
    if spread is None and len(found.ways) > 1:
        notes.append(f"no two of the ways are good to {allowed:.1f} ft")
    return Check(
        NAME,
        verdict,
        demand=quantity(spread, "ft") if spread is not None else None,
        allowable=quantity(allowed, "ft"),
        share=spread / allowed if spread is not None else None,
        governs=_governs(found),
        missing=missing,
        formula=_FORMULA,
        source=_SOURCE,
        note="; ".join(notes),
    )


def _spread(found: Reconciled, allowed: float) -> float | None:
    """How far apart the ways are that are good to what is allowed; None for fewer than two.

    A way that is coarser than that cannot say whether the rest agree so closely.
    """
    fine = [
        magnitude(each.way.depth, "ft", each.way.name)
        for each in found.ways
        if magnitude(each.way.uncertainty, "ft", "uncertainty") <= allowed
    ]
    return max(fine) - min(fine) if len(fine) > 1 else None


def _open_questions(
    job: Job,
    frame: Frame,
    found: Reconciled,
    spread: float | None,
    allowed: float,
    direction: str,
) -> tuple[str, ...]:
    """What must be answered before anyone can say how deep the pump hangs."""
    if sum(_is_a_joint_off(each.way) for each in found.ways) < 2:
        return ("a second way of knowing the depth",)
    if found.agree or (found.odd is None and spread is not None and spread <= allowed):
        return ()
    return (_why(job, frame, found, direction),)


def _is_a_joint_off(way: Way) -> bool:
    """Whether a way is good enough to show one joint, or its length of hose, more or less."""
    return magnitude(way.uncertainty, "ft", "uncertainty") <= _HALF_A_JOINT


def _agreed(job: Job, frame: Frame) -> float | None:
    """The depth the crew agreed on, below the datum of the well."""
    entry = job.last("depth")
    depth = in_feet(entry, "setting_depth") if entry is not None else None
    if entry is None or depth is None:
        return None
    return frame.on_datum(depth, entry.text("datum"))


def _governs(found: Reconciled) -> str:
    if found.odd is not None:
        return found.odd.way.name
    names = [each.way.name for each in found.ways]
    return f"{names[0]} alone" if len(names) == 1 else ", ".join(names)


def _why(job: Job, frame: Frame, found: Reconciled, direction: str) -> str:
    if found.odd is None:
        if len(found.ways) == 2:
            first, second = found.ways
            off = abs(magnitude(first.difference, "ft", "difference"))
            causes = likely(job, frame, first, direction)
            return (
                f"which is right: {first.way.name} and {second.way.name} differ by"
                f" {off:,.1f} ft{causes}"
            )
        return "which is right: the ways differ, and more than one of them may be off"
    others = len(found.ways) - 1
    return (
        f"why the {_off(found.odd)} of the other {others}{likely(job, frame, found.odd, direction)}"
    )


def _off(weighed: Weighed) -> str:
    off = magnitude(weighed.difference, "ft", "difference")
    return f"{weighed.way.name} is {abs(off):,.1f} ft {'short' if off < 0 else 'long'}"


def _lines(found: Reconciled, datum: str, check: Check) -> tuple[str, ...]:
    """What the ways come to, and what is doubtful of it, for a screen or a sheet."""
    depth = _pm(found.depth, found.uncertainty)
    whole = f"Intake {depth} ft below {datum}: {word_of(check.verdict)}"
    rows = [_row(each, found) for each in found.ways]
    heads = [f"  {'way':<17} {'depth, ft':<11}share off"] if len(rows) > 1 else []
    _, *doubts = check.note.split("; ")
    said = [*(f"Missing: {lack}" for lack in check.missing), *map(_sentence, doubts)]
    return (whole, *heads, *rows, *said)


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]


def _row(each: Weighed, found: Reconciled) -> str:
    """One way, in some 41 columns; the odd one is marked, and weighs nothing."""
    way = each.way
    odd = ">" if found.odd is each else " "
    row = f"{odd} {way.name:<17} {_pm(way.depth, way.uncertainty):<11}"
    if len(found.ways) == 1:
        return row.rstrip()
    off = magnitude(way.depth, "ft", way.name) - magnitude(found.depth, "ft", "depth")
    return f"{row}{each.weight:>5.0%} {off:+z,.1f}"


def _pm(depth: Quantity, sure: Quantity) -> str:
    return f"{depth.m_as('ft'):z,.1f} +-{sure.m_as('ft'):,.1f}"
