"""The phases of the job, with how far each is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.widgets.literal import Literal

if TYPE_CHECKING:
    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.stand import WalkStatus


class PhaseStrip(Literal):
    """One line: done phases marked x, the shown one in brackets with its count.

    A phase of which nothing is to be done any more, as after a string was lost, is no done one.
    """

    DEFAULT_CSS = """
    PhaseStrip { height: 1; padding: 0 1; text-wrap: nowrap; text-overflow: ellipsis; }
    PhaseStrip { color: $muted; }
    """

    def show_job(self, stand: WalkStatus, step: Step | None) -> None:
        """Show each phase, the one of `step` in brackets, and how much the office will ask."""
        shown = step.phase if step is not None else ""
        words = []
        for phase in stand.progress:
            if phase.phase == shown:
                words.append(f"[{phase.label} {phase.done}/{phase.total}]")
            elif not phase.total:
                words.append(f"{phase.label}-")
            else:
                done = phase.done >= phase.total and not phase.waiting
                words.append(f"{phase.label} x" if done else phase.label)
        if later := len(stand.office_asks):
            words.append(f"  y: {later} to fill in")
        self.say(" ".join(words))
