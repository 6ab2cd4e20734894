"""The setting: water over the intake, room below the motor, water past it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.errors import CalcError, OutOfRange
from calc.hydraulics.well import expected_drawdown
from calc.units import magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.record.levels import at_rest
from fieldbook.watch.combine import together
from fieldbook.watch.lift.load_path import CAUTION_SHARE
from fieldbook.watch.planner.motor import motor_cooling
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.metered import MeterPlace
from fieldbook.watch.state.well_bottom import bottom

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered

NAME = "setting"
_OVER = 10.0
_OVER_SOURCE = "South Dakota ARSD 74:02:04:60: 10 ft over the intake at the greatest drawdown"
_OFF_BOTTOM = 10.0
_OFF_FILL = 5.0
_BELOW_SOURCE = "10 ft off the bottom, 5 above fill as tagged: common practice, no published source"


def setting(job: Job, read: Metered) -> Check | None:
    """The depth that is planned, or was agreed once it hangs; None before there is one.

    None too while the old string is on its way out.
    """
    if read.place is MeterPlace.ON_THE_WAY_OUT or not (job.live("setting") or job.live("depth")):
        return None
    facts = Facts(job)
    intake = _intake(job, facts)
    over = _over_the_intake(intake, _lowest_level(job), tuple(facts.missing))
    return together(NAME, [over, _below_the_motor(job, intake), _past_the_motor(job, intake)])


def _past_the_motor(job: Job, intake: Quantity | None) -> Check:
    facts = Facts(job)
    wanted = facts.get("duty", "duty_flow")
    flow = wanted if wanted is not None else facts.get("pump", "pump_flow")
    try:
        found = motor_cooling(job, flow, intake)
    except CalcError as problem:
        return Check(NAME, Verdict.UNKNOWN, missing=(f"water past the motor: {problem}",))
    typed = facts.get("duty", "cooling_speed")
    derived = found.allowable
    slower = typed is not None and derived is not None and typed < derived
    if typed is not None and (found.verdict is Verdict.UNKNOWN or slower):
        # The crew's own figure, where a sleeve or the water's way in keeps the book from computing
        # it, or where it is the smaller of the two.
        return judge(
            NAME,
            found.demand,
            typed,
            unit="ft/s",
            caution_share=CAUTION_SHARE,
            governs=f"{typed.m_as('ft/s'):.2f} ft/s past the motor",
            missing=() if found.demand is not None else found.missing,
            formula="least velocity / velocity as the crew worked it out",
            source="least velocity by motor size: common practice, no published source",
            at_least=True,
        )
    speed = f"{found.allowable.m_as('ft/s'):.2f} ft/s" if found.allowable is not None else "water"
    return replace(found, governs=f"{speed} past the motor")


def _intake(job: Job, facts: Facts) -> Quantity | None:
    """Depth of the intake below the datum of the well; what it lacks is noted."""
    datum = facts.need_words("well", "datum")
    for kind in ("depth", "setting"):
        entry = job.last(kind)
        depth = of_entry(entry, "setting_depth") if entry is not None else None
        if entry is None or depth is None:
            continue
        if entry.text("datum") == datum or not datum:
            return depth if datum else None
        stick_up = facts.need("well", "stick_up")
        if stick_up is None:
            return None
        rise = stick_up if datum == "top of casing" else -stick_up
        return quantity(magnitude(depth + rise, "ft", "setting depth"), "ft")
    facts.lack(definition("setting_depth").label)
    return None


def _lowest_level(job: Job) -> Quantity | None:
    """The deepest pumping level that is planned, was seen, or follows from the flow wanted."""
    return max(_pumping_levels(job), default=None)


def _pumping_levels(job: Job) -> Iterator[Quantity]:
    for kind in ("setting", "duty"):
        planned = Facts(job).get(kind, "pumping_level")
        if planned is not None:
            yield planned
    worked = _worked_level(job)
    if worked is not None:
        yield worked
    for entry in job.live("level"):
        level = of_entry(entry, "water_level")
        if entry.text("level_state") == "pumping" and level is not None:
            yield level


def _worked_level(job: Job) -> Quantity | None:
    """The level at rest and the drawdown at the flow wanted; None where a part is not known."""
    facts = Facts(job)
    flow, each = facts.get("duty", "duty_flow"), facts.get("duty", "specific_capacity")
    rest = at_rest(job.live("level"))
    level = of_entry(rest[-1], "water_level") if rest else None
    if flow is None or each is None or level is None:
        return None
    each = quantity(magnitude(each, "dimensionless", "specific capacity"), "gpm/ft")
    try:
        down = expected_drawdown(flow=flow, specific_capacity=each)
    except OutOfRange:
        return None
    return quantity(magnitude(level + down, "ft", "level"), "ft")


def _over_the_intake(
    intake: Quantity | None, level: Quantity | None, missing: tuple[str, ...]
) -> Check:
    lacking = [*missing, *(["pumping level"] if level is None else [])]
    if intake is None or level is None or lacking:
        return Check(NAME, Verdict.UNKNOWN, missing=tuple(lacking), source=_OVER_SOURCE)
    water = magnitude(intake, "ft", "intake") - magnitude(level, "ft", "level")
    return _room(
        water,
        _OVER,
        words=f"{water:z,.1f} ft of water over the intake",
        formula="depth of the intake less the deepest pumping level",
        source=_OVER_SOURCE,
    )


def _below_the_motor(job: Job, intake: Quantity | None) -> Check:
    facts = Facts(job)
    length, below = facts.need("pump", "pump_length"), facts.need("pump", "intake_below")
    found = bottom(facts)
    if intake is None or length is None or below is None or found.depth is None:
        return Check(NAME, Verdict.UNKNOWN, missing=tuple(facts.missing), source=_BELOW_SOURCE)
    end = magnitude(intake + length - below, "ft", "end of the motor")
    room = magnitude(found.depth, "ft", "bottom") - end
    return _room(
        room,
        _OFF_FILL if found.tagged else _OFF_BOTTOM,
        words=f"{room:z,.1f} ft below the motor",
        formula="bottom of the well less the end of the motor",
        source=_BELOW_SOURCE,
    )


def _room(room: float, asked: float, *, words: str, formula: str, source: str) -> Check:
    """Nothing left is a stop; less than is usually asked is a caution, for that is no rating."""
    verdict = Verdict.CAUTION if room < asked else Verdict.WITHIN
    if room <= 0.0:
        verdict = Verdict.STOP
    return Check(
        NAME,
        verdict,
        demand=quantity(asked, "ft"),
        allowable=quantity(room, "ft"),
        share=asked / room if room > 0.0 else None,
        governs=words,
        formula=formula,
        source=source,
        note=f"{words}, {asked:g} asked" if verdict is not Verdict.WITHIN else "",
        at_least=True,
    )
