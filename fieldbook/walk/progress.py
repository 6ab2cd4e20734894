"""How far the phases of a walk are, and what of them waits on the list for later."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.walk.definition.record_now import wanted
from fieldbook.walk.definition.steps import PHASES, Step
from fieldbook.walk.states import StepState, says

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from fieldbook.record.entry import Entry


@dataclass(frozen=True, slots=True)
class Progress:
    """How far one phase is.

    Attributes:
        phase: Its key.
        label: What a screen calls it.
        done: Steps done or passed.
        total: Steps that are done in turn on this job as it is.
        waiting: Open steps of it that wait on the list for later.
    """

    phase: str
    label: str
    done: int
    total: int
    waiting: int = 0


def progress(
    steps: Sequence[Step], active: Sequence[Step], states: Mapping[str, StepState]
) -> tuple[Progress, ...]:
    """How far each phase is of which something is done in turn."""
    used = {step.phase for step in steps if not step.waits}
    in_turn = [step for step in active if not step.waits]
    total = Counter(step.phase for step in in_turn)
    done = Counter(step.phase for step in in_turn if not states[step.id].is_open)
    waiting = Counter(step.phase for step in active if step.waits and states[step.id].is_open)
    return tuple(
        Progress(phase, label, done[phase], total[phase], waiting[phase])
        for phase, label in PHASES.items()
        if phase in used
    )


def later(
    active: Sequence[Step], written: Mapping[str, Sequence[Entry]], states: Mapping[str, StepState]
) -> tuple[Step, ...]:
    """The steps that wait and are open, or leave blank what the office asks, most wanted first."""
    listed = set(wanted())
    found = []
    for step in active:
        rows = [entry for entry in written[step.id] if entry.kind == step.records]
        if not step.waits or (step.repeat == "as needed" and step.id not in listed):
            continue
        if states[step.id].is_open or (rows and not says(step.wanted, rows)):
            found.append(step)
    return tuple(sorted(found, key=lambda step: step.turn))
