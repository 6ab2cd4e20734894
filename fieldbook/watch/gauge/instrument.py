"""The gauge as it is rigged, and the readings that a job holds of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.hoisting.gauge import Gauge, hook_load_from_reading, reading_for_hook_load
from calc.hoisting.hoist import Motion, Reeving
from calc.units import magnitude, quantity
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.state.rigging import Rigging

READING_KINDS = (
    "load",
    "joint",
    "footage",
    "drain",
    "suspend",
    "resume",
    "handover",
    "pump_out",
    "depth",
)
"""Kinds of entry that may hold a gauge reading."""


@dataclass(frozen=True, slots=True)
class Instrument:
    """A gauge as it is rigged, ready to turn loads into readings and back."""

    gauge: Gauge
    reeving: Reeving

    def expect(self, load: Quantity) -> Band:
        """The readings a hook load at rest can give."""
        positive = max(load, quantity(0.0, "lbf"))
        return reading_for_hook_load(
            positive, gauge=self.gauge, reeving=self.reeving, moving=Motion.STATIC
        )

    def means(self, reading: Quantity) -> Band:
        """The hook loads a reading at rest can mean.

        Raises:
            OutOfRange: The reading is over the gauge's capacity.
        """
        return hook_load_from_reading(
            reading, gauge=self.gauge, reeving=self.reeving, moving=Motion.STATIC
        )

    @property
    def load_per_reading(self) -> float:
        """Hook load that one lbf of reading means, without friction."""
        still = Reeving(self.reeving.parts, 1.0, self.reeving.lead_sheaves)
        plain = Gauge(self.gauge.place, quantity(0.0, "lbf"), wrap=self.gauge.wrap)
        one = reading_for_hook_load(
            quantity(1.0, "lbf"), gauge=plain, reeving=still, moving=Motion.STATIC
        )
        return 1.0 / magnitude(one.high, "lbf", "reading")

    @property
    def load_error(self) -> Quantity | None:
        """The gauge's error as a hook load, one way."""
        error = self.gauge.error
        return error * self.load_per_reading if error is not None else None


def instrument(gauge: Gauge | None, rig: Rigging) -> Instrument | None:
    """The gauge as rigged, or None while it cannot be read."""
    if gauge is None or rig.reeving is None:
        return None
    return Instrument(gauge, rig.reeving)


def newest_reading(job: Job) -> tuple[Quantity, Entry] | None:
    """The newest gauge reading and the entry that holds it."""
    newest: tuple[Quantity, Entry] | None = None
    for kind in READING_KINDS:
        for entry in reversed(job.live(kind)):
            name = "load_after" if kind == "drain" else "gauge_reading"
            value = of_entry(entry, name)
            if value is not None:
                if newest is None or entry.order > newest[1].order:
                    newest = (value, entry)
                break
    return newest


def reading_of_string(job: Job, now: Moment) -> tuple[Quantity, Entry] | None:
    """The newest reading and its entry, of the string that hangs now or is to.

    What was read while the old string hung says nothing of the one that goes in.
    """
    found = newest_reading(job)
    out = job.last("pump_out") if now.counted_in else None
    return None if found is None or (out is not None and found[1].order <= out.order) else found
