"""The limits that are printed on the form: never a figure where the book does not know one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Verdict
from fieldbook.quantities.convert import show
from fieldbook.walk.counts import counts
from fieldbook.watch.bands import band_words
from fieldbook.watch.lift.answer import first_words, stop_words
from fieldbook.watch.state.position import moving_in

if TYPE_CHECKING:
    from fieldbook.record.job import Job
    from fieldbook.watch.watcher import Look

NO_LIMITS = (
    ("Stop at, on the gauge", ""),
    ("Limit from", ""),
    ("Weakest link, what it may carry", ""),
    ("Hook load, line full", ""),
    ("Hook load, line drained", ""),
    ("Found by, with what", ""),
)
"""What must be found out and written down where no job says it: empty places."""


def limits_of(job: Job, look: Look) -> tuple[tuple[str, str], ...]:
    """Label and words of the limits as `look` saw `job`; `UNKNOWN` names what is missing."""
    lift, gauge = look.lift, look.readings
    stood = f"{job.entries[-1].time:%Y-%m-%d %H:%M}" if job.entries else "an empty log"
    where = (
        "pump out" if not look.now.hangs else counts(job).where("in" if moving_in(job) else "out")
    )
    found = [("As the job stood", f"{stood}, {where}"), ("Lift check", _verdict(look))]
    if look.now.has_load:
        found.append(("Stop at", stop_words(look)))
    check = lift.chain
    if check.allowable is not None and check.governs:
        share = f", {check.share:.0%} used" if check.share is not None else ""
        known = "of what is known: " if check.missing else ""
        weakest = f"{known}{check.governs}, may carry {show(check.allowable, 'lbf')}{share}"
    else:
        weakest = _unknown(check.missing)
    found.append(("Weakest link", weakest))
    if lift.loads is not None:
        found += [
            ("Hook load, line full", f"{show(lift.loads.full, 'lbf')}, {lift.loads.water}"),
            ("Hook load, line drained", f"{show(lift.loads.drained, 'lbf')}, {lift.loads.water}"),
        ]
    found += [
        ("Gauge should read, line full", band_words(gauge.expect_full)),
        ("Gauge should read, drained", band_words(gauge.expect_drained)),
    ]
    if look.now.outside is not None and gauge.expect_full is not None:
        found.append(("With", look.now.outside.words))
    return tuple(found)


def _verdict(look: Look) -> str:
    check = look.lift.check
    missing = f". Missing: {', '.join(check.missing)}" if len(check.missing) > 1 else ""
    bars = check.verdict in (Verdict.STOP, Verdict.UNKNOWN)
    return f"{first_words(look)}{missing}{'. Nothing is lifted on this' if bars else ''}"


def _unknown(missing: tuple[str, ...]) -> str:
    return f"can't say{': needs ' if missing else ''}{', '.join(missing)}"
