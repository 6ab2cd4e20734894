"""Who answered for what: holds, stops passed, steps passed over, strikes, signatures."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.office.reports.due import WHAT
from fieldbook.office.sheet.inside import DESCRIBES
from fieldbook.office.sheet.markup import Child, element
from fieldbook.office.sheet.parts import day_and_time, section, table
from fieldbook.record.promised import promised
from fieldbook.walk.entry.entry_words import afterwards_words, title_of, words_of
from fieldbook.walk.entry.from_paper import is_afterwards
from fieldbook.walk.states import StepState, releasing

if TYPE_CHECKING:
    from collections.abc import Iterator
    from xml.etree.ElementTree import Element

    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.entry import Entry
    from fieldbook.walk.definition.steps import Step

_AFTERWARDS = "recorded from paper, hold not witnessed"


def holds(context: SheetContext) -> Element | None:
    """Every hold point of the walk, and who released it or passed it by name."""
    steps = [step for step in context.stand.steps if step.hold is not None]
    rows = [
        *(_hold(context, step) for step in steps),
        *_not_asked(context),
        *_other_holds(context),
    ]
    heads = ("#HP", "Hold point", "State", "By", "@As", "@When", "Words")
    return section("Hold points", table(heads, rows)) if rows else None


def _hold(context: SheetContext, step: Step) -> list[Child]:
    state = context.stand.states[step.id]
    number: list[Child] = [str(step.hold), step.title]
    if step.each_entry_is_the_yes:
        return [*number, *_each_entry(context, step, state)]
    entry = _answer(context, step, state)
    if state.is_open or entry is None:
        return [*number, element("strong", "NOT SIGNED"), "", "", "", ""]
    outcome = "skipped by name" if state is StepState.PASSED_BY_NAME else "signed"
    return [
        *number, outcome, _by(entry), entry.text("role"), day_and_time(entry.time), _reasons(entry),
    ]  # fmt: skip


def _not_asked(context: SheetContext) -> Iterator[list[Child]]:
    """Holds of the company's own of which a sealed log says nothing."""
    for step in context.stand.not_asked:
        if step.hold is not None:
            words = "added since the seal, or not asked"
            yield [str(step.hold), step.title, words, "", "", "", ""]


def _other_holds(context: SheetContext) -> Iterator[list[Child]]:
    """Yeses to steps that this walk does not have, such as those of a company's own."""
    known = {step.id for step in context.stand.steps}
    for e in context.job.live("hold"):
        if e.text("step") not in known:
            yield ["", e.text("step"), "signed", _by(e), e.text("role"), day_and_time(e.time),
                   _reasons(e)]  # fmt: skip


def _by(entry: Entry) -> str:
    return " and ".join(word for word in (entry.by, entry.text("witness")) if word)


def _answer(context: SheetContext, step: Step, state: StepState) -> Entry | None:
    job = context.job
    if state is not StepState.PASSED_BY_NAME:
        given = [entry for entry in job.live("hold") if entry.text("step") == step.id]
        return releasing(step, given, context.stand.holders.get(step.id, ""))
    passed = [e for e in job.live("passed_over") if e.text("step") == step.id]
    return passed[-1] if passed else None


def _each_entry(context: SheetContext, step: Step, state: StepState) -> list[Child]:
    """A hold that every entry of its step releases, as at every joint."""
    entries = [e for e in context.job.live(step.records) if _is_of(step, e)]
    if not entries:
        answer = _answer(context, step, state) if not state.is_open else None
        if answer is not None:
            when = day_and_time(answer.time)
            return ["skipped by name", answer.by, answer.text("role"), when, _reasons(answer)]
        return [element("strong", "NOT SIGNED"), "", "", "", ""]
    late = sum(map(is_afterwards, entries))
    words = f"{late} of them {_AFTERWARDS}" if late else ""
    who = ", ".join(dict.fromkeys(entry.by for entry in entries))
    span = " to ".join(dict.fromkeys(day_and_time(e.time) for e in (entries[0], entries[-1])))
    times = f"{len(entries)} times, with each entry"
    return [times, who, "", span, element("strong", words) if words else ""]


def _is_of(step: Step, entry: Entry) -> bool:
    return entry.text("step") in ("", step.id) and all(
        entry.text(name) == word for name, word in step.fixed.items()
    )


def _reasons(entry: Entry) -> Child:
    details = [entry.text("reason")] if entry.text("reason") else []
    if relies := entry.text("relies_on"):
        details.append(f"going by: {relies}")
    if held := entry.text("held_by"):
        details.append(f"held by {held}")
    if entry.note:
        details.append(entry.note)
    if not is_afterwards(entry):
        return "; ".join(details)
    return element(
        "span", element("strong", afterwards_words(entry)), "".join(f"; {word}" for word in details)
    )


