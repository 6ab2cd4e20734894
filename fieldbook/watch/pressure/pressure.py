"""Pressure in service against what the drop line withstands, gross: the well may be pumped dry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict, governing, judge, worst
from calc.hydraulics.pressure import net_of_annulus
from calc.units import magnitude, quantity
from fieldbook.watch.lift.load_path import CAUTION_SHARE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.units import Quantity
    from fieldbook.watch.pressure.service import Service
    from fieldbook.watch.state.drop_line import DropLine
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.state.string import StringRecord

NAME = "pressure"
HOSE_WAVE = "speed of a pressure wave in the hose, from its sheet (for surge)"
_FORMULA = "water column + top pressure + surge, or shut-off head + water over the pump"


def pressure(now: Moment, seen: Service) -> Check:
    """The whole string in service: each line at its lowest foot, the largest share governing.

    Args:
        now: The string.
        seen: What the line sees in service.
    """
    record = now.record
    lacking = (*record.unmeasured, *record.undescribed, *seen.missing)
    checks = [
        _judged(depth, name, line, now, seen, lacking)
        for depth, name, line in _deepest_of_each(record)
    ]
    return _ruling(checks) if checks else Check(
        NAME, Verdict.UNKNOWN, missing=lacking, formula=_FORMULA
    )  # fmt: skip


def _judged(
    depth: float, name: str, line: DropLine, now: Moment, seen: Service, lacking: tuple[str, ...]
) -> Check:
    gross, added = seen.at(depth, now.top), seen.surge_in(line)
    demand, lacks = gross.most(added.known), (*line.pressure.missing, *lacking)
    counted = added.known
    if added.known is None and added.most is not None:
        # No wall makes a wave faster than open water does: within that, the line's own is too.
        highest, allowed = gross.most(added.most), line.pressure.allowable
        if allowed is not None and highest <= allowed:
            demand, counted = highest, added.most
        else:
            lacks = (*lacks, HOSE_WAVE)
    return judge(
        NAME,
        demand,
        line.pressure.allowable,
        unit="psi",
        caution_share=CAUTION_SHARE,
        governs=f"{line.pressure.of}, {name}",
        missing=dict.fromkeys(lacks),
        formula=_FORMULA,
        source=line.pressure.source,
        note=_note(demand, depth, counted, now, seen),
    )


def _deepest_of_each(record: StringRecord) -> Iterator[tuple[float, str, DropLine]]:
    """Where each drop line of the string has most to stand: depth of its lowest foot, whose it is.

    Gross pressure only grows with depth, and all lengths of one line stand the same, so that the
    lengths above need no judging of their own.
    """
    deepest: dict[int, tuple[float, str, DropLine]] = {}
    depth = 0.0
    for stretch in record.stretches:
        depth += stretch.feet
        if stretch.line is not None:
            deepest[id(stretch.line)] = depth, stretch.name, stretch.line
    yield from deepest.values()


def _note(gross: Quantity, depth: float, added: Quantity | None, now: Moment, seen: Service) -> str:
    words = []
    if now.level is not None:
        under = max(
            magnitude(now.top, "ft", "top") + depth - magnitude(now.level, "ft", "level"), 0.0
        )
        net = net_of_annulus(
            gross=gross, submergence=quantity(under, "ft"), water_weight=now.water_weight
        )
        words.append(f"net of the water outside {magnitude(net, 'psi', 'net'):,.0f} psi")
    if seen.top is not None:
        words.append(f"{magnitude(seen.top.value, 'psi', 'top'):,.0f} psi on top ({seen.top.of})")
    if seen.shut_off is None:
        words.append("dead-head not counted: shut-off head not given")
    else:
        head = magnitude(seen.shut_off.value, "ft", "shut-off head")
        words.append(f"dead-head counted: {head:,.0f} ft {seen.shut_off.of}")
    if added is None:
        words.append("surge not counted")
    else:
        words.append(f"surge {magnitude(added, 'psi', 'surge'):,.0f} psi counted")
    return "; ".join(words)


def _ruling(checks: list[Check]) -> Check:
    verdict = worst(checks)
    same = [check for check in checks if check.verdict is verdict]
    ruling = governing(same)
    return ruling if ruling is not None else same[0]
