"""Insulation to ground: by a rule that is named, and against the last reading like it.

Rules disagree, so each answers by name: the maker's least where it is written, else the trade's
bands, rule the verdict; what IEEE 43 would say of the winding alone is shown beside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.electric.insulation import (
    MotorState,
    Winding,
    insulation_at_40_c,
    judge_by_ieee_43,
    judge_by_trade_bands,
)
from calc.errors import OutOfRange
from calc.units import magnitude, quantity
from fieldbook.record.string import is_planned
from fieldbook.watch.combine import together
from fieldbook.watch.motor.windings import WITHOUT_CABLE
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.metered import MeterPlace
from fieldbook.watch.state.position import moment

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.state.string import StringRecord

NAME = "insulation"
_HALF = 0.5
_SPLICE = quantity(50.0, "Mohm")
_FLOOR = 100.0  # Mohm; above it a drop says little, testers and leads differ: ours
_LIKE_F = 10.0  # degF apart at most, and brought to 40 C besides: ours
_LIKE_SOURCE = "like with like as IEEE 43 asks; below half of the last: common practice"


@dataclass(frozen=True, slots=True)
class _Reading:
    """One reading with what makes it like another."""

    megohms: float
    temperature: Quantity | None
    wet: float | None
    clock: str


def insulation(job: Job, read: Metered, now: Moment) -> Check | None:
    """The newest reading of the motor where it is; None before there is one."""
    two = list(islice(read.saying("insulation"), 2))
    if not two or (newest := of_entry(two[0], "insulation")) is None:
        return None
    facts = Facts(job)
    seen = [_reading(job, entry, read.place, now.record) for entry in two]
    parts = [_by_rule(job, two[0], newest, read.place)]
    compared = _against_the_last(*seen) if len(seen) == 2 else None
    if isinstance(compared, Check):
        parts.append(compared)
    ieee = _by_ieee(newest, seen[0].temperature, facts.get("pump", "motor_voltage"))
    notes = [ieee, compared if isinstance(compared, str) else ""]
    return together(NAME, parts, note="; ".join(note for note in notes if note))


def _by_rule(job: Job, entry: Entry, reading: Quantity, place: MeterPlace) -> Check:
    maker = Facts(job).get("pump", "least_insulation")
    if maker is not None and maker.magnitude > 0 and reading.magnitude > 0:
        return judge(
            NAME,
            maker,
            reading,
            unit="Mohm",
            caution_share=0.5,
            governs=f"{reading.m_as('Mohm'):,.4g} Mohm by the maker's least",
            formula="maker's least / reading",
            source="maker's sheet",
            at_least=True,
        )
    ran = entry.text("part") == WITHOUT_CABLE
    age = "used" if ran else Facts(job).words("pump", "motor_age")
    goes_in = not ran and is_planned(job, entry)
    found, doubt = _by_bands(reading, place, age, goes_in=goes_in)
    rule = found.name.removeprefix("insulation by ")
    return Check(
        NAME,
        Verdict.UNKNOWN if doubt else found.verdict,
        found.demand,
        found.allowable,
        found.share,
        governs=f"{reading.m_as('Mohm'):,.4g} Mohm by {rule}",
        missing=(doubt,) if doubt else (),
        formula=found.formula,
        source=found.source,
        note=found.note,
        at_least=True,
    )


def _of_a_fresh_splice(reading: Quantity) -> Check:
    """Against what the trade asks of new motor and splice before they go in (HP11)."""
    return judge(
        "insulation by the 50 asked of a fresh splice",
        _SPLICE,
        reading,
        unit="Mohm",
        caution_share=1.0,
        formula="least of a fresh splice in water / reading",
        source="50 Mohm a lead for a fresh splice in water: common practice, no published source",
        at_least=True,
    )


def _by_bands(
    reading: Quantity, place: MeterPlace, age: str, *, goes_in: bool
) -> tuple[Check, str]:
    """By the trade's bands for where the motor is, and what must be known to choose the band.

    A new motor that is about to go in is read with its splice, of which more is asked.
    """
    if place is MeterPlace.NEWLY_SET:
        return judge_by_trade_bands(reading=reading, state=MotorState.NEWLY_SET), ""
    if place is not MeterPlace.OUT:
        return judge_by_trade_bands(reading=reading, state=MotorState.IN_SERVICE), ""
    new, used = (
        judge_by_trade_bands(reading=reading, state=state)
        for state in (MotorState.NEW_ON_BENCH, MotorState.USED_ON_BENCH)
    )
    if goes_in and (fresh := _of_a_fresh_splice(reading)).verdict is Verdict.STOP:
        new = fresh
    if age:
        return (new if age == "new" else used), ""
    # Not knowing matters only where the two bands do not say the same of good or bad.
    if (new.verdict is Verdict.STOP) != (used.verdict is Verdict.STOP):
        return new, "whether the motor is new or used"
    return new, ""


def _by_ieee(reading: Quantity, temperature: Quantity | None, volts: Quantity | None) -> str:
    try:
        found = judge_by_ieee_43(
            reading=reading,
            temperature=temperature,
            winding=Winding.RANDOM,
            rated_voltage=volts,
            caution_share=0.5,
        )
    except OutOfRange:
        return ""
    if found.missing:
        return f"by IEEE 43 unknown: {', '.join(found.missing)}"
    least = found.demand.m_as("Mohm") if found.demand is not None else 0.0
    words = "less" if found.verdict is Verdict.STOP else "more"
    return f"IEEE 43 asks {least:g} Mohm at 40 C of the winding alone: this is {words}"


def _reading(job: Job, entry: Entry, place: MeterPlace, record: StringRecord) -> _Reading:
    value = of_entry(entry, "insulation")
    measured = (of_entry(entry, name) for name in ("motor_temperature", "water_temperature"))
    own = next((found for found in measured if found is not None), None)
    shared = Facts(job).get("well", "water_temperature") if place is not MeterPlace.OUT else None
    return _Reading(
        megohms=magnitude(value, "Mohm", "insulation") if value is not None else 0.0,
        temperature=own if own is not None else shared,
        wet=_wet_length(moment(job, record, at=entry)) if place is not MeterPlace.OUT else 0.0,
        clock=f"{entry.time:%H:%M}",
    )


def _wet_length(then: Moment) -> float | None:
    """How much of the string hung under water, in feet; None when that is not known."""
    if then.record.string is None or then.level is None:
        return None
    top = magnitude(then.top, "ft", "top")
    return max(top + then.hanging_ft - magnitude(then.level, "ft", "level"), 0.0)


def _unlike(newest: _Reading, last: _Reading) -> str:
    """Why two readings cannot be compared; empty where they can."""
    if newest.wet is None or last.wet is None:
        return "how much hung in water is not known"
    if (newest.wet > 0.0) != (last.wet > 0.0):
        return "only one of them was in water"
    if newest.temperature is None or last.temperature is None:
        return "a temperature is not known"
    apart = abs(_fahrenheit(newest.temperature) - _fahrenheit(last.temperature))
    return f"{apart:.0f} F apart" if apart > _LIKE_F else ""


def _against_the_last(newest: _Reading, last: _Reading) -> Check | str:
    """The verdict against the reading before, or why there is none, in words.

    A longer wet length leaks more: at the worst as its length.
    """
    if newest.megohms >= _FLOOR:
        return ""
    if unlike := _unlike(newest, last):
        return f"not compared with the last: {unlike}"
    try:
        was, now = _at_40_c(last), _at_40_c(newest)
    except OutOfRange:
        return "not compared with the last: the rule for temperature does not reach so far"
    if now >= _HALF * was:
        return ""
    wet_before, wet_now = last.wet or 0.0, newest.wet or 0.0
    longer = wet_before / wet_now if 0.0 < wet_before < wet_now else 1.0
    explained = now >= _HALF * was * longer
    grew = f"wet length went from {wet_before:,.0f} to {wet_now:,.0f} ft"
    return Check(
        NAME,
        Verdict.CAUTION if explained else Verdict.STOP,
        demand=quantity(_HALF * last.megohms, "Mohm"),
        allowable=quantity(newest.megohms, "Mohm"),
        governs=f"{newest.megohms:,.4g} Mohm is below half of {last.megohms:,.4g} at {last.clock}",
        formula="half of the last reading, both at 40 C",
        source=_LIKE_SOURCE,
        note=grew if explained else "",
        at_least=True,
    )


def _at_40_c(reading: _Reading) -> float:
    assert reading.temperature is not None
    brought = insulation_at_40_c(
        reading=quantity(reading.megohms, "Mohm"), temperature=reading.temperature
    )
    return magnitude(brought, "Mohm", NAME)


def _fahrenheit(temperature: Quantity) -> float:
    return magnitude(temperature, "degF", "temperature")