def stops(context: SheetContext) -> Element | None:
    """Stops that stood, and checks that somebody passed by name; every one, in every copy."""
    entries = [*context.job.live("stop_noted"), *context.job.live("check_passed")]
    rows = [
        [
            day_and_time(e.time),
            "stop noted" if e.kind == "stop_noted" else "went ahead with unknowns",
            e.text("check"), e.text("share"), e.by, e.text("role"), _reasons(e),
        ]
        for e in sorted(entries, key=lambda entry: entry.order)
    ]  # fmt: skip
    if not rows:
        return section("Stops and checks passed", element("p", "None was noted or passed."))
    heads = ("@When", "What", "Check", "#Share", "By", "As", "Words")
    return section("Stops and checks passed", table(heads, rows))


def passed_over(context: SheetContext) -> Element | None:
    """Steps passed over, each with its reason."""
    rows = [
        [title_of(e, context.walk).partition(", ")[2], _reasons(e), e.by, day_and_time(e.time)]
        for e in context.job.live("passed_over")
    ]
    if not rows:
        return None
    return section("Steps skipped", table(("Step", "Reason", "By", "@When"), rows))


def ticked(context: SheetContext) -> Element | None:
    """The steps that were ticked on a page, with who ticked each and when."""
    titles = {step.id: step.title for step in context.stand.steps if step.page}
    rows = [
        [titles[e.text("step")], _by(e), day_and_time(e.time)]
        for e in context.job.live("done")
        if e.text("step") in titles
    ]
    return section("Ticked", table(("Step", "By", "@When"), rows)) if rows else None


def not_recorded(context: SheetContext) -> Element | None:
    """What a job that recorded at once left for later, and nobody filled in."""
    later = context.stand.later
    if not later or context.for_customer:
        return None
    return section("Not recorded", element("p", "; ".join(step.title for step in later)))


def strikes(context: SheetContext) -> Element | None:
    """What was struck, still to be read, with who struck it, when and why."""
    job = context.job
    rows = [
        [element("s", _entry_words(e, context)), e.by, day_and_time(e.time), _struck_by(e, context)]
        for e in job.entries
        if not job.is_live(e)
    ]
    if not rows:
        return section("Crossed out", element("p", "Nothing was crossed out."))
    return section(
        "Crossed out", table(("What was written", "By", "@When", "Crossed out by"), rows)
    )


def _struck_by(entry: Entry, context: SheetContext) -> Child:
    found = []
    for striker in context.job.struck_by(entry):
        why = striker.text("reason") or striker.note
        now = "" if striker.kind == "strike" else f", corrected: {words_of(striker)}"
        found.append(f"{striker.by} {day_and_time(striker.time)}{': ' + why if why else ''}{now}")
    return "; ".join(found)


def _entry_words(entry: Entry, context: SheetContext) -> str:
    return ". ".join(w for w in (title_of(entry, context.walk), words_of(entry)) if w)


def changes_of_hands(context: SheetContext) -> Element | None:
    """Work suspended and resumed, hand-overs, in order."""
    kinds = ("suspend", "resume", "handover")
    entries = [entry for kind in kinds for entry in context.job.live(kind)]
    rows = [
        [day_and_time(e.time), title_of(e, context.walk), words_of(e), e.by]
        for e in sorted(entries, key=lambda entry: entry.order)
    ]
    if not rows:
        return None
    return section("Shut down, resumed, handed over", table(("@When", "What", "Words", "By"), rows))


def notes(context: SheetContext) -> Element | None:
    """Notes, words beside what was described, what is to come, and what of it has come."""
    kinds = ("note", "follow_up", "answer")
    entries = [entry for kind in kinds for entry in context.job.live(kind)]
    entries += [e for kind in DESCRIBES for e in context.job.live(kind) if e.note]
    said = [
        (e, e.text("item") or title_of(e, context.walk),
         "; ".join(word for word in (e.text("outcome"), e.note) if word),
         e.text("due") or e.text("done_on"))
        for e in entries
    ]  # fmt: skip
    # What sample and licence promised is written nowhere else a second time.
    said += [
        (p.entry, WHAT[p.kind], p.words, p.due)
        for p in promised(context.job)
        if p.kind != "follow_up"
    ]
    if not said:
        return None
    rows: list[list[Child]] = [
        [day_and_time(e.time), what, words, day, e.by]
        for e, what, words, day in sorted(said, key=lambda row: row[0].order)
    ]
    heads = ("@When", "What", "Words", "@Due or done", "By")
    return section("Notes and what is to come", table(heads, rows))


def signatures(context: SheetContext) -> Element:
    """Who signed in the log, and lines for a pen."""
    rows = [
        [e.by, e.text("role"), day_and_time(e.time), e.note] for e in context.job.live("signature")
    ]
    signed: Child = (
        table(("Signed in the log", "As", "@When", "Words"), rows)
        if rows
        else element("p", element("strong", "NOT SIGNED"), " in the log.")
    )
    pen = element("div", *_pen_lines(), class_="pen")
    return section("Signatures", signed, pen, class_="end")


def _pen_lines() -> Iterator[Element]:
    for who in ("For the crew", "Owner", "Date"):
        yield element("div", element("span", who))
