"""The top of the sheet: whose job it is, whether it is sealed, what to know before reading on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.office.sheet.drawing import SHORT, TALL, draw
from fieldbook.office.sheet.markup import Child, element
from fieldbook.office.sheet.parts import (
    LINE_WORDS,
    bullets,
    day_and_time,
    facts,
    notice,
    said,
    section,
)
from fieldbook.office.sheet.well_picture import picture_of
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.walk.definition.steps import PHASES
from fieldbook.walk.entry.entry_words import title_of, words_of

if TYPE_CHECKING:
    from collections.abc import Iterator
    from xml.etree.ElementTree import Element

    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_MOST_LISTED = 8


def front(context: SheetContext) -> list[Child]:
    """Title, seal, warnings and the summary."""
    return [_title(context), _seal(context), *_warnings(context), _summary(context)]


def title_words(context: SheetContext) -> str:
    """The job's number and title, as the head and the foot of the sheet call it."""
    job = context.job
    return " ".join(w for w in (job.text("job", "job_number"), job.text("job", "job_title")) if w)


def days_of(context: SheetContext) -> str:
    """The first and the last day on which something was recorded before the seal."""
    seal = context.seal.seal
    until = [e for e in context.job.entries if seal is None or e.order <= seal.order]
    days = sorted({f"{entry.time:%Y-%m-%d}" for entry in until})
    return " to ".join(dict.fromkeys((days[0], days[-1]))) if days else "nothing recorded"


def _title(context: SheetContext) -> Element:
    job = context.job
    work, line = job.text("job", "work"), job.text("job", "line")
    copy = "Customer's copy" if context.for_customer else "Office copy"
    whose = [element("span", line) for line in context.letterhead]
    return element(
        "header",
        element("div", *whose, class_="letterhead") if whose else None,
        element("p", f"Record of work on a water well · {copy}", class_="over"),
        element(
            "h1",
            element("span", job.text("job", "job_number") or "no number", class_="number"),
            " ",
            job.text("job", "job_title") or job.text("job", "owner"),
        ),
        element(
            "p",
            " · ".join(w for w in (work, LINE_WORDS.get(line, line), days_of(context)) if w),
            class_="under",
        ),
    )


def _seal(context: SheetContext) -> Element:
    stand = context.seal
    if stand.seal is None:
        words = "Nothing on this sheet is final: the record can still grow."
        return element("div", element("strong", "NOT SEALED"), " ", words, class_="seal open")
    words = f"Sealed {day_and_time(stand.seal.time)} by {stand.seal.by}"
    hashed = element("code", *_in_groups(stand.hash), class_="hash")
    if stand.damage:
        return element(
            "div",
            element("strong", "SEALED, AND DAMAGED SINCE"),
            element("p", f"{words}. The log is not what was sealed: see below."),
            hashed,
            class_="seal open",
        )
    how = "SHA-256 over the seal, naming the last line of every log: fieldbook verify tells it."
    note = element("small", how)
    return element("div", element("strong", words), hashed, note, class_="seal")


def _in_groups(digits: str) -> list[Child]:
    """The whole hash, eight digits at a time, so that it can be read out and compared."""
    return [" ".join(digits[at : at + 8] for at in range(0, len(digits), 8))]


def _warnings(context: SheetContext) -> Iterator[Child]:
    stand, seal = context.stand, context.seal
    if seal.damage:
        damage = [str(problem) for problem in seal.damage]
        yield notice("DAMAGE FOUND", bullets([*damage, *_uncovered(context), *seal.lost]))
    if seal.clashes:
        yield notice("LOGS DISAGREE", bullets(seal.clashes))
    if late := _after_the_seal(context):
        yield notice("AFTER THE SEAL", _short(late, context))
    if stand.open_holds and context.walk.steps:
        words = "; ".join(step.title for step in stand.open_holds)
        yield notice("HOLDS NOT RELEASED", element("p", words))
    if stand.unwitnessed:
        yield notice(
            "RECORDED FROM PAPER",
            element("p", f"{stand.unwitnessed} entries: nobody witnessed the hold they stand for."),
        )
    if context.counts.problems:
        yield notice("COUNTS DO NOT AGREE", bullets(context.counts.problems))
    if seal.jumps:
        yield notice("CLOCK WENT BACK", _short([str(problem) for problem in seal.jumps], context))


def _after_the_seal(context: SheetContext) -> list[str]:
    """What came after the seal, in this copy's words."""
    seal = context.seal
    if seal.seal is None:
        return []
    # As this copy has them: the disk has the words that it leaves out too.
    shown = (context.job.get(e.id) for e in seal.after)
    return [
        f"{day_and_time(e.time)} {e.by}: {title_of(e, context.walk)}. {_words_after(e)}".rstrip()
        for e in shown
        if e is not None and (not seal.damage or e.order > seal.seal.order)
    ]


def _uncovered(context: SheetContext) -> list[str]:
    """What a broken seal no longer vouches for, though it was made before it."""
    seal = context.seal.seal
    before = sum(1 for e in context.seal.after if seal is not None and e.order < seal.order)
    return [f"{before} entries made before the seal are no longer covered by it"] if before else []


