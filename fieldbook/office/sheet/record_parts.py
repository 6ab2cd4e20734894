"""What was measured, found and used: the tables of the sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Verdict
from fieldbook.office.export.bill import bill
from fieldbook.office.sheet.markup import Child, element
from fieldbook.office.sheet.parts import bullets, day_and_time, facts, said, section, table
from fieldbook.quantities.convert import show
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.labels import within
from fieldbook.quantities.units import show_unit
from fieldbook.record.footage import in_feet
from fieldbook.record.string import string_pieces
from fieldbook.walk.entry.entry_words import afterwards_words, parts_of, title_of, words_of
from fieldbook.walk.entry.from_paper import is_afterwards
from fieldbook.watch.text import in_words, word_of
from fieldbook.watch.well.differences import differences

if TYPE_CHECKING:
    from collections.abc import Iterable
    from xml.etree.ElementTree import Element

    from calc.check import Check
    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.entry import Entry
    from fieldbook.record.tally import Tally

_TESTS = (
    "arrival", "duty", "setting", "level", "meter", "load", "drain", "pump_out", "line_test",
    "depth", "fitted", "chlorine", "tank", "sample",
)  # fmt: skip


def strings(context: SheetContext) -> list[Child]:
    """The string from the top down; where another goes in, that one and the one that was found."""
    job = context.job
    found = string_pieces(job, as_found=True)
    pieces = string_pieces(job)
    parts: list[Child] = []
    if pieces != found:
        parts.append(section("String that was found, from the top down", _pieces(found)))
    named = "String that goes in" if pieces != found else "String"
    below = [*said(job, "cable"), *said(job, "pump")]
    if pieces or below:
        columns = element("div", facts(below), class_="columns") if below else None
        parts.append(section(f"{named}, from the top down", _pieces(pieces), columns))
    return parts


def _pieces(pieces: Iterable[Entry]) -> Element | None:
    rows: list[list[Child]] = [
        [e.text("place"), e.text("joint_count") or "1", e.text("piece"), _size(e), _length(e),
         _of(e, "piece_weight", "line_weight")]
        for e in pieces
    ]  # fmt: skip
    heads = ("#Place", "#How many", "Piece", "Size", "#Length", "#Weight")
    return table(heads, rows) if rows else None


def _of(entry: Entry, *names: str) -> str:
    return next((figure(entry.values[name]) for name in names if name in entry.values), "")


def _size(entry: Entry) -> str:
    said = [f"{entry.text('nps')} in" if entry.text("nps") else _of(entry, "hose_bore")]
    if schedule := entry.text("schedule"):
        said.append(f"schedule {schedule}")
    return ", ".join(word for word in said if word)


def _length(entry: Entry) -> str:
    each = " each" if "joint_count" in entry.values else ""
    length = _of(entry, "joint_length", "piece_length")
    return f"{length}{each}" if length else ""


def well(context: SheetContext) -> Element | None:
    """What is known of the well, what the last record says of it, and what was found otherwise."""
    columns = [
        element("div", element("h3", title), facts(rows))
        for title, kind in (("As recorded on this job", "well"), ("By the last record", "prior"))
        if (rows := said(context.job, kind))
    ]
    side_by_side = "two" if len(columns) > 1 else "columns"
    known = element("div", *columns, class_=side_by_side) if columns else None
    earlier = _found_otherwise(context)
    return section("Well", known, *earlier) if known is not None or earlier else None


def _found_otherwise(context: SheetContext) -> list[Child]:
    """What this job found otherwise than the jobs before it on the well left it."""
    if context.memory is None:
        return []
    found = differences(context.job, context.memory)
    heading = element("h3", f"Against the last visit, {context.memory.words}")
    return [heading, bullets(found) if found else element("p", "Nothing was found otherwise.")]


def rig(context: SheetContext) -> Element | None:
    """The lift path, its instruments and the stop that the crew set."""
    job = context.job
    rows = [*said(job, "rig"), *said(job, "gauge"), *said(job, "limit")]
    rows += [(f"Redirect {e.text('place')}", words_of(e)) for e in job.live("redirect")]
    return section("Rig, gauge and limits", facts(rows), class_="part columns") if rows else None


def checks(context: SheetContext) -> Element:
    """What the book's checks say as the job is now, with what each lacks."""
    rows = [_check(check) for check in context.look.checks]
    heads = ("@Check", "@Verdict", "#Demand", "#Allowed", "#Share", "Governs, and what is missing")
    return section("Checks as the job stands", table(heads, rows))


