"""How far one step is, from the entries that were written for it."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from fieldbook.record.entry import Origin
from fieldbook.walk.entry.from_paper import is_afterwards
from fieldbook.walk.hold_check import needed, not_excused
from fieldbook.walk.release import refusals, relied

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.walk.definition.steps import Step


class StepState(StrEnum):
    """How far a step is."""

    TO_DO = "to do"
    UNDER_WAY = "under way"
    HELD = "held"
    DONE = "done"
    PASSED_OVER = "passed over"
    PASSED_BY_NAME = "passed by name"
    NOT_WITNESSED = "not witnessed"

    @property
    def words(self) -> str:
        """What people read; logs and files keep the value."""
        return _WORDS.get(self, self.value)

    @property
    def is_open(self) -> bool:
        """Whether the step still has to be done."""
        return self in (StepState.TO_DO, StepState.UNDER_WAY, StepState.HELD)


_WORDS = {
    StepState.PASSED_OVER: "skipped",
    StepState.PASSED_BY_NAME: "skipped by name",
}


def state_of(step: Step, written: Sequence[Entry], holder: str = "") -> StepState:
    """The state of a step.

    Args:
        step: The step.
        written: The live entries that count for it, in the order of the log.
        holder: Initials on the hold that `same_person` names.
    """
    if not written:
        return StepState.HELD if step.hold is not None else StepState.TO_DO
    rows = [entry for entry in written if entry.kind == step.records]
    finish = _finish(step, written, rows, holder)
    passing = _passing(step, written)
    if passing is not None and (finish is None or finish.order < passing.order):
        return StepState.PASSED_BY_NAME if step.hold is not None else StepState.PASSED_OVER
    if finish is not None:
        return StepState.NOT_WITNESSED if unwitnessed(step, written, finish) else StepState.DONE
    if step.hold is not None and not (step.each_entry_is_the_yes and rows):
        return StepState.HELD
    return StepState.UNDER_WAY if rows else StepState.TO_DO


def _finish(
    step: Step, written: Sequence[Entry], rows: Sequence[Entry], holder: str
) -> Entry | None:
    """The entry that finished the step."""
    if step.repeat:
        if step.each_entry_is_the_yes and not rows:
            return None
        return _newest(written, "done")
    if step.hold is not None:
        if step.must and not says_what_it_must(step, rows):
            return None
        hold = releasing(step, written, holder)
        # A release given on figures that were written again since does not count.
        anew = hold and step.records != "done" and rows and rows[-1].order > hold.order
        return None if anew else hold
    if step.page and (ticked := _newest(written, "done")) is not None:
        return ticked
    return rows[-1] if rows and says_what_it_must(step, rows) else None


def releasing(step: Step, written: Sequence[Entry], holder: str = "") -> Entry | None:
    """The newest entry that releases the hold of `step`; None where it holds nothing."""
    if step.hold is None:
        return None
    holds = (entry for entry in reversed(written) if entry.kind == "hold")
    return next((hold for hold in holds if not refusals(step, hold, holder=holder)), None)


def unwitnessed(step: Step, written: Sequence[Entry], finish: Entry | None) -> list[Entry]:
    """The entries that release the hold of `step` and were made afterwards.

    Args:
        step: The step.
        written: The live entries that count for it.
        finish: The entry that released it, where it is released by one.
    """
    if step.hold is None:
        return []
    if step.each_entry_is_the_yes:
        return [entry for entry in written if entry.kind == step.records and is_afterwards(entry)]
    return [finish] if finish is not None and is_afterwards(finish) else []


def _passing(step: Step, written: Sequence[Entry]) -> Entry | None:
    """The entry that passed the step over; a hold is passed only with what is relied on."""
    entry = _newest(written, "passed_over")
    return entry if entry is None or step.hold is None or relied(entry) else None


def says_what_it_must(step: Step, rows: Sequence[Entry]) -> bool:
    """Whether the entries say all that the step must have, or give a reason for what is missing."""
    return bool(rows) and says(step.must, rows)


def says(names: Iterable[str], rows: Sequence[Entry]) -> bool:
    """Whether the entries say all of `names`, or give a reason for what is missing."""
    said = {name for entry in rows for name in entry.values}
    return said.issuperset(names) or "reason" in said


def lacking(step: Step, rows: Sequence[Entry]) -> tuple[str, ...]:
    """The figures that come before a new yes to the hold of `step`, and are not there.

    More is asked of a new yes than of one that is recorded already: what refutes a hold is needed.
    """
    measured = needed(step)  # a figure that a hold hangs on is measured, never estimated
    said = {
        name
        for entry in rows
        for name, value in entry.values.items()
        if not (name in measured and value.origin is Origin.ESTIMATE)
    }
    names = dict.fromkeys((*step.must, *measured))
    if rows and "reason" in said:
        return tuple(name for name in names if name in not_excused(step) and name not in said)
    return tuple(name for name in names if name not in said)


def _newest(written: Sequence[Entry], kind: str) -> Entry | None:
    return next((entry for entry in reversed(written) if entry.kind == kind), None)
