"""The sample jobs in memory, without a shelf."""

from __future__ import annotations

import datetime as dt

from fieldbook.office.samples import sample_lines
from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Entry
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job


def sample_job(name: str, *, upto: str = "") -> Job:
    """A sample job to its end, or up to the first entry for the step `upto`."""
    job = Job()
    for seq, document in enumerate(sample_lines(name, complete=True), 1):
        time = dt.datetime.fromisoformat(document.pop("at"))
        draft = draft_from(document)
        step = draft.values.get("step")
        if upto and step is not None and step.text == upto:
            return job
        job.add(
            Entry(
                id=new_id(time),
                seq=seq,
                time=time,
                by=draft.by,
                device="d-sample00",
                kind=draft.kind,
                values=draft.values,
                note=draft.note,
                strikes=draft.strikes,
            )
        )
    return job