def _check(check: Check) -> list[Child]:
    missing = f"missing: {', '.join(check.missing)}" if check.missing else ""
    words = "; ".join(w for w in (check.governs, missing, check.source, check.note) if w)
    loud = check.verdict in (Verdict.STOP, Verdict.UNKNOWN)
    verdict = word_of(check.verdict)
    return [
        check.name,
        element("strong", verdict) if loud else word_of(check.verdict),
        *("" if one is None else in_words(one) for one in (check.demand, check.allowable)),
        f"{check.share:.0%}" if check.share is not None else "",
        words,
    ]


def tally(context: SheetContext, direction: str) -> Element | None:
    """The joints, or the hose, that went "out" or "in", one a row, with the running length."""
    title = {"out": "Tally, out of the well", "in": "Tally, into the well"}[direction]
    counted = context.counts.out if direction == "out" else context.counts.into
    if counted.joints:
        return section(title, table(_JOINT_HEADS, _joint_rows(counted)))
    hose = [e for e in context.job.live("footage") if e.text("direction") == direction]
    if not hose:
        return None
    heads = ("@When", "#Counter", "#Mark", "#Gauge", "Hose", "Cable", "By", "Words")
    rows = [
        [day_and_time(e.time), _of(e, "footage"), _of(e, "mark"), _of(e, "gauge_reading"),
         e.text("hose_condition"), e.text("cable_condition"), e.by, _late(e)]
        for e in hose
    ]  # fmt: skip
    return section(title.replace("Tally", "Footage"), table(heads, rows))


_JOINT_HEADS = ("#Joint", "#Length", "#Sum, ft", "#Gauge", "Inside", "Pipe", "Cable", "On it",
                "@When", "By", "Words")  # fmt: skip


def _joint_rows(counted: Tally) -> list[list[Child]]:
    rows: list[list[Child]] = []
    total, before = 0.0, 0
    times = _times(counted)
    for e in counted.newest:
        number = int(e.values["joint_number"].number or 0)
        if number > before + 1:
            rows.append(_gap(before + 1, number - 1))
        before = max(number, before)
        length = in_feet(e, "joint_length")
        total += length if length is not None else 0.0
        at = f", {_of(e, 'condition_at')} down" if "condition_at" in e.values else ""
        rows.append(
            [e.text("joint_number"), _of(e, "joint_length"), f"{total:,.2f}",
             _of(e, "gauge_reading"), e.text("inside"), f"{e.text('pipe_condition')}{at}",
             e.text("cable_condition"), e.text("on_joint"), times[e.id], e.by,
             _twice(e, counted)]
        )  # fmt: skip
    return rows


def _times(counted: Tally) -> dict[str, str]:
    """When each joint was written, with the day wherever a new one begins, if there are several."""
    several = len({e.time.date() for e in counted.newest}) > 1
    times, day = {}, None
    for e in counted.newest:
        new_day = several and e.time.date() != day
        times[e.id] = f"{e.time:%m-%d %H:%M}" if new_day else f"{e.time:%H:%M}"
        day = e.time.date()
    return times


def _gap(first: int, last: int) -> list[Child]:
    """A loud row for joints that nobody wrote, or whose entries cannot be read."""
    numbers = " to ".join(dict.fromkeys((str(first), str(last))))
    return [numbers, *[""] * (len(_JOINT_HEADS) - 2), element("strong", "blank")]


def _twice(entry: Entry, counted: Tally) -> Child:
    """The words of a joint's row; loud where another entry tells of the same joint."""
    others = counted.joints[int(entry.values["joint_number"].number or 0)][:-1]
    if not others:
        return _late(entry)
    words = "; ".join(f"{_of(e, 'joint_length') or 'no length'} by {e.by} {e.time:%H:%M}"
                     for e in others)  # fmt: skip
    return element("span", element("strong", "written twice"), f", also {words}. ", _late(entry))


