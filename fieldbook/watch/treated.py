"""Above the pump: the precharge of the tank, and the chlorine against the rule of the place."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, judge
from calc.disinfection import chlorine_needed
from calc.errors import OutOfRange
from calc.tank import judge_precharge
from calc.units import magnitude
from calc.well import volume_per_length
from fieldbook.quantities.convert import show
from fieldbook.watch.bottom import bottom
from fieldbook.watch.facts import Facts
from fieldbook.watch.metered import Place
from fieldbook.watch.together import together

if TYPE_CHECKING:
    from fieldbook.record.job import Job
    from fieldbook.watch.metered import Metered

PRECHARGE = "tank precharge"
CHLORINE = "chlorine"


def precharge(job: Job, read: Metered) -> Check | None:
    """The precharge against cut-in; None before it is written, and while a string is moved out."""
    facts = Facts(job)
    charge = facts.get("tank", "precharge")
    asked = charge is not None or (read.place is Place.NEWLY_SET and job.live("tank"))
    if read.place in (Place.ON_THE_WAY_OUT, Place.OUT) or not asked:
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
    """Dose and time against what the rule of the place asks, as typed; None before any is given."""
    if not job.live("chlorine"):
        return None
    facts = Facts(job)
    whose = facts.need_words("chlorine", "chlorine_rule")
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
            source=f"the rule of the place, as typed: {whose}" if whose else "",
            at_least=True,
        )
    ]
    needed, given = (facts.get("chlorine", n) for n in ("contact_asked", "contact_time"))
    if needed is not None and given is not None:
        parts.append(
            judge(
                CHLORINE,
                needed,
                given,
                unit="hour",
                caution_share=1.0,
                governs="time in the well",
                formula="hours that the rule asks / hours it stood",
                source=f"the rule of the place, as typed: {whose}" if whose else "",
                at_least=True,
            )
        )
    return together(CHLORINE, parts, note=_how_much(facts))


def _how_much(facts: Facts) -> str:
    """What the dose takes in this well, from its own water; empty where that is not known."""
    dose, bore = facts.get("chlorine", "chlorine_dose"), facts.get("well", "casing_diameter")
    depth, level = bottom(facts).depth, facts.get("level", "water_level")
    if dose is None or bore is None or depth is None or level is None:
        return ""
    standing = magnitude(depth - level, "ft", "water in the well")
    try:
        gallons = volume_per_length(bore=bore) * (depth - level)
        grams = magnitude(chlorine_needed(volume=gallons, target=dose), "gram", "chlorine")
    except OutOfRange:
        return ""
    water = magnitude(gallons, "gallon", "water")
    return f"{standing:,.0f} ft of water, {water:,.0f} gal: {grams:,.0f} g of available chlorine"
