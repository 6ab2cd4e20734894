"""Standing pressure against what the drop line stands, gross: the well may be pumped dry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict, governing, judge, worst
from calc.pressure import dead_head, net_of_annulus, standing_pressure
from calc.units import magnitude, quantity
from fieldbook.watch.facts import Facts, of_entry
from fieldbook.watch.links import CAUTION_SHARE

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.moment import Moment

NAME = "pressure"


def pressure(job: Job, now: Moment) -> Check:
    """The whole string in service: each length at its foot, the largest share governing."""
    facts = Facts(job)
    surface = facts.need("well", "surface_pressure")
    record = now.record
    if record.string is None or surface is None:
        lacking = (*record.missing, *facts.missing)
        return Check(NAME, Verdict.UNKNOWN, missing=lacking, formula="water column + top pressure")
    shut_off = facts.get("well", "shut_off_head")
    checks = []
    depth = 0.0
    for piece in record.pieces:
        depth += piece.numbers.length
        line = record.lines.get(piece.name)
        if line is None:
            continue
        gross = _gross(depth, surface, (shut_off, _highest_level(job)), now)
        checks.append(
            judge(
                NAME,
                gross,
                line.pressure.allowable,
                unit="psi",
                caution_share=CAUTION_SHARE,
                governs=f"{line.pressure.of}, {piece.name}",
                missing=line.pressure.missing,
                formula="water column from there to the surface + pressure at the top",
                source=line.pressure.source,
                note=_note(gross, depth, shut_off, now),
            )
        )
    return _ruling(checks)


def _gross(
    depth: float,
    surface: Quantity,
    closed: tuple[Quantity | None, Quantity | None],
    now: Moment,
) -> Quantity:
    shut_off, highest = closed
    column = quantity(depth, "ft")
    standing = standing_pressure(
        column=column, water_weight=now.water_weight, surface_pressure=surface
    )
    if shut_off is None:
        return standing
    # Against a closed valve the pump adds its shut-off head to what the water outside gives it;
    # the level is the highest on record, or the datum, since more submergence means more pressure.
    against = dead_head(
        shut_off_head=shut_off,
        submergence=_submergence(depth, highest),
        water_weight=now.water_weight,
    )
    return max(standing, against)


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
