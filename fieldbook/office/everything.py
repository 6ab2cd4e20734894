"""The whole job as one JSON document: what was recorded, and what the book makes of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fieldbook.quantities.safety import SAFETY
from fieldbook.record.codec import to_document
from fieldbook.store.seal import seal_hash
from fieldbook.watch.document import look_document
from fieldbook.watch.watcher import Watcher

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.record.job import Job

FORMAT = "fieldbook job 1"


def everything(job: Job, heads: Mapping[str, str]) -> dict[str, Any]:
    """Every entry, struck ones marked, the live checks, each seal, the last hash of each log.

    Args:
        job: The job.
        heads: File name -> hash of its last line.
    """
    struck = {
        entry.id: [striker.id for striker in job.struck_by(entry)]
        for entry in job.entries
        if not job.is_live(entry)
    }
    return {
        "format": FORMAT,
        "job": job.text("job", "job_number"),
        "heads": dict(heads),
        "entries": [to_document(entry) for entry in job.entries],
        "struck": struck,
        "seals": [
            {
                "id": seal.id,
                "by": seal.by,
                "time": seal.time.isoformat(timespec="seconds"),
                "hash": seal_hash(seal),
                "after": [entry.id for entry in job.entries if entry.order > seal.order],
            }
            for seal in job.live("seal")
        ],
        "clock_jumps": [[before.id, after.id] for before, after in job.clock_jumps()],
        "watch": look_document(Watcher(job).look()),
        "safety": list(SAFETY),
    }
