"""The windings: ohms between the leads with the cable taken off, against each other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.electric.electrical import winding_resistance
from calc.errors import OutOfRange
from calc.units import magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.watch.combine import together
from fieldbook.watch.motor.supply import cable_resistance, legs_of, size_of
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered

NAME = "windings"
OHMS = ("ohms_ab", "ohms_bc", "ohms_ca")
WITHOUT_CABLE = "motor out of the well"
"""What the part of a reading says when it was taken on the motor's own leads."""
_APART = 0.05
_NO_LEADS = quantity(0.0, "ohm")
_SOURCE = "within about 5 %: common practice, from memory; cable by NEC Chapter 9 Table 8"
_FORMULA = "greatest distance of a winding from the mean, cable taken off / mean"


def windings(job: Job, read: Metered) -> Check | None:
    """The newest ohms of the motor where it is; None before there are any."""
    entry = read.newest(*OHMS)
    if entry is None:
        return None
    facts = Facts(job)
    phases = facts.need_words("pump", "motor_phase")
    legs = legs_of(entry, OHMS, phases, facts)
    try:
        bare = _bare(entry, legs, facts)
    except OutOfRange as problem:
        return Check(NAME, Verdict.STOP, governs=f"a short, or another cable: {problem}")
    parts = [_balance(bare, tuple(facts.missing))] if phases != "1" else []
    return together(NAME, [*parts, *_by_the_maker(entry, bare, phases, facts)])


def _bare(entry: Entry, legs: list[Quantity], facts: Facts) -> list[Quantity]:
    """Each reading less the cable; none while the cable is not known."""
    if entry.text("part") == WITHOUT_CABLE:
        return legs
    length = facts.need("cable", "cable_length")
    words = facts.need_words("cable", "cable_size")
    at = facts.need("well", "water_temperature")
    each = None
    if words and at is not None:
        each = cable_resistance(size_of(words), at)
        if each is None:
            facts.lack("conductor size of the cable, 14 to 4/0 AWG")
    if each is None or length is None:
        return []
    return [
        winding_resistance(
            measured=leg, meter_leads=_NO_LEADS, cable_length=length, resistance_per_length=each
        )
        for leg in legs
    ]


def _balance(bare: list[Quantity], missing: tuple[str, ...]) -> Check:
    values = [magnitude(winding, "ohm", "winding") for winding in bare]
    shown = ", ".join(f"{value:.2f}" for value in values)
    apart = None
    if len(values) == 3:
        mean = sum(values) / 3.0
        if mean == 0.0:
            return Check(NAME, Verdict.STOP, governs="no ohms at all: a dead short", source=_SOURCE)
        apart = max(abs(value - mean) for value in values) / mean
    return judge(
        NAME,
        quantity(apart, "dimensionless") if apart is not None else None,
        quantity(_APART, "dimensionless"),
        unit="dimensionless",
        caution_share=0.8,
        governs=f"{shown} ohm in the motor" if values else "",
        missing=missing,
        formula=_FORMULA,
        source=_SOURCE,
        note="low is a short, high an open or a bad splice" if apart and apart > _APART else "",
    )


def _by_the_maker(entry: Entry, bare: list[Quantity], phases: str, facts: Facts) -> list[Check]:
    """Against the maker's ohms; without them a single-phase winding cannot be judged at all.

    What is judged is what is shown, to a hundredth of an ohm: 1.80 is not outside 1.8. Our own.
    """
    least, most = (
        of_entry(entry, name) or facts.get("pump", name) for name in ("least_ohms", "most_ohms")
    )
    if phases == "1":
        for name, figure in (("least_ohms", least), ("most_ohms", most)):
            if figure is None:
                facts.lack(definition(name).label)
    if phases != "1" and (least is None or most is None):
        return []
    if least is None or most is None or not bare:
        return [Check(NAME, Verdict.UNKNOWN, missing=tuple(facts.missing), source="maker's sheet")]
    low, high = (end.m_as("ohm") for end in (least, most))
    shown = [round(winding.m_as("ohm"), 2) for winding in bare]
    out = [ohms for ohms in shown if not low <= ohms <= high]
    governs = f"maker's {low:g} to {high:g} ohm"
    if out:
        governs = f"{out[0]:.2f} ohm in the motor, outside the {governs}"
    return [
        Check(
            NAME,
            Verdict.STOP if out else Verdict.WITHIN,
            governs=governs,
            missing=tuple(facts.missing),
            source="maker's sheet",
        )
    ]
