"""The regulator's facts as a part of the sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.office.filing.filing import CHECK_THE_RULE, Answered, Filing
from fieldbook.office.sheet.markup import Child, element
from fieldbook.office.sheet.parts import bullets, facts, notice, section

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

    from fieldbook.office.sheet.seal_status import SealStatus


def filing_part(filing: Filing, stand: SealStatus) -> Element:
    """Who files by when, what is missing by name, and each fact in words.

    Args:
        filing: The facts.
        stand: Of the job's record: facts out of one that is damaged, or disagrees, say so.
    """
    place = filing.locality
    title = "Facts for a record to file" if place is None else f"Record to file: {place.name}"
    head = None
    if place is not None:
        own = " The list was changed by the company." if place.own else ""
        head = facts(
            [
                ("Due", element("strong", filing.due_words)),
                ("Who files", place.files),
                ("Rule", f"{place.source}.{own}"),
                ("The crew wrote", filing.crew_words),
            ]
        )
    doubt = None
    if stand.damage or stand.clashes:
        words = "damaged" if stand.damage else "at odds with itself"
        notice_words = (
            f"The record is {words}, see the first page: these facts are what can still be read."
        )
        doubt = notice("NOT WHOLE", element("p", notice_words))
    lacking = notice("MISSING", element("p", ", ".join(filing.missing))) if filing.missing else None
    also = bullets(place.also) if place is not None and place.also else None
    answered = element("div", facts((a.fact.label, _words(a.how, a.words)) for a in filing.answers))
    answered.set("class", "columns")
    rule = element("p", element("small", CHECK_THE_RULE))
    # What one place asks for goes out on a page of its own, and is not torn over two.
    kept = "part" if place is None else "part whole"
    return section(title, head, doubt, lacking, answered, also, rule, class_=kept)


def _words(how: Answered, words: str) -> Child:
    return element("strong", words) if how is Answered.MISSING else words
