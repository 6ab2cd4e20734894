"""What the line sees in service: everything on record that says how high its pressure may go.

The worst that is still possible counts, whoever wrote it: what was typed, what a curve, a switch
or a test says, and what was read. What could be worse still and is not known is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from calc.hydraulics.pressure import dead_head, standing_pressure, surge
from calc.hydraulics.water import head_of_pressure
from calc.units import magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.record.in_use import came_into_use
from fieldbook.record.levels import at_rest
from fieldbook.record.string import is_described_after, pump_came_out
from fieldbook.watch.state.drop_line import OPEN_WATER
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.state.drop_line import DropLine

_SHUT_OFF_STEP = "test.shut_off"
_READ_AT = ("meter", "level", "line_test")
_NONE = quantity(0.0, "psi")


class Found(NamedTuple):
    """The most of what is on record of one figure: the figure, and what says so."""

    value: Quantity
    of: str


class Surge(NamedTuple):
    """What stopping the flow at once adds in one line.

    Attributes:
        known: None where flow or speed of the wave is not known.
        most: With the speed that no wall can pass, where the line's own is not known; None where
            the flow is not known.
    """

    known: Quantity | None
    most: Quantity | None


class Gross(NamedTuple):
    """Gross pressure in the line at one depth.

    Attributes:
        standing: The column to the surface and the pressure at the top, the pump stopped.
        dead_head: The pump against a closed valve; None while nothing is known of its head there.
    """

    standing: Quantity
    dead_head: Quantity | None

    def most(self, added: Quantity | None) -> Quantity:
        """The larger of what is known, a surge on top of the column.

        A valve that slams stops the flow from the pressure it ran at, which is no more than the
        column's under the highest pressure at the top; the closed pump then adds nothing to it.
        """
        risen = self.standing if added is None else self.standing + added
        return risen if self.dead_head is None else max(risen, self.dead_head)


@dataclass(frozen=True, slots=True)
class Service:
    """The most that is on record of what the line sees in service.

    Attributes:
        top: Highest pressure at the top; None when nothing says any.
        shut_off: Head of the pump at no flow, or what it is at the least; None when not known.
        shallowest: The highest water outside on record; None when there is none.
        flow: The most that the pump was asked or seen to deliver; None when not known.
        water_weight: Of the water, a volume.
        missing: What could make it worse and is not known.
    """

    top: Found | None
    shut_off: Found | None
    shallowest: Quantity | None
    flow: Quantity | None
    water_weight: Quantity
    missing: tuple[str, ...]

    def at(self, depth: float, top: Quantity) -> Gross:
        """Gross pressure `depth` feet below the string's top, which hangs at `top`."""
        standing = standing_pressure(
            column=quantity(depth, "ft"),
            water_weight=self.water_weight,
            surface_pressure=self.top.value if self.top is not None else _NONE,
        )
        if self.shut_off is None:
            return Gross(standing, None)
        # With no level on record the water is taken at the foot, the least it gives the pump.
        under = 0.0
        if self.shallowest is not None:
            foot = magnitude(top, "ft", "top") + depth
            under = max(foot - magnitude(self.shallowest, "ft", "level"), 0.0)
        against = dead_head(
            shut_off_head=self.shut_off.value,
            submergence=quantity(under, "ft"),
            water_weight=self.water_weight,
        )
        return Gross(standing, against)

    def closed_top(self, level: Quantity, top: Quantity) -> Quantity:
        """Pressure at the string's top against a closed valve, the water outside at `level`.

        None of it is left where the pump cannot lift the water so high.
        """
        if self.shut_off is None:
            return _NONE
        height = self.shut_off.value - (level - top)
        feet = max(magnitude(height, "ft", "head left"), 0.0)
        return dead_head(
            shut_off_head=quantity(feet, "ft"),
            submergence=quantity(0.0, "ft"),
            water_weight=self.water_weight,
        )

    def surge_in(self, line: DropLine) -> Surge:
        """What stopping the flow at once adds in a line.

        Source: Joukowsky; speed of the wave by Korteweg, or that of open water, which is faster.
        """
        if self.flow is None:
            return Surge(None, None)
        speed = self.flow / line.flow_area

        def rise(wave: Quantity) -> Quantity:
            return surge(wave_speed=wave, velocity_change=speed, water_weight=self.water_weight)

        known = rise(line.wave_speed) if line.wave_speed is not None else None
        return Surge(known, known if known is not None else rise(OPEN_WATER))


def service(job: Job, water_weight: Quantity) -> Service:
    """Everything that a job says of the pressure in service."""
    facts = Facts(job)
    since = pump_since(job)
    maybe = came_into_use("pump", job.live("pump")) if _may_be_the_same(job) else since
    facts.need("well", "surface_pressure")
    shut_off, is_known = _shut_off(job, since, maybe, water_weight)
    if not is_known:
        facts.lack(within(definition("shut_off_head").label))
    levels = [level for e in _levels(job) if (level := of_entry(e, "water_level")) is not None]
    if not at_rest(_levels(job)):
        facts.lack("static level")
    flow, is_known = _flow(facts, job, since, maybe)
    if not is_known:
        facts.lack("flow of the pump (for surge)")
    return Service(
        _top(facts, _reads(job, maybe)),
        shut_off,
        min(levels, default=None),
        flow,
        water_weight,
        tuple(facts.missing),
    )


