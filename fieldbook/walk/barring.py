"""What keeps a step from being done: a stop, and hold points not released."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.walk.moves import MOVES

if TYPE_CHECKING:
    from collections.abc import Collection

    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.stand import WalkStatus

_LIFTS = MOVES | {"load", "done"}
"""Kinds whose steps lift, or say that all is ready for it; the others only describe or measure."""


def stopped(step: Step, stops: Collection[str]) -> bool:
    """Whether checks that say stop, by name, keep `step` from being done.

    The steps that change rig, gauge, limit or level stay open: they are the way out.
    """
    return step.records in _LIFTS and bool(barred_by(step, stops))


def barred_by(step: Step, stops: Collection[str]) -> tuple[str, ...]:
    """The checks that say stop, of `stops`, while which `step` gets no yes from anybody."""
    if step.records in MOVES:
        return tuple(stops)
    if step.records in _LIFTS or step.hold is not None:
        return tuple(name for name in stops if name in step.checks)
    return ()


def held_up(step: Step, stand: WalkStatus) -> tuple[Step, ...]:
    """The hold points that must be released, or passed by name, before `step` moves the string."""
    return stand.holds_before(step) if step.records in MOVES else ()
