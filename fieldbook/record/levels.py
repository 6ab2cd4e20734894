"""Levels of the water: which of them were read with the well at rest."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fieldbook.record.entry import Entry


def is_at_rest(state: str) -> bool:
    """Whether a level's state says that the well stood at rest, or nobody said otherwise."""
    return state in ("static", "")


def at_rest(levels: Iterable[Entry]) -> list[Entry]:
    """The `level` entries that give a figure, read at rest, in the order they come in."""
    return [
        entry
        for entry in levels
        if is_at_rest(entry.text("level_state"))
        and (level := entry.values.get("water_level")) is not None
        and level.number is not None
    ]
