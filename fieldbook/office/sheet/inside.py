"""What of a job is the company's own affair, and is left out of the customer's copy."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_MAY_BE_INSIDE = frozenset({"note", "finding", "follow_up", "material", "attachment"})
_OFFICE_ONLY = ("access",)
"""Quantities that no customer's copy has: how a site is entered, gate codes and dogs."""

DESCRIBES = frozenset({
    "job", "well", "prior", "permit", "rig", "gauge", "limit", "piece", "cable", "pump",
    "curve_point", "line_choice", "hose_sheet", "rack", "done",
})  # fmt: skip
"""Kinds of entry that say how something is; words written beside one stand with the notes."""


def is_inside(entry: Entry) -> bool:
    """Whether an entry is marked as the company's own affair and not the customer's.

    A note is, unless it is marked for the customer; a finding, a follow-up, a material or an
    attachment is only when it is marked not to be for the customer. That a string is lost never is.
    """
    if entry.kind not in _MAY_BE_INSIDE or "string_state" in entry.values:
        return False
    for_customer = entry.text("for_customer")
    return for_customer != "yes" if entry.kind == "note" else for_customer == "no"


def inside_of(job: Job) -> dict[str, Entry]:
    """Id -> entry of all that is inside: what is marked so, what answers it, what only strikes it.

    An answer belongs to what it answers, also where that was marked inside by a correction later.
    """
    marked = {entry.id: entry for entry in job.entries if is_inside(entry)}
    matters = set(marked)
    matters |= {e.strikes for e in marked.values() if e.strikes is not None and job.is_live(e)}
    inside = dict(marked)
    for entry in job.entries:
        if entry.kind == "answer" and entry.text("answers") in matters:
            inside[entry.id] = entry
    # In the order of the log, so that a strike of a strike comes after the one that it strikes.
    for entry in job.entries:
        if entry.kind == "strike" and entry.strikes in inside:
            inside[entry.id] = entry
    return inside


def without_inside(job: Job, inside: dict[str, Entry]) -> Iterator[Entry]:
    """The entries of the customer's copy.

    What is struck in the log is struck in every copy. So an entry that is inside and strikes one
    that is shown, or decides by other strikes whether that one is struck, stays as a bare strike:
    who and when, and no words.
    """
    counts: set[str] = set()
    for entry in job.entries:
        if entry.id not in inside:
            counts.add(entry.id)
            yield _for_the_customer(entry)
        elif entry.strikes in counts:
            counts.add(entry.id)
            yield entry._replace(kind="strike", values={}, note="")


def _for_the_customer(entry: Entry) -> Entry:
    if entry.kind not in DESCRIBES:
        return entry
    values = {name: value for name, value in entry.values.items() if name not in _OFFICE_ONLY}
    return entry._replace(note="", values=values)
