"""The whole job as one JSON document: what was recorded, and what the book makes of it.

`everything.schema.json` describes the document, key by key, and refuses whatever is not one.
"""

from __future__ import annotations

from dataclasses import asdict
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from fieldbook.office.export.bill import bill
from fieldbook.office.filing.filing import filing
from fieldbook.quantities.definition import definitions
from fieldbook.quantities.safety import SAFETY
from fieldbook.record.codec import to_document
from fieldbook.store.log.seal import seal_hash
from fieldbook.watch.document import look_document

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.office.filing.localities import Locality
    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.job import Job

FORMAT = "fieldbook job 1"
SCHEMA = "everything.schema.json"


def schema_text() -> str:
    """The JSON Schema (draft 2020-12) of the document, as it is written beside it."""
    return (files(__package__) / SCHEMA).read_text(encoding="utf-8")


def everything(
    context: SheetContext, heads: Mapping[str, str], locality: Locality | None = None
) -> dict[str, Any]:
    """Every entry, struck ones marked, with what walk, checks, bill and record to file say.

    Args:
        context: The job, as the office sees it.
        heads: File name -> hash of its last line.
        locality: The place whose record is to be filed; None for every fact there is.
    """
    job, seal = context.job, context.seal
    seals = [*seal.earlier, *([seal.seal] if seal.seal is not None else [])]
    return {
        "format": FORMAT,
        "schema": SCHEMA,
        "job": job.text("job", "job_number"),
        "heads": dict(heads),
        "entries": [to_document(entry) for entry in job.entries],
        "struck": {
            entry.id: [striker.id for striker in job.struck_by(entry)]
            for entry in job.entries
            if not job.is_live(entry)
        },
        "seals": [
            {
                "id": entry.id,
                "by": entry.by,
                "time": entry.time.isoformat(timespec="seconds"),
                "hash": seal_hash(entry),
            }
            for entry in seals
        ],
        "after_seal": [entry.id for entry in seal.after],
        "damage": [problem.document() for problem in seal.damage],
        "clashes": list(seal.clashes),
        "clock_jumps": [[before.id, after.id] for before, after in job.clock_jumps()],
        "walk": _walk(context),
        "watch": look_document(context.look),
        "bill": [asdict(line) for line in bill(job)],
        "filing": filing(context, locality).document(),
        "quantities": _quantities(job),
        "safety": list(SAFETY),
    }


def _walk(context: SheetContext) -> dict[str, Any]:
    stand = context.stand
    return {
        "line": context.walk.line,
        "work": context.walk.work,
        "current": stand.current.id if stand.current is not None else None,
        "states": {name: state.value for name, state in stand.states.items()},
        "open_holds": [step.id for step in stand.open_holds],
        "passed_by_name": [step.id for step in stand.passed_by_name],
        "unwitnessed": stand.unwitnessed,
        "not_told": [step.id for step in stand.not_asked],
    }


def _quantities(job: Job) -> dict[str, Any]:
    """What each quantity that the entries speak of is, so that the document explains itself."""
    spoken = {name for entry in job.entries for name in entry.values}
    return {
        name: {"label": d.label, "dimension": d.dimension, "unit": d.unit, "meaning": d.meaning}
        for name, d in definitions().items()
        if name in spoken
    }
