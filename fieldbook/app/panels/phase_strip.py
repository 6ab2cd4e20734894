"""The phases of the job, with how far each is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.widgets.literal import Literal

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fieldbook.walk.stand import Progress


class PhaseStrip(Literal):
    """One line: done phases ticked, the shown one in brackets with its count.

    A phase of which nothing is to be done any more, as after a string was lost, is no done one.
    """

    DEFAULT_CSS = """
    PhaseStrip { height: 1; padding: 0 1; text-wrap: nowrap; text-overflow: ellipsis; }
    PhaseStrip { color: $muted; }
    """

    def show_phases(self, phases: Iterable[Progress], shown: str) -> None:
        """Show each phase; `shown` is the one on screen."""
        words = []
        for phase in phases:
            if phase.phase == shown:
                words.append(f"[{phase.label} {phase.done}/{phase.total}]")
            elif not phase.total:
                words.append(f"{phase.label}-")
            else:
                words.append(f"{phase.label}√" if phase.done >= phase.total else phase.label)
        self.say(" ".join(words))
