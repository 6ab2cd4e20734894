"""What is beside the words of a step: how things were left, and what earlier jobs remember."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.promised import promised
from fieldbook.walk.entry.recall import recalled
from fieldbook.walk.suspension import as_left
from fieldbook.watch.bands import band_words

if TYPE_CHECKING:
    from fieldbook.app.session import Session
    from fieldbook.walk.definition.steps import Step

_COMPARED = ("prior", "pump_out", "level", "meter", "duty")
"""Kinds whose steps find out what may differ from the last visit."""


def aside_of(step: Step, session: Session) -> str:
    """What to compare at a step; empty where there is nothing."""
    if left := as_left(step, session.job):
        return left
    if (tell := _BY_KIND.get(step.records) or _BY_STEP.get(step.id)) is not None:
        return tell(session)
    memory = session.memory
    if memory is None:
        return ""
    if recalled(step, session.job, memory):
        return f"Filled in {memory.words}: look at each, save what still holds."
    if step.records not in _COMPARED:
        return ""
    found = session.differences()
    more = f"; {len(found) - 2} more (s)" if len(found) > 2 else ""
    return f"Against the last visit: {'; '.join(found[:2])}{more}" if found else ""


def _owed_already(session: Session) -> str:
    """What sample and licence promised, so that nobody writes it a second time."""
    found = [p for p in promised(session.job) if p.kind != "follow_up"]
    owed = [f"{p.words} ({f'by {p.due}' if p.due else 'no day named'})" for p in found]
    return f"Owed already: {'; '.join(owed)}." if owed else ""


def _when_empty(session: Session) -> str:
    """What the gauge comes down to when the line lets its water go."""
    look = session.look()
    empty = look.readings.expect_drained
    if look.draining.leaves_empty or empty is None:
        return ""
    return f"Once it is empty the gauge should show {band_words(empty)}."


def _still_open(session: Session) -> str:
    """How many steps before the last look are open, which come first, and the key to all."""
    stand = session.stand
    ids = [step.id for step in stand.steps]
    before = stand.steps[: ids.index(_LAST_LOOK)]
    found = [step.title for step in before if stand.states[step.id].is_open]
    if not found:
        return "Open before this: no step (all steps: Esc, w)."
    more = f", {len(found) - 2} more" if len(found) > 2 else ""
    many = "1 step" if len(found) == 1 else f"{len(found)} steps"
    return f"Open before this: {many} (all steps: Esc, w): {', '.join(found[:2])}{more}."


_LAST_LOOK = "close.open_points"
"""The step at which nothing may be left blank."""
_BY_STEP = {_LAST_LOOK: _still_open}
"""What a step shows that makes no entry of its own kind."""
_BY_KIND = {"drain": _when_empty, "follow_up": _owed_already}
"""What a step shows, by the kind of entry that it makes."""
