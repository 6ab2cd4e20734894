"""Where a job is, in a few words for the shelf; without the unit registry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.walk.counts import counts
from fieldbook.walk.definition.loading import load_for
from fieldbook.walk.definition.steps import PHASES, BadWalk

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.record.job import Job

_MOVING = {"pull": "out", "set": "in"}


def progress(job: Job, direction: str) -> tuple[str, str, str]:
    """What is out or in, of how much, and what is counted: ("12", "24", "joints")."""
    found = counts(job)
    hose = found.hose_out if direction == "out" else found.hose_in
    if job.text("job", "line") == "hose":
        feet = hose.feet if hose.feet is not None else 0.0
        return f"{feet:,.0f}", _of(found.whole_ft(direction)), "ft"
    joints = found.out if direction == "out" else found.into
    return str(joints.count), _of(found.whole_joints(direction)), "joints"


def _of(total: float | None) -> str:
    return "?" if total is None else f"{total:,.0f}"


def job_status(job: Job, company: Path | None = None) -> str:
    """Where the string of a job is, then the phase and step, then what is still to be filled in."""
    try:
        stand = load_for(job, company).stand(job)
    except BadWalk as problem:
        return str(problem)
    step = stand.current
    later = f"; {len(stand.later)} to fill in" if stand.later else ""
    if step is None:
        return f"every step is done{later}"
    words = f"{PHASES.get(step.phase, 'At once')}: {step.title}"
    if job.last("seal") is not None:
        return f"sealed; open: {words}{later}"
    direction = _MOVING.get(step.phase) or _moved(job)
    if direction:
        done, total, what = progress(job, direction)
        words = f"{done} of {total} {what} {direction}; {words}"
    return f"{words}{later}"


def _moved(job: Job) -> str:
    """Which way the string went last; empty where it was not moved."""
    found = counts(job)
    if found.into.count or found.hose_in.feet is not None:
        return "in"
    return "out" if found.out.count or found.hose_out.feet is not None else ""


def basis(company: Path | None) -> str:
    """What `standing` rests on besides the job: a company's own steps, as they are on disk now."""
    try:
        stats = [(path.name, path.stat()) for path in sorted(company.iterdir())] if company else []
    except OSError:
        return "steps that cannot be read"
    return ";".join(f"{name} {stat.st_size} {stat.st_mtime_ns}" for name, stat in stats)
