"""The supply: volts against the nameplate and each other, and the drop in the cable."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.electric.cable import voltage_drop
from calc.electric.electrical import unbalance_derating, voltage_unbalance
from calc.electric.wire import Stranding, resistance_of
from calc.errors import OutOfRange
from calc.units import magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.watch.combine import together
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.metered import MeterPlace

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered

NAME = "supply"
DROP = "voltage drop"
AMPS = ("amps_a", "amps_b", "amps_c")
VOLTS = ("volts_ab", "volts_bc", "volts_ca")
_TOLERANCE = 0.10
_NEVER_UNBALANCED = 0.05
_BALANCED = 0.01
_MOST_DROP = 0.05
_USUAL_DROP = 0.03
_HOTTEST = quantity(75.0, "degC")
_NAMED_SIZE = re.compile(r"(\d{1,2}(?:/0)?)\s*(?:AWG|ga\b|gauge)", re.IGNORECASE)
_FIRST_SIZE = re.compile(r"\s*(\d{1,2}(?:/0)?)(?!\d|\s*[xX])")


def supply(job: Job, read: Metered) -> Check | None:
    """The newest volts of the motor where it is; None before there are any."""
    entry = read.newest(*VOLTS)
    if entry is None:
        return None
    facts = Facts(job)
    nameplate = facts.need("pump", "motor_voltage")
    phases = facts.need_words("pump", "motor_phase")
    legs = legs_of(entry, VOLTS, phases, facts)
    parts = [_level(legs, nameplate, tuple(facts.missing))]
    if phases == "3":
        parts.append(_unbalance(legs))
    at_motor = _at_the_motor(job, entry, legs, nameplate, phases)
    return together(NAME, parts if at_motor is None else [*parts, at_motor])


def legs_of(entry: Entry, names: tuple[str, ...], phases: str, facts: Facts) -> list[Quantity]:
    """What was read on each leg, in order; what a motor of so many phases lacks is noted."""
    found = [of_entry(entry, name) for name in names]
    for name, value in list(zip(names, found, strict=True))[: 3 if phases == "3" else 1]:
        if value is None:
            facts.lack(definition(name).label)
    return [value for value in found if value is not None]


def _level(legs: list[Quantity], nameplate: Quantity | None, missing: tuple[str, ...]) -> Check:
    off = furthest = None
    if nameplate is not None and legs and nameplate.magnitude > 0:
        rated = magnitude(nameplate, "volt", "nameplate volts")
        furthest = max(legs, key=lambda leg: abs(magnitude(leg, "volt", "volts") - rated))
        off = magnitude(furthest, "volt", "volts") / rated - 1.0
    governs = (
        f"{furthest.m_as('V'):,.0f} V, {off:+z.1%} of nameplate" if furthest is not None else ""
    )
    return judge(
        NAME,
        quantity(abs(off), "dimensionless") if off is not None else None,
        quantity(_TOLERANCE, "dimensionless"),
        unit="dimensionless",
        caution_share=0.8,
        governs=governs,
        missing=missing,
        formula="furthest leg from the nameplate / 10 %",
        source="NEMA MG 1: plus or minus 10 percent at the motor",
    )


def _at_the_motor(
    job: Job, entry: Entry, legs: list[Quantity], nameplate: Quantity | None, phases: str
) -> Check | None:
    """The lowest leg less what the cable takes at the amps read with it.

    None without amps: a motor that does not run loses nothing in its cable.
    """
    facts = Facts(job)
    amps = [value for name in AMPS if (value := of_entry(entry, name)) is not None]
    if not amps or not legs or not phases:
        return None
    length = facts.need("cable", "cable_length")
    per_length = cable_resistance(size_of(facts.need_words("cable", "cable_size")), _HOTTEST)
    if length is None or per_length is None:
        lacking = facts.missing or ["conductor size of the cable, 14 to 4/0 AWG"]
        return _level([], nameplate, tuple(lacking))
    drop = voltage_drop(
        current=max(amps), length=length, resistance_per_length=per_length, phases=int(phases)
    )
    return replace(
        _level([min(legs) - drop], nameplate, ()), note="volts at the motor, by the cable"
    )


def _unbalance(legs: list[Quantity]) -> Check:
    share = None
    if len(legs) == 3:
        try:
            share = voltage_unbalance(legs).share
        except OutOfRange:
            return Check(
                NAME, Verdict.STOP, governs="no volts on any leg", source="NEMA MG 1 14.36"
            )
    note = ""
    if share is not None and _BALANCED < share <= _NEVER_UNBALANCED:
        note = f"at {share:.1%} unbalance the motor may give {unbalance_derating(share):.0%}"
    return judge(
        NAME,
        quantity(share, "dimensionless") if share is not None else None,
        quantity(_NEVER_UNBALANCED, "dimensionless"),
        unit="dimensionless",
        caution_share=_BALANCED / _NEVER_UNBALANCED,
        governs=f"volts {share:.1%} unbalanced" if share is not None else "",
        missing=() if share is not None else ("volts of three legs",),
        formula="greatest distance of a leg from the mean / mean, against 5 %; 1 % is asked",
        source="NEMA MG 1 14.36",
        note=note,
    )


def size_of(words: str) -> str:
    """The conductor size in what was written of a cable: "10 AWG, 3 and ground", "10/3", "10"."""
    found = _NAMED_SIZE.search(words) or _FIRST_SIZE.match(words)
    return found.group(1) if found is not None else ""


def cable_resistance(size: str, temperature: Quantity) -> Quantity | None:
    """Of one stranded conductor per length; None for a size that the table has not."""
    try:
        return resistance_of(size, stranding=Stranding.STRANDED, temperature=temperature)
    except OutOfRange:
        return None


def cable_drop(job: Job, read: Metered) -> Check | None:
    """Volts that the cable takes at service-factor amps.

    None before its size or length is written, and while the string is on its way out. The 5 % is a
    habit and not a rating, so being over it is a caution.
    """
    facts = Facts(job)
    words = facts.words("cable", "cable_size")
    described = words or facts.get("cable", "cable_length") is not None
    if not described or read.place is MeterPlace.ON_THE_WAY_OUT:
        return None
    per_length = cable_resistance(size_of(words), _HOTTEST)
    if per_length is None:
        facts.lack("conductor size of the cable, 14 to 4/0 AWG")
    length, amps = facts.need("cable", "cable_length"), facts.need("pump", "service_amps")
    volts = facts.need("pump", "motor_voltage")
    phases = facts.need_words("pump", "motor_phase")
    share = None
    if per_length is not None and length is not None and amps is not None and volts is not None:
        rated = magnitude(volts, "volt", "nameplate volts")
        if phases and rated > 0.0:
            drop = voltage_drop(
                current=amps, length=length, resistance_per_length=per_length, phases=int(phases)
            )
            share = magnitude(drop, "volt", "drop") / rated
    taken = f" takes {share:.1%}, {_USUAL_DROP:.0%} is usual" if share is not None else ""
    found = judge(
        DROP,
        quantity(share, "dimensionless") if share is not None else None,
        quantity(_MOST_DROP, "dimensionless"),
        unit="dimensionless",
        caution_share=_USUAL_DROP / _MOST_DROP,
        governs=f"{size_of(words)} AWG{taken}" if per_length is not None else words,
        missing=facts.missing,
        formula="service-factor amps through the cable there and back, copper at 75 C / nameplate",
        source="resistance: NEC Chapter 9 Table 8; 3 % in a branch, 5 % in all: NEC 210.19(A) and"
        " 215.2(A), informational notes, no rule",
    )
    return replace(found, verdict=Verdict.CAUTION) if found.verdict is Verdict.STOP else found