def pump_since(job: Job) -> Entry | None:
    """The entry since which another pump is spoken of; None where it is the first."""
    pumps = job.live("pump")
    other = came_into_use("pump", pumps)
    out = pump_came_out(job)
    if out is None:
        return other
    after = [entry for entry in pumps if is_described_after(job, entry, out)]
    models = {e.text("pump_model").casefold() for e in pumps if e not in after} - {""}
    # One that is described once the first is out, and not by the same model, is another.
    if not after or any(entry.text("pump_model").casefold() in models for entry in after):
        return other
    return max((e for e in (other, after[0]) if e is not None), key=lambda entry: entry.order)


def of_pump(entry: Entry, since: Entry | None) -> bool:
    """Whether an entry was written since then, and so speaks of the pump in use."""
    return since is None or entry.order >= since.order


def _may_be_the_same(job: Job) -> bool:
    """Whether the pump that goes in may be the one that came out: one of them has no name."""
    out = pump_came_out(job)
    pumps = job.live("pump")
    after = [out is not None and is_described_after(job, entry, out) for entry in pumps]
    named = {is_after for is_after, e in zip(after, pumps, strict=True) if e.text("pump_model")}
    return len(named) < len(set(after))


def _reads(job: Job, since: Entry | None) -> list[Entry]:
    """What was read of the pump since then."""
    return [e for kind in _READ_AT for e in job.live(kind) if of_pump(e, since)]


def _levels(job: Job) -> list[Entry]:
    """Levels read on the job, and that of the last record, which was read at rest."""
    return [*job.live("level"), *(e for e in job.live("prior") if "water_level" in e.values)]


def _most(found: Iterable[Found]) -> Found | None:
    return max(found, key=lambda one: one.value, default=None)


def _top(facts: Facts, reads: list[Entry]) -> Found | None:
    return _most(
        [
            *_said(facts, ("well", "surface_pressure"), ("tank", "cut_out"),
                   ("duty", "discharge_pressure")),
            *(
                Found(value, "read" if entry.kind != "line_test" else "line test")
                for entry in reads
                for name in ("discharge_pressure", "pressure_after")
                if (value := of_entry(entry, name)) is not None
            ),
        ]
    )  # fmt: skip


def _said(facts: Facts, *pairs: tuple[str, str]) -> Iterator[Found]:
    for kind, name in pairs:
        if (value := facts.get(kind, name)) is not None:
            yield Found(value, within(definition(name).label))


def _shut_off(
    job: Job, since: Entry | None, maybe: Entry | None, water_weight: Quantity
) -> tuple[Found | None, bool]:
    """The head at no flow, and whether it is known or only what it is at the least."""
    typed = [e for e in job.live("well") if "shut_off_head" in e.values and of_pump(e, maybe)]
    known: list[Found] = []
    floor: list[Found] = []
    for entry in typed[-1:]:
        head = of_entry(entry, "shut_off_head")
        if head is not None:
            (known if of_pump(entry, since) else floor).append(Found(head, "as written"))
    for entry in job.live("curve_point"):
        flow, head = of_entry(entry, "curve_flow"), of_entry(entry, "curve_head")
        if flow is None or head is None or not of_pump(entry, maybe):
            continue
        # The head of a pump falls as it delivers: any point is the least it gives at none.
        at_none = magnitude(flow, "gpm", "flow") == 0.0 and of_pump(entry, since)
        (known if at_none else floor).append(Found(head, "by its curve"))
    # A valve that leaks by, or a pump run for a moment, shows less than the head at no flow.
    floor += _tested(job, _reads(job, maybe), water_weight)
    return _most([*known, *floor]), bool(known)


def _tested(job: Job, reads: list[Entry], water_weight: Quantity) -> Iterator[Found]:
    """The pressure against the shut valve as head, over the deepest water read until then."""
    for entry in reads:
        pressure = of_entry(entry, "discharge_pressure")
        if entry.text("step") != _SHUT_OFF_STEP or pressure is None:
            continue
        before = [
            level
            for read in _levels(job)
            if read.order < entry.order and (level := of_entry(read, "water_level")) is not None
        ]
        if before:
            head = head_of_pressure(pressure=pressure, water_weight=water_weight) + max(before)
            feet = max(magnitude(head, "ft", "shut-off head"), 0.0)
            yield Found(quantity(feet, "ft"), "by test")


def _flow(
    facts: Facts, job: Job, since: Entry | None, maybe: Entry | None
) -> tuple[Quantity | None, bool]:
    """The most that the pump was asked or seen to deliver, and whether it can give no more.

    What was measured or wanted is a floor: only the nameplate, or a curve that is known down to
    where it lifts nothing, says the most.
    """
    said = [found.value for found in _said(facts, ("duty", "duty_flow"), ("pump", "pump_flow"))]
    entries = [*_reads(job, maybe), *(e for e in job.live("prior") if of_pump(e, maybe))]
    said += [flow for entry in entries if (flow := of_entry(entry, "flow")) is not None]
    ends = [
        flow
        for entry in job.live("curve_point")
        if of_pump(entry, since)
        and (head := of_entry(entry, "curve_head")) is not None
        and magnitude(head, "ft", "head") == 0.0
        and (flow := of_entry(entry, "curve_flow")) is not None
    ]
    is_known = bool(ends) or facts.get("pump", "pump_flow") is not None
    return max([*said, *ends], default=None), is_known
