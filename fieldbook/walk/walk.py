"""The walk of one job: its steps, and where the job is among them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from fieldbook.walk.definition.steps import ANY_TIME, PHASES, Step
from fieldbook.walk.stand import WalkStatus, stand

if TYPE_CHECKING:
    from fieldbook.record.job import Job


@dataclass(frozen=True)
class Walk:
    """The steps of one drop line and work.

    Attributes:
        line: The drop line.
        work: The work.
        steps: In the order of the work; those of no phase come last.
        left_out: Of the company's files that are wrong and not in it, what is wrong: file, step and
            key. What they ask, hold points too, is not asked.
    """

    line: str
    work: str
    steps: tuple[Step, ...]
    left_out: tuple[str, ...] = ()

    @cached_property
    def _by_id(self) -> dict[str, Step]:
        return {step.id: step for step in self.steps}

    @property
    def left_out_words(self) -> str:
        """What is left out, why, and what that means for the holds; empty where nothing is."""
        if not self.left_out:
            return ""
        return (
            f"LEFT OUT of the company's own steps: {'; '.join(self.left_out)}. What it asks is"
            " NOT asked, hold points of its own too; every hold point of the book is."
        )

    @property
    def phases(self) -> tuple[str, ...]:
        """The phases that have steps, in order."""
        used = {step.phase for step in self.steps}
        return tuple(phase for phase in PHASES if phase in used)

    @property
    def any_time(self) -> tuple[Step, ...]:
        """The steps that are opened when they happen."""
        return tuple(step for step in self.of_phase(ANY_TIME) if step.when == "any time")

    def of_phase(self, phase: str) -> tuple[Step, ...]:
        """The steps of a phase, those under a condition too."""
        return tuple(step for step in self.steps if step.phase == phase)

    def step(self, name: str) -> Step:
        """The step of that id.

        Raises:
            KeyError: There is none in this walk.
        """
        return self._by_id[name]

    def stand(self, job: Job) -> WalkStatus:
        """Where `job` is, by its live entries and nothing else."""
        return stand(self.steps, job)