def _words_after(entry: Entry) -> str:
    """What an entry after the seal says; of a file only its name, for the file itself is listed."""
    if entry.kind != "attachment":
        return words_of(entry)
    return ", ".join(filter(None, (entry.text("file_title"), entry.note)))


def _short(words: list[str], context: SheetContext) -> Element:
    """The first of many; the events list them all, and the customer is not sent those."""
    shown: list[Child] = list(words[:_MOST_LISTED])
    if len(words) > _MOST_LISTED:
        rest = ": ask us for the whole list" if context.for_customer else ", in events.csv"
        shown.append(f"and {len(words) - _MOST_LISTED} more{rest}")
    return bullets(shown)


def _summary(context: SheetContext) -> Element:
    job = context.job
    who = said(job, "job", ("owner", "payer", "site", "well_name"))
    where = ", ".join(t for n in ("latitude", "longitude") if (t := job.text("job", n)))
    who.append(("Position", f"{where} (WGS 84)" if where else None))
    who += said(job, "permit", ("permit_number", "licence", "person_in_charge"))
    who += said(job, "job", ("access",))
    done: list[tuple[str, Child]] = [*said(job, "job", ("complaint",))]
    done += [("Cause", c) for _, c in said(job, "finding", ("cause",))]
    done += [("Found", e.text("finding")) for e in job.live("finding") if "cause" in e.values][-1:]
    done += [("Out", _moved(context, "out")), ("In", _moved(context, "in"))]
    done += _setting(job)
    done += [("Water", _levels(context)), ("State", _position_rows(context))]
    crews = [e.text("crew") for e in job.live("arrival") if e.text("crew")]
    done.append(("Crew", "; ".join(dict.fromkeys(crews))))
    summary = element(
        "div", element("h3", "Whose and where"), facts(who), element("h3", "In short"), facts(done)
    )
    return section("Summary", element("div", summary, _drawing(context), class_="drawn"))


def _setting(job: Job) -> list[tuple[str, Child]]:
    """How deep the pump was set; until the crew has agreed on that, how deep it is to be."""
    chosen, agreed = (job.value(kind, "setting_depth") for kind in ("setting", "depth"))
    if chosen is None:
        return []
    kind, depth = ("setting", chosen) if agreed is None else ("depth", agreed)
    label = "Setting planned" if agreed is None else definition("setting_depth").label
    datum = job.text(kind, "datum") or job.text("well", "datum") or "a datum not named"
    return [(label, f"{figure(depth)} below {datum}")]


def _drawing(context: SheetContext) -> Element:
    picture = picture_of(context)
    # The summary does not part from its drawing; under warnings a tall one would leave the page.
    height = SHORT if any(_warnings(context)) else TALL
    words = "as it hangs" if picture.hangs else "as it hung; nothing hangs in the well now"
    caption = f"To scale in depth, the string {words}."
    if context.seal.clashes:
        caption += " The logs disagree; a joint that two devices wrote is drawn as moved once."
    elif context.counts.problems and picture.hangs:
        caption += " The counts do not agree: it is drawn by the joints that are written."
    if context.look.now.visit:
        caption = "To scale in depth. The string was not lifted on this visit and is not drawn."
    elif not picture.parts:
        caption = "To scale in depth. What hangs is not known well enough to draw it."
    return element("figure", draw(picture, height), element("figcaption", caption))


def _moved(context: SheetContext, direction: str) -> str:
    counts = context.counts
    hose = counts.hose_out if direction == "out" else counts.hose_in
    if hose.feet is not None:
        return f"{hose.feet:,.0f} ft of hose"
    joints, feet = (
        (counts.out, counts.out_ft) if direction == "out" else (counts.into, counts.into_ft)
    )
    of = f" of {counts.joints}" if counts.joints is not None and direction == "out" else ""
    gaps = f"; {words}" if (words := counts.gaps(direction)) else ""
    return f"{joints.count}{of} joints, {feet:,.2f} ft{gaps}" if joints.count else ""


def _levels(context: SheetContext) -> str:
    job = context.job
    newest = {entry.text("level_state"): entry for entry in job.live("level")}
    levels = [f"{e.text('water_level')} {state}".strip() for state, e in newest.items()]
    datum = job.text("well", "datum")
    return f"{', '.join(levels)}, below {datum or 'a datum not named'}" if levels else ""


def _position_rows(context: SheetContext) -> str:
    if not context.walk.steps:
        return "the log does not say what the work is"
    if context.stand.current is None:
        if (later := len(context.stand.later)) and not context.for_customer:
            return f"done in turn; {later} things not filled in, named under Not recorded"
        return f"every step done, or skipped with its reason{_not_asked(context)}"
    phase = PHASES.get(context.stand.phase, "")
    step = f"{phase + ', ' if phase else ''}{context.stand.current.title}"
    if context.seal.seal is None:
        return f"under way: {step}"
    if context.seal.damage:
        return f"sealed, and damaged since: nothing that can be read shows this done: {step}"
    return f"sealed; nothing shows this done: {step}{_not_asked(context)}"


def _not_asked(context: SheetContext) -> str:
    """Steps the company asks for of which a sealed log says nothing: the office's to know."""
    titles = ", ".join(step.title for step in context.stand.not_asked)
    if not titles or context.for_customer:
        return ""
    return f"; of the company's own steps, added since the seal or not asked: {titles}"
