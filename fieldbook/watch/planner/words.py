"""The plan in words, the same for the screen and the command line."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from calc.check import Verdict
from calc.units import magnitude
from fieldbook.quantities.convert import show
from fieldbook.watch.planner.anchors import ANGLES
from fieldbook.watch.planner.trial import PRESSURE
from fieldbook.watch.text import word_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from calc.check import Check
    from calc.units import Quantity
    from fieldbook.watch.planner.anchors import Anchor
    from fieldbook.watch.planner.deepest import Limit
    from fieldbook.watch.planner.known import Known
    from fieldbook.watch.planner.plan import AtSetting, Plan, PlanRow
    from fieldbook.watch.planner.supply import Supply

HEADS = (
    ("", "deepest", "", "at the", "full", "gross", "loss", "head"),
    ("Line", "ft", "governed by", "setting", "lbf", "psi", "ft", "ft"),
)
WIDTHS = (18, 8, 17, 7, 6, 5, 4, 5)
LEGEND = (
    "deepest: of the intake; ?: a figure is missing, so at most, or can't say.",
    "full: hook load, line full.  gross: pressure at the pump.",
    "loss: by friction.  head: total.",
)
LABEL = 20
BECAUSE = "  because"
"""Heads the reasons of the line above it; left away where there is room for a glance only."""
_NONE = "-"


def heading(plan: Plan) -> Iterator[tuple[str, str]]:
    """What is planned for, label and words; reasons under the label `BECAUSE`."""
    if plan.stopped is not None:
        yield "The lift now", f"STOP: {plan.stopped.governs or plan.stopped.note}"
    yield "Setting", with_source(plan.setting, "ft", 1)
    ends = (plan.room.least, plan.room.most)
    least, most = (_figure(end, "ft") for end in ends)
    hows = "; ".join(end.how for end in ends if end.value is not None)
    yield "Intake range", f"intake at {least} to {most}" if hows else "unknown"
    if hows:
        yield BECAUSE, hows
    duty = plan.duty
    asked = f"{_figure(duty.flow, 'gpm')} from {_figure(duty.level, 'ft')} below the datum"
    yield "Duty", f"{asked}, {_figure(duty.head_pressure, 'psi')} at the top"
    if plan.common:
        yield "Every line lacks", ", ".join(plan.common)


def cells(row: PlanRow) -> tuple[str, ...]:
    """One candidate as a row of the table, one cell for each of `HEADS`.

    Where nobody knows how deep it goes, the first thing that is missing fills both its cells.
    """
    at = row.at
    limit = row.governs
    if limit is None or (limit.beyond and row.missing):
        deepest, governs = "", _needs(row.missing)
    else:
        deepest, governs = _deepest(limit, known=not row.missing), limit.name
    word = _cell_of(row.verdict) if at is not None else _NONE
    if at is None:
        return row.candidate.name, deepest, governs, word, *([_NONE] * 4)
    loads = at.trial.lift.loads
    return (
        row.candidate.name,
        deepest,
        governs,
        word,
        _number(loads.full if loads is not None else None, "lbf"),
        _number(at.trial.limits[PRESSURE].demand if at.gross is not None else None, "psi"),
        _number(at.flowing.friction.value, "ft"),
        _number(at.flowing.total_head.value, "ft"),
    )


def _cell_of(verdict: Verdict) -> str:
    """The word of a verdict in a column of seven."""
    return "?" if verdict is Verdict.UNKNOWN else word_of(verdict)


def folded(label: str, words: str, *, width: int) -> str:
    """A label and its words in lines of at most `width`, the words beside the label."""
    if not words:
        return label
    return textwrap.fill(f"{label:<{LABEL}}{words}", width, subsequent_indent=" " * LABEL)


def table_head() -> str:
    """The heads of the table, two lines."""
    return "\n".join(map(table_row, HEADS))


def table_row(texts: tuple[str, ...]) -> str:
    """The cells of a row, or of a line of `HEADS`, in columns."""
    name, deepest, governs, *_ = texts
    if not deepest and governs:
        both = sum(WIDTHS[1:3]) + 1
        rest = _columns(("", "", "", *texts[3:]))[sum(WIDTHS[:3]) + 2 :]
        return f"{name:<{WIDTHS[0]}} {governs:<{both}}{rest}".rstrip()
    return _columns(texts)


def _needs(missing: Sequence[str]) -> str:
    """The first that is missing, as whole as there is room for, and how many more."""
    room = sum(WIDTHS[1:3]) + 1
    more = f" +{len(missing) - 1}" if len(missing) > 1 else ""
    first = missing[0] if missing else "its figures"
    wordings = (f"needs {first}{more}", f"needs {first}", f"{first}?")
    whole = [words for words in wordings if len(words) <= room]
    return whole[0] if whole else textwrap.shorten(f"needs {first}", room, placeholder="")


def _columns(texts: tuple[str, ...]) -> str:
    shown = []
    for at, (text, width) in enumerate(zip(texts, WIDTHS, strict=True)):
        left = at in (0, 2, 3)
        shown.append(f"{text[:width]:<{width}}" if left else f"{text[:width]:>{width}}")
    return " ".join(shown).rstrip()


def _deepest(limit: Limit, *, known: bool) -> str:
    assert limit.length is not None
    doubt = "" if known else " ?"
    if limit.length <= 0.0:
        return "none"
    if limit.beyond:
        return f">{limit.length:,.0f}{doubt}"
    if limit.setting is None:
        return f"{limit.length:,.0f}+{doubt}"
    return f"{magnitude(limit.setting, 'ft', 'setting'):z,.0f}{doubt}"


def details(plan: Plan, row: PlanRow) -> Iterator[tuple[str, str]]:
    """Everything about one candidate, label and words; a label alone heads what follows."""
    if row.missing:
        yield "Missing", ", ".join(row.missing)
    yield "How deep each limit lets it go", ""
    for limit in row.limits:
        yield f"  {limit.name}", _limit_words(limit)
    if row.at is None:
        yield "At the setting", f"unknown: needs {', '.join(plan.setting.missing) or 'room for it'}"
        return
    yield f"At the setting, {with_source(plan.setting, 'ft', 1)}", ""
    yield from _at_words(row.at, row)
    yield from supply_words(plan.supply) if plan.supply is not None else ()
    yield "Water past motor", _check_words(plan.cooling, "ft/s", 2)
    yield from (("Intake range", words) for label, words in heading(plan) if label == BECAUSE)
    yield from _anchor_words(row.at.anchors)


def _limit_words(limit: Limit) -> str:
    lacks = f"; needs {', '.join(limit.missing)}" if limit.missing else ""
    if limit.length is None:
        return f"unknown{lacks}"
    if limit.beyond:
        words = "no bound found" if limit.missing else f"more than {limit.length:,.0f} ft of line"
        return f"{words}{lacks}"
    if limit.length <= 0.0:
        return f"not at any depth ({limit.check.governs}){lacks}"
    where = (
        f"{limit.length:,.0f} ft of line" if limit.setting is None else show(limit.setting, "ft")
    )
    return f"{where}{_caution(limit)} ({limit.check.governs}){lacks}"


def _caution(limit: Limit) -> str:
    if not limit.caution or limit.length is None:
        return ""
    deep = limit.caution
    if limit.setting is not None:
        deep += magnitude(limit.setting, "ft", "setting") - limit.length
    return f", caution from {deep:z,.0f} ft"


def _at_words(at: AtSetting, row: PlanRow) -> Iterator[tuple[str, str]]:
    verdict = at.verdict
    for name, check in at.trial.limits.items():
        unit = "psi" if "pressure" in name else "lbf"
        yield f"  {name}", _check_words(check, unit)
    loads = at.trial.lift.loads
    if loads is not None:
        hangs = f"{show(loads.full, 'lbf')} full, {show(loads.drained, 'lbf')} drained"
        yield "Hook load", f"{hangs}, {show(loads.design, 'lbf')} full, well empty"
    if at.gross is not None:
        dead = at.gross.dead_head
        closed = show(dead, "psi") if dead is not None else "unknown: needs shut-off head"
        yield "Pressure", f"{show(at.gross.standing, 'psi')} standing, {closed} dead-head"
    flow = at.flowing
    yield "Velocity", with_source(flow.velocity, "ft/s", 1)
    yield "Friction", with_source(flow.friction, "ft", 1)
    yield "Total head", with_source(flow.total_head, "ft", 1)
    point = flow.point
    if point.value is None:
        yield "Operating point", f"unknown: needs {', '.join(point.missing)}"
    else:
        found = point.value
        yield (
            "Operating point",
            f"{show(found.flow, 'gpm', 1)} at {show(found.head, 'ft')} ({point.how})",
        )
        yield "Motor load", _check_words(at.motor, "hp", 1)
    joints = f", {at.time.joints} joints" if at.time.joints is not None else ""
    yield (
        "Time to set",
        f"{at.time.least:.0f} to {at.time.most:.0f} min{joints} (our estimate, no source)",
    )
    if verdict is not Verdict.UNKNOWN and not row.candidate.hangs:
        yield "Note", "valves and fittings weighed as the job lists them; their own size may differ"


def supply_words(supply: Supply) -> Iterator[tuple[str, str]]:
    """The cable, label and words."""
    if supply.steps.value is None:
        yield "Cable", f"unknown: needs {', '.join(supply.steps.missing)}"
        return
    allowed = f"{supply.allowed:.1%} allowed ({supply.allowed_by})"
    size = supply.size.value
    found = f"{size.size} AWG, {size.drop:.1%}" if size else f"none: {supply.size.missing[0]}"
    yield "Cable", f"{found} over {show(supply.length, 'ft')}; {allowed}"
    steps = supply.steps.value
    at = steps.index(size) if size is not None else len(steps) - 1
    near = steps[max(at - 2, 0) : at + 3]
    yield "  drop by size", ", ".join(f"{step.size}: {step.drop:.1%}" for step in near)
    if supply.recorded is not None:
        fits = "OK" if supply.recorded.drop <= supply.allowed else "OVER what is allowed"
        yield "  the job's", f"{supply.recorded.size} AWG: {supply.recorded.drop:.1%}, {fits}"
    yield "", "By drop alone, copper at 75 C: what a size may carry is for the electrical code."


def _anchor_words(anchors: tuple[Anchor, ...]) -> Iterator[tuple[str, str]]:
    if not anchors:
        return
    yield "Anchors while hoisting, 2 x pull x sin(half the turn)", ""
    for anchor in anchors:
        turn = show(anchor.turn, "degree")
        yield f"  {anchor.name[:22]}", f"{show(anchor.load, 'lbf')} at its turn of {turn}"
        loads = ", ".join(
            f"{angle} deg {magnitude(load, 'lbf', 'anchor'):,.0f}"
            for angle, load in zip(ANGLES, anchor.by_angle, strict=True)
        )
        yield "    by turn, lbf", loads


def with_source(figure: Known[Quantity], unit: str, digits: int = 0) -> str:
    """A figure with how it is known, or what it needs."""
    if figure.value is None:
        return f"unknown: needs {', '.join(figure.missing)}"
    how = f" ({figure.how})" if figure.how else ""
    return f"{show(figure.value, unit, digits)}{how}"


def _check_words(check: Check, unit: str, digits: int = 0) -> str:
    lacks = f"; needs {', '.join(check.missing)}" if check.missing else ""
    if check.share is None or check.demand is None or check.allowable is None:
        note = f": {check.note}" if check.note and check.verdict is Verdict.STOP else ""
        return f"{word_of(check.verdict)}{note}{lacks}"
    of = f"{show(check.demand, unit, digits)} of {show(check.allowable, unit, digits)}"
    governs = f" ({check.governs})" if check.governs else ""
    return f"{word_of(check.verdict)}, {of}, {check.share:.0%}{governs}{lacks}"


def _figure(figure: Known[Quantity], unit: str) -> str:
    return show(figure.value, unit) if figure.value is not None else "?"


def _number(value: Quantity | None, unit: str) -> str:
    return f"{magnitude(value, unit, 'shown'):z,.0f}" if value is not None else "?"
