"""The pull in service: what walls, threads and end fittings carry under pressure from within."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, governing, judge, worst
from calc.drop_line.fill import Fill
from calc.units import magnitude, quantity
from fieldbook.quantities.convert import show
from fieldbook.watch.lift.load_path import CAUTION_SHARE
from fieldbook.watch.pressure.pressure import HOSE_WAVE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.drop_line.free_body import Cut
    from calc.units import Quantity
    from fieldbook.watch.lift.lift import Lift
    from fieldbook.watch.pressure.service import Service
    from fieldbook.watch.state.position import Moment

NAME = "pull in service"
_FORMULA = "string and water below, and the pressure at the top, surge or dead-head on the bore"


def served(now: Moment, seen: Service) -> Check:
    """Wall tension of the whole string in service, at the cut that is used most.

    Source: free body below each cut; the end of the line is closed by the pump, so that pressure
    times bore pulls on every wall, thread and fitting above it. A rigid outlet takes it off the
    hanger, and off nothing else.

    Args:
        now: The string.
        seen: What the line sees in service.
    """
    record = now.record
    if record.string is None:
        lacks = dict.fromkeys((*record.missing, *seen.missing))
        return Check(NAME, Verdict.UNKNOWN, missing=tuple(lacks), formula=_FORMULA)
    known, most = _surges(now, seen)
    lacking = seen.missing
    checks = list(_judged(now, seen, known, lacking))
    if known is None and most is not None:
        bound = list(_judged(now, seen, most, lacking))
        if worst(bound) is Verdict.STOP:
            checks = list(_judged(now, seen, None, (*lacking, HOSE_WAVE)))
        else:
            checks = bound
    ruling = governing(checks) or checks[0]
    missing = tuple(dict.fromkeys(lack for check in checks for lack in check.missing))
    return replace(ruling, verdict=worst(checks), missing=missing)


def _surges(now: Moment, seen: Service) -> tuple[Quantity | None, Quantity | None]:
    """The largest surge of any line of the string: known of all, and at the most."""
    each = [seen.surge_in(line) for line in now.record.lines.values()]
    known = [surge.known for surge in each if surge.known is not None]
    most = [surge.most for surge in each if surge.most is not None]
    whole = len(known) == len(each)
    return (max(known, default=None) if whole else None), max(most, default=None)


def _judged(
    now: Moment, seen: Service, surge: Quantity | None, lacking: tuple[str, ...]
) -> Iterator[Check]:
    """Each piece but the pump, at the cut and in the case that pull on it most."""
    most: dict[str, Cut] = {}
    for level, pressure in _cases(now, seen, surge):
        assert now.record.string is not None
        for cut in now.record.string.wall_tensions(
            level=level,
            top=now.top,
            fill=Fill.FULL,
            water_weight=now.water_weight,
            surface_pressure=pressure,
        ):
            if cut.name not in most or cut.tension_lbf > most[cut.name].tension_lbf:
                most[cut.name] = cut
    for name, cut in most.items():
        if cut.piece.kind == "pump":
            continue  # its thread is the one above it, which is a cut of its own
        called = now.joint_names.get(name, name)
        yield judge(
            NAME,
            cut.tension,
            cut.allowable,
            unit="lbf",
            caution_share=CAUTION_SHARE,
            governs=f"{cut.piece.allowable_of or cut.piece.kind}, {cut.end} end of {called}",
            missing=dict.fromkeys((*now.record.unrated.get(name, ()), *lacking)),
            formula=_FORMULA,
            source=cut.piece.allowable_source,
        )


def _cases(
    now: Moment, seen: Service, surge: Quantity | None
) -> Iterator[tuple[Quantity | None, Quantity]]:
    """(outside level, pressure at the top), each pair true at one and the same moment.

    Standing, the well may be dry. Against a closed valve the pump has water at its intake: from
    there up to the highest level on record. As the level falls past a cut the wall outside is
    pressed less and the pump lifts from deeper; the pipe's section is the larger, so the tension
    is highest at one of the two ends.
    """
    top = seen.top.value if seen.top is not None else quantity(0.0, "psi")
    yield None, top if surge is None else top + surge
    if seen.shut_off is None:
        return
    line = sum(stretch.feet for stretch in now.record.stretches)
    foot = quantity(magnitude(now.top, "ft", "top") + line, "ft")
    yield foot, seen.closed_top(foot, now.top)
    if seen.shallowest is not None and seen.shallowest < foot:
        yield seen.shallowest, seen.closed_top(seen.shallowest, now.top)


def beside_service(answer: Lift, served: Check | None, now: Moment) -> Lift:
    """The lift with what the string carries in service beside it.

    A string that goes in and would be over its limit in service is a stop already: it is not set.
    One that comes out was over it and hangs all the same; lifting it is the way out, so that is a
    caution, for the harm it may have. Where nobody knows what it carries in service the lift is a
    caution both ways: what is left out never makes a lift good.
    """
    chain = answer.chain
    if served is None or served.verdict in (Verdict.WITHIN, Verdict.CAUTION):
        return replace(answer, served=served)
    if served.verdict is Verdict.STOP and now.counted_in:
        if chain.verdict is not Verdict.STOP:
            governs = f"in service: {served.governs}"
            chain = replace(served, name=chain.name, governs=governs, note=chain.note)
    else:
        verdict = Verdict.CAUTION if chain.verdict is Verdict.WITHIN else chain.verdict
        note = "; ".join(filter(None, (_in_service(served), chain.note)))
        chain = replace(chain, verdict=verdict, note=note)
    return replace(answer, check=chain, chain=chain, served=served)


def _in_service(served: Check) -> str:
    if served.verdict is Verdict.UNKNOWN:
        return f"in service unknown: needs {', '.join(served.missing)}"
    figures = " of ".join(
        show(q, "lbf") for q in (served.demand, served.allowable) if q is not None
    )
    return f"in service over its limit: {figures}, {served.governs}"
