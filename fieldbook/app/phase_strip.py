"""The phases of the job, with how far each is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.literal import Literal

if TYPE_CHECKING:
    from collections.abc import Iterable


class PhaseStrip(Literal):
    """One line: done phases marked, the shown one in brackets with its count."""

    DEFAULT_CSS = """
    PhaseStrip { height: 1; text-wrap: nowrap; text-overflow: ellipsis; color: $muted; }
    """

    def show_phases(self, phases: Iterable[tuple[str, int, int]], shown: str) -> None:
        """Show (phase, steps done, steps in all) of each phase; `shown` is the one on screen."""
        words = []
        for phase, done, total in phases:
            if phase == shown:
                words.append(f"[{phase} {done}/{total}]")
            else:
                words.append(f"{phase}=" if done >= total else phase)
        self.say(" ".join(words))
