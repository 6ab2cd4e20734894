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
    from fieldbook.office.sheet.context import Account


def sheet(account: Account, locality: Locality | None = None) -> str:
    """The sheet as HTML; every word from the log is text in it, and nothing else.

    Args:
        account: The job, told for the office or for the customer.
        locality: The place whose record is to be filed; without one the office's copy has every
            fact that any place asks for.
    """
    title = title_words(account)
    style = (files(__package__) / "sheet.css").read_text(encoding="utf-8")
    return page(
        title, f"{style}\n{_running_foot(account)}", [element("main", *_body(account, locality))]
    )


def _running_foot(account: Account) -> str:
    """The foot of every printed page: whose it is, whether it is sealed, and its number."""
    stand = account.seal
    seal = "NOT SEALED" if stand.seal is None else "SEALED, AND DAMAGED SINCE"
    if stand.holds:
        seal = f"seal {stand.hash[:16]}"
    return (
        f"@page {{ @bottom-left {{ content: {css_text(title_words(account)[:70])}; }}"
        f" @bottom-center {{ content: {css_text(seal)}; }} }}"
    )


def _body(account: Account, locality: Locality | None) -> list[Child]:
    return [
        *front(account),
        record_parts.findings(account),
        _trace(account),
        record_parts.tally(account, "out"),
        record_parts.tally(account, "in"),
        record_parts.depth(account),
        record_parts.tests(account),
        record_parts.well(account),
        *record_parts.strings(account),
        record_parts.checks(account),
        record_parts.rig(account),
        record_parts.bill_part(account),
        answers.holds(account),
        answers.stops(account),
        answers.passed_over(account),
        answers.changes_of_hands(account),
        answers.strikes(account),
        answers.notes(account),
        attachments_part(account),
        *_end(account, locality),
    ]


def _end(account: Account, locality: Locality | None) -> list[Child]:
    """The record to file, the signatures and the foot.

    What one place asks for and its signatures keep to one page, so that neither goes out alone.
    """
    wanted = locality is not None or not account.for_customer
    filed = filing_part(filing(account, locality), account.seal) if wanted else None
    end = [filed, answers.signatures(account), _foot(account)]
    return [element("div", *end, class_="whole")] if locality is not None else [*end]


def _trace(account: Account) -> Element | None:
    if account.look.now.visit:
        return None  # nothing is lifted
    drawn = plot(account.trace)
    lacking = record_parts.missing(account)
    if drawn is None and lacking is None:
        return None
    caption = element("figcaption", "What the gauge should show, and what was read.")
    figure = element("figure", drawn, caption) if drawn is not None else None
    return section("Trace of the gauge", _pull(account), figure, *_telling(account), lacking)


def _pull(account: Account) -> Element | None:
    """The trace of the pull, where the other one is of the set."""
    drawn = plot(account.pull_trace) if account.pull_trace is not None else None
    words = "The string that was found, as it came out; below, the one that was set."
    return element("figure", drawn, element("figcaption", words)) if drawn is not None else None


def _telling(account: Account) -> list[Child]:
    """What explains the readings, while something hangs on the gauge."""
    now = account.look.now
    if not now.hangs:
        return []
    if now.landed:
        return [element("p", "The last reading was taken with the string landed, off the gauge.")]
    return [element("h3", "What it tells"), bullets(account.look.telling.lines())]


def _foot(account: Account) -> Element:
    left_out = None
    if account.inside is not None:
        entries = {0: "nothing", 1: "1 entry"}.get(account.inside, f"{account.inside} entries")
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
