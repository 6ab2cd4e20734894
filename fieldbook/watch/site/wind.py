"""Wind at the mast, as it was last written, against the wind at which the rig stops work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, judge
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

NAME = "wind"
_CAUTION = 0.8  # of the limit: gusts pass what was read; ours, no published source


def wind(job: Job) -> Check | None:
    """The newest wind that was written; None before there is one, and where no rig is set up."""
    written = _newest(job)
    if written is None or job.text("job", "work") == "check":
        return None
    facts = Facts(job)
    limit = facts.need("rig", "wind_limit")
    blows = of_entry(written, "wind")
    return judge(
        NAME,
        blows.to("mph") if blows is not None else None,
        limit.to("mph") if limit is not None else None,
        unit="mph",
        caution_share=_CAUTION,
        governs="the rig's wind limit",
        missing=facts.missing,
        formula="wind at the mast / wind at which the rig stops work",
        source="the rig's maker or the company's rule",
        note="over it, or thunder in hearing: string held low, mast or boom made safe",
    )


def _newest(job: Job) -> Entry | None:
    said = (entry for kind in ("arrival", "resume") for entry in job.live(kind))
    return max((e for e in said if "wind" in e.values), key=lambda e: e.order, default=None)
