"""Where the string is, in a line: what is out or in, and how deep the intake hangs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import magnitude
from fieldbook.app.shelf.job_status import progress
from fieldbook.quantities.convert import as_quantity, show
from fieldbook.walk.counts import counts
from fieldbook.watch.state.position import intake_depth, moving_in

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.walk.counts import Counts
    from fieldbook.walk.definition.steps import Step
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.watcher import Look

VISIT = "CHECK VISIT: nothing is lifted"
_GOING_IN = ("set", "start_up")
_AFTER_THE_SET = ("start_up", "close")


def direction_of(job: Job, step: Step | None) -> str:
    """Whether the string goes out or in: by the step on screen, else by what was moved last.

    Where nothing is to be pulled it only goes in.
    """
    if step is not None and step.phase in _GOING_IN:
        return "in"
    if moving_in(job) or job.text("job", "work") == "set":
        return "in"
    return "out"


def count_words(job: Job, direction: str) -> str:
    """How much is out or in, of how much, with its length: "IN 2 of 18 joints, 41.9 ft"."""
    done, total, what = progress(job, direction)
    return f"{direction.upper()} {done} of {total} {what}{_length(counts(job), direction)}"


def over_by(look: Look) -> str:
    """By how much the gauge, or the weakest link, is over: "OVER BY 220"; empty where none is."""
    for check in look.stopped_by:
        if check.demand is not None and check.allowable is not None:
            over = magnitude(check.demand - check.allowable, "lbf", "over")
            return f"OVER BY {over:,.0f}"
    return ""


def whereabouts(job: Job, look: Look, step: Step | None) -> str:
    """Count and intake, with what is missing where one is not known."""
    if look.now.visit:
        return _on_a_visit(job)
    direction = direction_of(job, step)
    words = [*filter(None, [over_by(look)]), count_words(job, direction)]
    datum = job.text("well", "datum")
    if not look.now.hangs:
        words.append(nothing_hangs(look.now))
        return "   ".join(words)
    depth, missing = intake_depth(job, look.now)
    if depth is not None:
        words.append(f"INTAKE {show(depth, 'ft', 1)} below {datum or 'a datum not named'}")
    else:
        more = f" and {len(missing) - 1} more" if len(missing) > 1 else ""
        words.append(f"INTAKE unknown: {missing[0]}{more}")
    return "   ".join(words)


def nothing_hangs(now: Moment) -> str:
    """That no string hangs: it came out, or it is planned and did not go in yet."""
    return "NOTHING HANGS yet" if now.planned else "PUMP OUT of the well"


def off_the_hook(now: Moment, step: Step | None) -> bool:
    """Whether the string was landed and the walk has left the set: the head carries it."""
    return now.landed and (step is None or step.phase in _AFTER_THE_SET)


def by_the_record(job: Job) -> tuple[Quantity | None, str]:
    """How deep the intake hangs by the last record, and its datum: a visit describes no string."""
    depth = job.value("prior", "setting_depth")
    datum = job.text("prior", "datum") or "a datum not named"
    return as_quantity(depth) if depth is not None else None, datum


def _on_a_visit(job: Job) -> str:
    depth, datum = by_the_record(job)
    if depth is None:
        return VISIT
    return f"{VISIT}   INTAKE {show(depth, 'ft', 1)} below {datum}, as set"


_NONE_LEFT_FT = 0.5
"""Less than this to go is shown as none."""


def reel_words(job: Job, direction: str, *, more: bool) -> str:
    """The reel: its counter, the correction of the last mark, what is out or in, what is to go.

    Args:
        job: The job.
        direction: "out" or "in".
        more: Whether the step goes on until somebody says that it is done.
    """
    found = counts(job)
    hose = found.hose_out if direction == "out" else found.hose_in
    whole, gone = found.whole_ft(direction), hose.feet if hose.feet is not None else 0.0
    left = max(whole - gone, 0.0) if whole is not None else None
    to_go = f"{left:,.0f} ft to go" if left is not None else "to go: ?"
    if more and left is not None and left < _NONE_LEFT_FT:
        to_go += "; no more of it: Esc, then d"
    if hose.counted_ft is None or hose.feet is None:
        return f"Reel not read yet, {to_go}"
    mark = "no mark yet"
    if hose.off_ft is not None:
        mark = f"correction {hose.off_ft:+z,.1f} ft by mark"
    counter = f"Reel {hose.counted_ft:,.1f} ft, {mark}"
    return f"{counter}: {hose.feet:,.1f} ft {direction}, {to_go}"


def _length(found: Counts, direction: str) -> str:
    feet = found.out_ft if direction == "out" else found.into_ft
    return f", {feet:,.1f} ft" if feet else ""
