"""The running amps: against the nameplate, against each other, and what rolled leads say."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, judge
from calc.electric.electrical import Unbalance, current_unbalance
from calc.errors import OutOfRange
from calc.units import quantity
from fieldbook.quantities.definition import definition
from fieldbook.watch.combine import together
from fieldbook.watch.motor.supply import AMPS, legs_of
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered

NAME = "amps"
_MOST_UNBALANCED = 0.10
_UNBALANCED = 0.05
_LEAVE_IT = 0.02  # below this the leads stay as they are: common practice, no published source
_SOURCE = "nameplate; 5 % unbalance, 10 % at less than full load: common practice"


def amps(job: Job, read: Metered) -> Check | None:
    """The newest amps of the motor where it is; None before there are any."""
    entry = read.newest(*AMPS)
    if entry is None:
        return None
    facts = Facts(job)
    rated = facts.need("pump", "service_amps")
    phases = facts.need_words("pump", "motor_phase")
    legs = legs_of(entry, AMPS, phases, facts)
    parts = [_load(legs, rated, tuple(facts.missing))]
    if phases == "3" and len(legs) == 3:
        parts.append(_unbalance(legs))
    found = together(NAME, parts, note=rolled(read) if phases == "3" else "")
    # What rules comes first; the other is asked after too, where the leads are rolled for one.
    words = sorted((part.governs for part in parts), key=lambda each: each != found.governs)
    return replace(found, governs=", ".join(filter(None, words)))


def _load(legs: list[Quantity], rated: Quantity | None, missing: tuple[str, ...]) -> Check:
    largest = max(legs, default=None)
    words = f"{largest.m_as('A'):,.1f} A" if largest is not None else ""
    if words and rated is not None:
        words += f" of {rated.m_as('A'):,.1f} A"
    return judge(
        NAME,
        largest,
        rated if rated is not None and rated.magnitude > 0 else None,
        unit="ampere",
        caution_share=1.0,
        governs=f"{words} on the leg that takes most" if len(legs) > 1 else words,
        missing=missing,
        formula="largest leg / service-factor amps",
        source=_SOURCE,
    )


def _unbalance(legs: list[Quantity]) -> Check:
    try:
        found = current_unbalance(legs)
    except OutOfRange:
        return judge(
            NAME,
            None,
            None,
            unit="ampere",
            caution_share=1.0,
            missing=("amps on any leg: the motor does not run",),
            source=_SOURCE,
        )
    return judge(
        NAME,
        quantity(found.share, "dimensionless"),
        quantity(_MOST_UNBALANCED, "dimensionless"),
        unit="dimensionless",
        caution_share=_UNBALANCED / _MOST_UNBALANCED,
        governs=(
            f"{found.share:.1%} unbalanced, {_UNBALANCED:.0%} asked, leg {found.leg + 1} furthest"
        ),
        formula="greatest distance of a leg from the mean / mean",
        source=_SOURCE,
    )


def rolled(read: Metered) -> str:
    """What moving the three leads on says; empty until two positions were read."""
    order = definition("leads").choices
    seen: dict[int, Unbalance] = {}
    for entry in read.saying("leads"):
        found = _of(entry)
        if found is not None and entry.text("leads") in order:
            seen.setdefault(order.index(entry.text("leads")), found)
    if len(seen) < 2:
        return ""
    best = min(seen, key=lambda position: seen[position].share)
    legs = {found.leg for found in seen.values()}
    # A lead that was on leg n is, once moved on, on the leg after it.
    leads = {(found.leg - position) % 3 for position, found in seen.items()}
    where = "the furthest leg changes with no rule"
    if max(found.share for found in seen.values()) < _LEAVE_IT:
        where = "under 2 % as found: leave the leads"
    elif len(legs) == 1:
        where = f"it stays on leg {legs.pop() + 1}: the supply"
    elif len(leads) == 1:
        where = f"it goes with lead {leads.pop() + 1}: motor or cable"
    return f"leads best {order[best]}, {seen[best].share:.1%}; {where}"


def _of(entry: Entry) -> Unbalance | None:
    legs = [value for name in AMPS if (value := of_entry(entry, name)) is not None]
    try:
        return current_unbalance(legs)
    except OutOfRange:
        return None
