"""Standing pressure against what the drop line stands, gross: the well may be pumped dry."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

from calc.check import Check, Verdict, governing, judge, worst
from calc.pressure import dead_head, net_of_annulus, standing_pressure
from calc.units import magnitude, quantity
from fieldbook.watch.facts import Facts, of_entry
from fieldbook.watch.links import CAUTION_SHARE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.line import Line
    from fieldbook.watch.moment import Moment
    from fieldbook.watch.pieces import StringRecord

NAME = "pressure"


def pressure(job: Job, now: Moment) -> Check:
    """The whole string in service: each line at its lowest foot, the largest share governing."""
    record = now.record
    water = column(job, now)
    lacking = (*record.unmeasured, *record.undescribed)
    if lacking or water is None:
        facts = Facts(job)
        facts.need("well", "surface_pressure")
        return Check(
            NAME,
            Verdict.UNKNOWN,
            missing=(*lacking, *facts.missing),
            formula="water column + top pressure",
        )
    checks = []
    for depth, name, line in _deepest_of_each(record):
        gross = water.at(depth)
        checks.append(
            judge(
                NAME,
                gross.most,
                line.pressure.allowable,
                unit="psi",
                caution_share=CAUTION_SHARE,
                governs=f"{line.pressure.of}, {name}",
                missing=line.pressure.missing,
                formula="water column from there to the surface + pressure at the top",
                source=line.pressure.source,
                note=_note(gross.most, depth, water.shut_off, now),
            )
        )
    return _ruling(checks)


def _deepest_of_each(record: StringRecord) -> Iterator[tuple[float, str, Line]]:
    """Where each drop line of the string has most to stand: depth of its lowest foot, whose it is.

    Gross pressure only grows with depth, and all lengths of one line stand the same, so that the
    lengths above need no judging of their own.
    """
    deepest: dict[int, tuple[float, str, Line]] = {}
    depth = 0.0
    for stretch in record.stretches:
        depth += stretch.feet
        if stretch.line is not None:
            deepest[id(stretch.line)] = depth, stretch.name, stretch.line
    yield from deepest.values()


class Gross(NamedTuple):
    """Gross pressure in the line at one depth.

    Attributes:
        standing: The column to the surface and the pressure at the top, the pump stopped.
        dead_head: The pump against a closed valve; None while its shut-off head is not known.
    """

    standing: Quantity
    dead_head: Quantity | None

    @property
    def most(self) -> Quantity:
        """The larger of what is known."""
        return self.standing if self.dead_head is None else max(self.standing, self.dead_head)


@dataclass(frozen=True, slots=True)
class Column:
    """The water in the line, from a depth up to the gauge at the top.

    Attributes:
        surface: Highest pressure at the top.
        shut_off: Head of the pump at no flow; None when not known.
        highest: Highest level of the water outside on record; None when there is none.
        water_weight: Of the water, a volume.
    """

    surface: Quantity
    shut_off: Quantity | None
    highest: Quantity | None
    water_weight: Quantity

    def at(self, depth: float) -> Gross:
        """Gross pressure `depth` feet below the string's top."""
        standing = standing_pressure(
            column=quantity(depth, "ft"),
            water_weight=self.water_weight,
            surface_pressure=self.surface,
        )
        if self.shut_off is None:
            return Gross(standing, None)
        # Against a closed valve the pump adds its shut-off head to what the water outside gives
        # it; the level is the highest on record, or the datum: more submergence, more pressure.
        against = dead_head(
            shut_off_head=self.shut_off,
            submergence=_submergence(depth, self.highest),
            water_weight=self.water_weight,
        )
        return Gross(standing, against)


def column(job: Job, now: Moment) -> Column | None:
    """The column of a job; None while nobody wrote the pressure at its top."""
    facts = Facts(job)
    surface = facts.get("well", "surface_pressure")
    if surface is None:
        return None
    shut_off = facts.get("well", "shut_off_head")
    return Column(surface, shut_off, _highest_level(job), now.water_weight)


def _submergence(depth: float, level: Quantity | None) -> Quantity:
    at = magnitude(level, "ft", "level") if level is not None else 0.0
    return quantity(max(depth - at, 0.0), "ft")


def _highest_level(job: Job) -> Quantity | None:
    levels = [level for e in job.live("level") if (level := of_entry(e, "water_level")) is not None]
    return min(levels, default=None)


def _note(gross: Quantity, depth: float, shut_off: Quantity | None, now: Moment) -> str:
    words = []
    if now.level is not None:
        net = net_of_annulus(
            gross=gross, submergence=_submergence(depth, now.level), water_weight=now.water_weight
        )
        words.append(f"net of the water outside {magnitude(net, 'psi', 'net'):,.0f} psi")
    words.append(
        "dead-head counted"
        if shut_off is not None
        else "dead-head not counted: shut-off head not given"
    )
    words.append("surge not counted")
    return "; ".join(words)


def _ruling(checks: list[Check]) -> Check:
    verdict = worst(checks)
    same = [check for check in checks if check.verdict is verdict]
    ruling = governing(same)
    return ruling if ruling is not None else same[0]
