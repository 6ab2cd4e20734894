"""The walk on paper: what is printed for the day the laptop dies, and put in again afterwards.

A form is made of the same steps and the same quantities as the screen, so that what is written on
it has its place in the book. What the job says already is printed in.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.office.paper.paper_rows import Table, rows_of
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.safety import SAFETY
from fieldbook.quantities.units import show_unit
from fieldbook.walk.definition.steps import ANY_TIME, PHASES
from fieldbook.walk.entry.form import said_already, starts_with
from fieldbook.walk.hold_check import needed

if TYPE_CHECKING:
    from collections.abc import Sequence

    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.stand import WalkStatus
    from fieldbook.walk.walk import Walk
    from fieldbook.watch.lift.trace import Trace

_WHEN = {
    "string lost": "only when the string, or a part of it, is lost",
    "work suspended": "when the work is taken up again",
    "rig moved": "when the rig was moved",
}
_HEAD = ("job_number", "job_title", "owner", "payer", "site", "well_name", "access", "emergency")


@dataclass(frozen=True, slots=True)
class Blank:
    """One place to write in.

    Attributes:
        label: What belongs there.
        unit: The unit that is understood; empty for words.
        choices: The words to choose from, if it is a choice.
        said: What the job says already; empty where it says nothing.
        must: Whether the step is not done without it.
    """

    label: str
    unit: str
    choices: tuple[str, ...]
    said: str
    must: bool


@dataclass(frozen=True, slots=True)
class Task:
    """One step on the form.

    Attributes:
        step: The step.
        when: The condition it is for, in words; empty for most.
        blanks: Places to write in, of a step that is done once.
        table: Rows, of a step that is done again and again.
        done: Who did it and when, as the job says; empty while it is open.
    """

    step: Step
    when: str
    blanks: tuple[Blank, ...]
    table: Table | None
    done: str


@dataclass(frozen=True, slots=True)
class PaperForm:
    """The whole form.

    Attributes:
        title: What the job is, in a line.
        left_out: What of the company's own steps is not on the form; empty where all are.
        head: Label and value of what names the job; empty values are to be filled in.
        limits: Label and words of what must be known before anything is lifted.
        parts: Heading and steps, in the order of the work.
        safety: The safety words.
    """

    title: str
    left_out: str
    head: tuple[tuple[str, str], ...]
    limits: tuple[tuple[str, str], ...]
    parts: tuple[tuple[str, tuple[Task, ...]], ...]
    safety: tuple[str, ...]


def paper_form(
    walk: Walk,
    job: Job,
    *,
    limits: Sequence[tuple[str, str]],
    trace: Trace | None,
    joints: int | None,
    metric: bool,
) -> PaperForm:
    """The form of a walk, with what `job` says printed in.

    Args:
        walk: The walk.
        job: The job; an empty one gives an empty form.
        limits: Label and words of the limits, in order.
        trace: What the gauge should show, joint by joint; None where no job says.
        joints: How many joints, or readings of the reel, it has rows for; None for what the job
            says, or as many as fill a page.
        metric: Whether the units printed are metric.
    """
    stand = walk.stand(job)

    def tasks(steps: Sequence[Step]) -> tuple[Task, ...]:
        return tuple(_task(step, job, stand, trace, joints, metric=metric) for step in steps)

    parts = [(PHASES[phase], tasks(walk.of_phase(phase))) for phase in walk.phases]
    parts.append(("At any time, and when it goes wrong", tasks(walk.of_phase(ANY_TIME))))
    return PaperForm(
        title=f"{walk.line} {walk.work}",
        left_out=walk.left_out_words,
        head=tuple((definition(name).label, job.text("job", name)) for name in _HEAD),
        limits=tuple(limits),
        parts=tuple(parts),
        safety=SAFETY,
    )


def _task(
    step: Step,
    job: Job,
    stand: WalkStatus,
    trace: Trace | None,
    joints: int | None,
    *,
    metric: bool,
) -> Task:
    entries = written_for(step, job)
    state = stand.states.get(step.id)
    done = "" if state is None or state.is_open else _done(step, job, entries, state.words)
    blanks: tuple[Blank, ...] = ()
    table = None
    if step.repeat and (entries or not done):
        table = rows_of(step, job, entries, trace, joints, done=bool(done), metric=metric)
    elif not step.repeat:
        said = {} if step.phase == ANY_TIME else _said(step, job, entries)
        asked = [name for name in _asked(step) if name in said or not done]
        blanks = tuple(_blank(name, step, said.get(name), metric=metric) for name in asked)
    return Task(step, _WHEN.get(step.when, ""), blanks, table, done)


def written_for(step: Step, job: Job) -> list[Entry]:
    """The live entries that the form of a step made, or that it adopts."""
    names = ("", step.id) if step.adopts else (step.id,)
    way = step.fixed.get("direction", "")
    return [
        entry
        for entry in job.live(step.records)
        if entry.text("step") in names and entry.text("direction") in ("", way)
    ]


def _asked(step: Step) -> tuple[str, ...]:
    words = ("words",) if kinds()[step.records].needs_note else ()
    return (*step.asks, *words)


def _said(step: Step, job: Job, entries: Sequence[Entry]) -> dict[str, Value]:
    said = starts_with(step, job) | said_already(step, job)
    for entry in entries:
        said |= entry.values
    return said


def _blank(name: str, step: Step, said: Value | None, *, metric: bool) -> Blank:
    quantity = definition(name)
    choices = quantity.choices or (("yes", "no") if quantity.dimension == "yes or no" else ())
    return Blank(
        label=quantity.label,
        unit=show_unit(quantity.unit_in(metric=metric)),
        choices=choices,
        said=figure(said, name) if said is not None else "",
        must=name in {*step.must, *needed(step), *kinds()[step.records].needs},
    )


def _done(step: Step, job: Job, entries: Sequence[Entry], state: str) -> str:
    ends = [e for kind in ("hold", "done", "passed_over") for e in job.live(kind)]
    ends = [entry for entry in ends if entry.text("step") == step.id] + list(entries)
    newest = max(ends, key=lambda entry: entry.order, default=None)
    hold = f"HOLD {step.hold} " if step.hold is not None else ""
    return f"{hold}{state}: {newest.by} {newest.time:%m-%d %H:%M}" if newest else f"{hold}{state}"
