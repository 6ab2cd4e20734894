"""The sheet of a job: one HTML page that needs nothing but itself and prints on letter and A4."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from fieldbook.office.filing.filing import filing
from fieldbook.office.sheet import answers, record_parts
from fieldbook.office.sheet.attached import attachments_part
from fieldbook.office.sheet.filing_part import filing_part
from fieldbook.office.sheet.front import front, title_words
from fieldbook.office.sheet.markup import Child, css_text, element, page
from fieldbook.office.sheet.parts import bullets, section
from fieldbook.office.sheet.plot import plot
from fieldbook.quantities.safety import SAFETY

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

    from fieldbook.office.filing.localities import Locality
    from fieldbook.office.sheet.context import SheetContext


def sheet(context: SheetContext, locality: Locality | None = None) -> str:
    """The sheet as HTML; every word from the log is text in it, and nothing else.

    Args:
        context: The job, for the office or for the customer.
        locality: The place whose record is to be filed; without one the office's copy has every
            fact that any place asks for.
    """
    title = title_words(context)
    style = (files(__package__) / "sheet.css").read_text(encoding="utf-8")
    return page(
        title, f"{style}\n{_running_foot(context)}", [element("main", *_body(context, locality))]
    )


def _running_foot(context: SheetContext) -> str:
    """The foot of every printed page: whose it is, whether it is sealed, and its number."""
    stand = context.seal
    seal = "NOT SEALED" if stand.seal is None else "SEALED, AND DAMAGED SINCE"
    if stand.holds:
        seal = f"seal {stand.hash[:16]}"
    return (
        f"@page {{ @bottom-left {{ content: {css_text(title_words(context)[:70])}; }}"
        f" @bottom-center {{ content: {css_text(seal)}; }} }}"
    )


def _body(context: SheetContext, locality: Locality | None) -> list[Child]:
    return [
        *front(context),
        record_parts.findings(context),
        _trace(context),
        record_parts.tally(context, "out"),
        record_parts.tally(context, "in"),
        record_parts.depth(context),
        record_parts.tests(context),
        record_parts.well(context),
        *record_parts.strings(context),
        record_parts.checks(context),
        record_parts.rig(context),
        record_parts.bill_part(context),
        answers.holds(context),
        answers.stops(context),
        answers.ticked(context),
        answers.passed_over(context),
        answers.not_recorded(context),
        answers.changes_of_hands(context),
        answers.strikes(context),
        answers.notes(context),
        attachments_part(context),
        *_end(context, locality),
    ]


def _end(context: SheetContext, locality: Locality | None) -> list[Child]:
    """The record to file, the signatures and the foot.

    What one place asks for and its signatures keep to one page, so that neither goes out alone.
    """
    wanted = locality is not None or not context.for_customer
    filed = filing_part(filing(context, locality), context.seal) if wanted else None
    end = [filed, answers.signatures(context), _foot(context)]
    return [element("div", *end, class_="whole")] if locality is not None else [*end]


def _trace(context: SheetContext) -> Element | None:
    if context.look.now.visit:
        return None  # nothing is lifted
    drawn = plot(context.trace)
    lacking = record_parts.missing(context)
    if drawn is None and lacking is None:
        return None
    caption = element("figcaption", "What the gauge should show, and what was read.")
    figure = element("figure", drawn, caption) if drawn is not None else None
    return section("Trace of the gauge", _pull(context), figure, *_telling(context), lacking)


def _pull(context: SheetContext) -> Element | None:
    """The trace of the pull, where the other one is of the set."""
    drawn = plot(context.pull_trace) if context.pull_trace is not None else None
    words = "The string that was found, as it came out; below, the one that was set."
    return element("figure", drawn, element("figcaption", words)) if drawn is not None else None


def _telling(context: SheetContext) -> list[Child]:
    """What explains the readings, while something hangs on the gauge."""
    now = context.look.now
    if not now.hangs:
        return []
    if now.landed:
        return [element("p", "The last reading was taken with the string landed, off the gauge.")]
    return [element("h3", "What it tells"), bullets(context.look.telling.lines())]


def _foot(context: SheetContext) -> Element:
    left_out = None
    if context.inside is not None:
        entries = {0: "nothing", 1: "1 entry"}.get(context.inside, f"{context.inside} entries")
        words = f"Customer's copy. Left out, as the company's own notes: {entries}."
        left_out = element("p", words)
    return element(
        "footer",
        *(element("p", words) for words in SAFETY),
        left_out,
        element(
            "p",
            "Times are by the clocks of the devices. Figures stand as they were typed; where no"
            " word stands beside a figure, the crew measured or stated it.",
        ),
    )