def _late(entry: Entry) -> Child:
    """What a row of the tally says besides its columns, and whether it was written afterwards."""
    details = [
        f"{within(definition(name).label)} {figure(entry.values[name])}"
        for name in ("raised", "held_by", "ties", "witness", "reason", "sure")
        if name in entry.values
    ]
    words = ", ".join([*details, *([entry.note] if entry.note else [])])
    if not is_afterwards(entry):
        return words
    late = "recorded from paper"
    paper = afterwards_words(entry).removeprefix(late)
    return element("span", element("strong", late), f"{paper} {words}".rstrip())


def tests(context: SheetContext) -> Element | None:
    """Levels, meters, gauge readings and the like, in the order they were written."""
    entries = [entry for kind in _TESTS for entry in context.job.live(kind)]
    rows = [
        [day_and_time(e.time), _what(e, context), "; ".join(parts_of(e)), e.by]
        for e in sorted(entries, key=lambda entry: entry.order)
    ]
    if not rows:
        return None
    return section("Tests and readings", table(("@When", "What", "Read", "By"), rows))


def _what(entry: Entry, context: SheetContext) -> str:
    """The title of the step that the entry was made for, or what kind of entry it is."""
    titles = {step.id: step.title for step in context.walk.steps}
    return titles.get(entry.text("step")) or title_of(entry, context.walk)


def findings(context: SheetContext) -> Element | None:
    """What was found, part by part."""
    rows: list[list[Child]] = [
        [e.text("part"), element("span", e.text("finding"), f" {e.note}".rstrip()), e.text("cause"),
         _where(e), e.text("kept_at"),
         " and ".join(w for w in (e.by, e.text("witness")) if w)]
        for e in context.job.live("finding")
    ]  # fmt: skip
    if not rows:
        return None
    heads = ("Part", "Found", "Cause", "Where", "Kept at", "Seen by")
    return section("Findings", table(heads, rows))


def _where(entry: Entry) -> str:
    details = [f"joint {entry.text('joint_number')}"] if "joint_number" in entry.values else []
    details += [_of(entry, name) for name in ("condition_at", "found_at") if name in entry.values]
    if "top_of_lost" in entry.values:
        details.append(f"top at {_of(entry, 'top_of_lost')}")
    if state := entry.text("string_state"):
        details.append(f"string {state}")
    return ", ".join(details)


def bill_part(context: SheetContext) -> Element | None:
    """Hours and miles, what was approved and by whom, materials."""
    rows: list[list[Child]] = [
        [line.what, line.item, line.amount, show_unit(line.unit), line.approved_by,
         line.time[:16].replace("T", " "), line.by, line.note]
        for line in bill(context.job)
    ]  # fmt: skip
    if not rows:
        return None
    heads = ("@What", "Item", "#Amount", "Unit", "Approved by", "@When", "By", "Words")
    return section("Hours, miles, approvals, materials", table(heads, rows))


def depth(context: SheetContext) -> Element | None:
    """How deep the intake hangs, or hung, by every way on record."""
    found = context.look.depth.found
    if found is None:
        return None
    rows: list[list[Child]] = [
        [each.way.name, show(each.way.depth, "ft", 1), show(each.way.uncertainty, "ft", 1),
         f"{each.weight:.0%}", _apart(each.difference.m_as("ft")) if found.ways[1:] else "",
         element("strong", "odd one out") if each is found.odd else ""]
        for each in found.ways
    ]  # fmt: skip
    title = "How deep the intake hangs" if context.look.now.hangs else "How deep the intake hung"
    words = f"{show(found.depth, 'ft', 1)} below {context.look.depth.datum}, "
    words += f"standard uncertainty {show(found.uncertainty, 'ft', 1)}"
    words += "." if found.agree else ": the ways do not agree."
    heads = ("By", "#Depth", "#Uncertainty", "#Weight", "#Against the rest", "Remark")
    return section(title, element("p", element("strong", words)), table(heads, rows))


def _apart(feet: float) -> str:
    """Feet over or under, to a tenth; none is no feet under."""
    return f"{feet:+z.1f} ft"


def missing(context: SheetContext) -> Element | None:
    """Why the trace or the weight of the string could not be drawn."""
    lacks = context.trace.missing
    return element("div", element("p", "Not drawn. Missing:"), bullets(lacks)) if lacks else None
