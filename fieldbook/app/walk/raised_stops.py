"""The stops that an entry raised, shown where it was saved: which, by how much, what is next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.walk.states import StepState
from fieldbook.walk.withheld import NEVER_PASSED, WAY_OUT
from fieldbook.watch.gauge.gauge_check import NAME as GAUGE
from fieldbook.watch.lift.verdict import is_read
from fieldbook.watch.text import in_words, limit_words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.check import Check
    from fieldbook.app.session import Session
    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.stand import WalkStatus

_MEASURED = frozenset({"supply", "amps", "windings", "insulation"})
"""The checks whose figure an instrument showed: no fact of the job card mends it."""
_MEASURING = "meter"


def raised_words(checks: Iterable[Check], stand: WalkStatus) -> str:
    """A line for each check that says stop since the entry."""
    stops = tuple(checks)
    by_gauge = any(check.name == GAUGE for check in stops)
    shown = [check for check in stops if not (by_gauge and is_read(check))]  # once is enough
    return "\n".join(f"STOP: {_limit(check)}. {_next(check, stand)}" for check in shown)


def reopened_words(session: Session) -> list[str]:
    """A line for each hold whose yes the newest entry takes back."""
    newest = session.job.entries[-1]
    return [
        f"HOLD: {session.walk.step(name).title} waits again. {found.words}"
        for name, found in session.stand.taken_back.items()
        if found.entry is newest
    ]


def _limit(check: Check) -> str:
    if check.demand is None or check.allowable is None:
        return ", ".join(filter(None, (check.name, check.governs)))
    # What governs may begin with the figure that is judged: once is enough.
    seen = in_words(check.allowable if check.at_least else check.demand)
    if check.governs.startswith(seen):
        words = f"{check.name} {check.governs}"
        return f"{words}: at least {in_words(check.demand)} asked" if check.at_least else words
    return ", ".join(filter(None, (f"{check.name} {limit_words(check)}", check.governs)))


def _next(check: Check, stand: WalkStatus) -> str:
    """What is done about it, and who may go on without that, at which hold."""
    if check.name in NEVER_PASSED:
        return f"Nothing is lifted until cleared: {WAY_OUT} (Esc, c)"
    measured = _measured_at(check, stand)
    change = "Change what is wrong: Esc, c"
    if measured is not None:
        change = f'Measure again at "{measured.title}" (Esc, w), or replace what is bad'
    hold = next((h for h in stand.open_holds if check.name in h.checks), None)
    # A hold that measures for itself, of another splice or motor, is no place to pass this one.
    elsewhere = hold is not None and hold.records == _MEASURING and hold != measured
    if hold is None or not hold.release or elsewhere:
        return change
    return f'{change}. Else {" or ".join(hold.release)} goes ahead by name at "{hold.title}"'


def _measured_at(check: Check, stand: WalkStatus) -> Step | None:
    """The step whose instrument said it last; None where it follows from what is described."""
    if check.name not in _MEASURED:
        return None
    measuring = (s for s in stand.steps if s.records == _MEASURING and check.name in s.checks)
    said = [s for s in measuring if _is_written(s, stand)]
    return said[-1] if said else None


def _is_written(step: Step, stand: WalkStatus) -> bool:
    state = stand.states.get(step.id, StepState.TO_DO)
    if state is StepState.HELD:
        return step.id not in stand.without_figures
    return state in (StepState.UNDER_WAY, StepState.DONE, StepState.NOT_WITNESSED)
