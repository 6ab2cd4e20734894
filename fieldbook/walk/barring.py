"""What keeps a step from being done: a stop that stands, and hold points not released."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Collection

    from fieldbook.walk.stand import Stand
    from fieldbook.walk.steps import Step

MOVES = frozenset({"joint", "footage", "pump_out"})
"""Kinds of entry that say the string was moved."""

_LIFTS = MOVES | {"load", "done"}
"""Kinds whose steps lift, or say that all is ready for it; the others only describe or measure."""


def stopped(step: Step, stops: Collection[str]) -> bool:
    """Whether checks that say stop, by name, keep `step` from being done.

    The steps that change rig, gauge, limit or level stay open: they are the way out.
    """
    if step.records in MOVES:
        return bool(stops)
    return step.records in _LIFTS and not set(step.checks).isdisjoint(stops)


def held_up(step: Step, stand: Stand) -> tuple[Step, ...]:
    """The hold points that must be released, or passed by name, before `step` moves the string."""
    return stand.holds_before(step) if step.records in MOVES else ()
