"""The cable to the motor: the drop of each size, and the smallest within what is allowed."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.electric.cable import voltage_drop
from calc.electric.wire import Stranding, resistance_of, wire_sizes
from calc.units import magnitude, quantity
from fieldbook.watch.planner.known import Known, known, unknown
from fieldbook.watch.state.facts import Facts

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job

USUAL_DROP = 0.05
"""Share of the supply that pump cable may take: common practice, no published source."""
_HOT = quantity(75.0, "degC")  # NEC Chapter 9 Table 8's own, so that the drop holds at its worst
_SLACK = 1.0 / 50.0
_SURFACE_FT = 10.0
_SIZE = re.compile(r"\s*(\d/0|\d{1,2})\b")


@dataclass(frozen=True, slots=True)
class CableStep:
    """One size of cable.

    Attributes:
        size: AWG.
        drop: Share of the supply that it takes at service-factor amps.
    """

    size: str
    drop: float


@dataclass(frozen=True, slots=True)
class Supply:
    """The cable for one setting.

    Attributes:
        length: One way, from the motor to the wellhead.
        allowed: Share of the supply that may be lost.
        allowed_by: Whose figure that is.
        steps: Every size with its drop, small to large.
        size: The smallest that keeps within what is allowed.
        recorded: The cable of the job with its drop, where its size can be read.
    """

    length: Quantity
    allowed: float
    allowed_by: str
    steps: Known[tuple[CableStep, ...]]
    size: Known[CableStep]
    recorded: CableStep | None


def supply_for(job: Job, setting: Quantity) -> Supply:
    """The cable that a motor at `setting` needs, by voltage drop alone.

    Source: a foot more in 50 and 10 ft at the top, common practice; drop by NEC Chapter 9 Table 8,
        stranded copper at 75 C. What a size may carry is for the electrical code.
    """
    facts = Facts(job)
    feet = magnitude(setting, "ft", "setting")
    length = quantity(feet * (1.0 + _SLACK) + _SURFACE_FT, "ft")
    limit = facts.get("cable", "allowed_drop")
    allowed, by = USUAL_DROP, "common practice, yours goes before it"
    if limit is not None:
        allowed, by = magnitude(limit, "dimensionless", "allowed drop"), "your figure"
    amps, volts = facts.need("pump", "service_amps"), facts.need("pump", "motor_voltage")
    phase = facts.need_words("pump", "motor_phase")
    if volts is not None and magnitude(volts, "volt", "motor volts") == 0.0:
        facts.lack("motor volts above 0")
        volts = None
    if amps is None or volts is None or not phase:
        lacking: Known[tuple[CableStep, ...]] = unknown(*facts.missing)
        return Supply(length, allowed, by, lacking, unknown(*facts.missing), None)
    steps = tuple(
        CableStep(size, _drop(size, (amps, volts, int(phase)), length)) for size in wire_sizes()
    )
    fits = next((step for step in steps if step.drop <= allowed), None)
    smallest: Known[CableStep] = (
        known(fits) if fits else unknown("a size larger than any in the table")
    )
    written = _SIZE.match(facts.words("cable", "cable_size"))
    recorded = next((s for s in steps if written and s.size == written.group(1)), None)
    return Supply(length, allowed, by, known(steps), smallest, recorded)


def _drop(size: str, motor: tuple[Quantity, Quantity, int], length: Quantity) -> float:
    amps, volts, phases = motor
    lost = voltage_drop(
        current=amps,
        length=length,
        resistance_per_length=resistance_of(size, stranding=Stranding.STRANDED, temperature=_HOT),
        phases=phases,
    )
    return magnitude(lost, "volt", "drop") / magnitude(volts, "volt", "volts", above=0.0)
