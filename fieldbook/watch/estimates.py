"""A check that leans on an estimate is no better than a caution, and says on which."""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from fieldbook.watch.state.estimates import estimates

if TYPE_CHECKING:
    from fieldbook.record.job import Job

_STRING = ("piece", "cable", "pump")
_PATH = ("rig", "redirect")
_LEANS_ON = MappingProxyType(
    {
        "lift": (*_STRING, *_PATH, "level"),
        "gauge": (*_PATH, "gauge", "piece"),
        "pressure": ("piece", "well", "pump", "level"),
        "pull in service": (*_STRING, "well", "level"),
        "setting": ("well", "setting", "level"),
    }
)
"""Check -> the kinds of entry it leans on; one too many makes a check more careful."""
_FEW = 3


def on_estimates(check: Check, job: Job) -> Check:
    """`check`, a caution where it is within and a figure that it leans on is an estimate."""
    names = estimates(job, *_LEANS_ON.get(check.name, ()))
    if check.verdict is not Verdict.WITHIN or not names:
        return check
    more = f" and {len(names) - _FEW} more" if len(names) > _FEW else ""
    note = f"estimated: {', '.join(names[:_FEW])}{more}"
    return replace(check, verdict=Verdict.CAUTION, note="; ".join(filter(None, (note, check.note))))
