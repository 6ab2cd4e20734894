"""Above the pump: the precharge of the tank, and the chlorine against the rule of the place."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.errors import OutOfRange
from calc.hydraulics.disinfection import chlorine_needed
from calc.hydraulics.tank import judge_precharge
from calc.units import magnitude
from fieldbook.quantities.convert import show
from fieldbook.watch.combine import together
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.metered import MeterPlace
from fieldbook.watch.well.chlorine_dose import given, water_in_the_well
from fieldbook.watch.well.chlorine_product import product_words

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.metered import Metered
    from fieldbook.watch.well.chlorine_dose import DoseGiven

PRECHARGE = "tank precharge"
CHLORINE = "chlorine"
_SHORT = 0.9  # of the dose aimed at: as near as a cup measures; ours, no published source
_MUCH = 2.0  # times it; ours, no published source
_FIRST_START = "start_up.first_start"
_PUMPED_OUT = "given before the pump ran to waste: pumped out with the water. Dose again"
_PRACTICE = "mass balance: what is pumped to waste takes its chlorine along"
_GIVES_SOURCE = "mass balance; the strength on the label, taken as trade percent of a liquid"


def precharge(job: Job, read: Metered) -> Check | None:
    """The precharge against cut-in; None before it is written, and while a string is moved out."""
    facts = Facts(job)
    charge = facts.get("tank", "precharge")
    asked = charge is not None or (read.place is MeterPlace.NEWLY_SET and job.live("tank"))
    if read.place in (MeterPlace.ON_THE_WAY_OUT, MeterPlace.OUT) or not asked:
        return None
    cut_in = facts.get("tank", "cut_in")
    if cut_in is not None and cut_in.magnitude <= 0:
        cut_in = None
    found = judge_precharge(
        precharge=charge,
        cut_in=cut_in,
        # Equal to cut-in is in dispute: some texts say so, most say 2 psi below.
        caution_share=0.999,
    )
    if charge is None or cut_in is None:
        return found
    return replace(found, governs=f"{show(charge, 'psi')}, cut-in {show(cut_in, 'psi')}")


def chlorine(job: Job) -> Check | None:
    """The dose, what it gives, and its time, against what the rule asks; None before any is given.

    What was poured in is held against what is aimed at: the larger of the dose worked out and the
    dose asked. A cup is no measuring glass, so a tenth less is a caution and more than that a stop.
    """
    if not job.live("chlorine"):
        return None
    facts = Facts(job)
    whose = facts.need_words("chlorine", "chlorine_rule")
    source = f"the rule of the place, as typed: {whose}" if whose else ""
    dose, asked = (facts.need("chlorine", n) for n in ("chlorine_dose", "chlorine_asked"))
    parts = [
        judge(
            CHLORINE,
            asked,
            dose,
            unit="mg/L",
            caution_share=1.0,
            governs=f"dose by the rule of {whose}" if whose else "",
            missing=facts.missing,
            formula="dose that the rule asks / dose as worked out",
            source=source,
            at_least=True,
        )
    ]
    poured = given(job)
    aimed = max((d for d in (dose, asked) if d is not None), default=None)
    parts.append(_gives(poured, aimed))
    if poured.entry is not None and _ran_to_waste(job, poured.entry):
        parts.append(Check(CHLORINE, Verdict.STOP, governs=_PUMPED_OUT, source=_PRACTICE))
    needed, stood = (facts.get("chlorine", n) for n in ("contact_asked", "contact_time"))
    if needed is not None and stood is not None:
        parts.append(
            judge(
                CHLORINE,
                needed,
                stood,
                unit="hour",
                caution_share=1.0,
                governs="time in the well",
                formula="hours that the rule asks / hours it stood",
                source=source,
                at_least=True,
            )
        )
    notes = (_gives_words(poured), _how_much(job, dose))
    return together(CHLORINE, parts, note="; ".join(filter(None, notes)))


def _gives(poured: DoseGiven, aimed: Quantity | None) -> Check:
    """What was poured in against what is aimed at."""
    if poured.strength is None or poured.strength.magnitude <= 0 or aimed is None:
        lacking = poured.missing or (("amount used",) if aimed is not None else ())
        return Check(CHLORINE, Verdict.UNKNOWN, missing=lacking, source=_GIVES_SOURCE)
    gives = magnitude(poured.strength, "mg/L", "strength")
    goal = magnitude(aimed, "mg/L", "dose")
    found = judge(
        CHLORINE,
        aimed * _SHORT,
        poured.strength.to("mg/L"),
        unit="mg/L",
        caution_share=_SHORT,
        governs=f"{_gives_words(poured)}, {goal:,.0f} aimed at",
        formula="nine tenths of the dose aimed at / amount x strength of the product / water",
        source=_GIVES_SOURCE,
        note="line, tank and gravel pack take more than the casing",
        at_least=True,
    )
    if found.verdict is Verdict.WITHIN and gives > _MUCH * goal:
        much = f"{gives / goal:,.1f} times the dose aimed at: hard on pump, seal and hose"
        return replace(found, verdict=Verdict.CAUTION, note=f"{much}; {found.note}")
    return found


def _gives_words(poured: DoseGiven) -> str:
    if poured.strength is None:
        return ""
    return f"{poured.words} gives {magnitude(poured.strength, 'mg/L', 'strength'):,.0f} mg/L"


def _ran_to_waste(job: Job, dose: Entry) -> bool:
    """Whether the pump ran to waste after the dose, before it had stood its time."""
    stood = (e for e in job.live("chlorine") if "contact_time" in e.values and e.order > dose.order)
    end = min((entry.order for entry in stood), default=None)
    ran = [
        *job.live("line_test"),
        *(e for e in job.live("meter") if "flow" in e.values or _first(e)),
    ]
    return any(e.order > dose.order and (end is None or e.order < end) for e in ran)


def _first(entry: Entry) -> bool:
    return entry.text("step") == _FIRST_START


def _how_much(job: Job, dose: Quantity | None) -> str:
    """What the dose takes in this well, from its own water; empty where that is not known."""
    water = water_in_the_well(job, Facts(job))
    if dose is None or water is None:
        return ""
    try:
        grams = magnitude(chlorine_needed(volume=water, target=dose), "gram", "chlorine")
        product = Facts(job).words("chlorine", "chlorine_product")
        amount = product_words(volume=water, target=dose, product=product)
    except OutOfRange:
        return ""
    gallons = magnitude(water, "gallon", "water")
    return f"{gallons:,.0f} gal of water in the casing: {grams:,.0f} g of chlorine, {amount}"
