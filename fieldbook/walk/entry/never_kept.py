"""What nobody may record as things are, whoever is sure of it: for a form, a dialog and `enter`."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.figures import figure
from fieldbook.walk.release import same, text_of

if TYPE_CHECKING:
    from fieldbook.record.entry import Draft
    from fieldbook.record.job import Job

_READ_ON_THE_GAUGE = ("gauge_reading", "load_before", "load_after")
_TINY = 1e-9  # of a figure: what a conversion may be off


def never_kept(draft: Draft, job: Job) -> dict[str, str]:
    """Why `draft` is not taken, by the quantity that is wrong; empty where it is.

    A gauge shows nothing past its capacity, so a reading that is more was typed wrong. A witness
    is somebody else than who writes.
    """
    found = {}
    capacity = job.value("gauge", "gauge_capacity")
    for name in _READ_ON_THE_GAUGE:
        if capacity is not None and name in draft.values:
            from fieldbook.quantities.convert import number_in  # noqa: PLC0415 - loads pint

            most = number_in(capacity, "lbf")
            if number_in(draft.values[name], "lbf") > most * (1.0 + _TINY):
                end = figure(capacity, "gauge_capacity")
                found[name] = f"the gauge ends at {end}: read it again; at its stop type {end}"
    if (second := text_of(draft, "witness")) and same(second, draft.by):
        found["witness"] = "the witness is a second person: other initials"
    return found
