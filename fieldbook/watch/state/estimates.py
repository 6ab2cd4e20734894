"""Which figures of a job nobody measured or read: the estimates."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.record.entry import Origin

if TYPE_CHECKING:
    from fieldbook.record.job import Job


def estimates(job: Job, *kinds: str) -> list[str]:
    """What of those kinds is an estimate as the job is, by label."""
    found: dict[str, None] = {}
    for kind in kinds:
        said: dict[str, Origin] = {}
        for entry in job.live(kind):
            part = entry.text("place") if kind in ("piece", "redirect") else ""
            said |= {f"{part} {name}": value.origin for name, value in entry.values.items()}
        names = (key.partition(" ")[2] for key, of in said.items() if of is Origin.ESTIMATE)
        found |= {within(definition(name).label): None for name in names}
    return list(found)
