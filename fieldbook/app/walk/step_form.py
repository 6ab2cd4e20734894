"""The form of a step: what it asks, what it starts with, and the entry it makes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from fieldbook.app.forms.form import Form
from fieldbook.quantities.admit import SURE
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.kinds import kinds
from fieldbook.walk.entry.form import entry_values, news, said_already, starts_with
from fieldbook.walk.entry.from_paper import NOT_WITNESSED
from fieldbook.walk.entry.recall import recalled
from fieldbook.walk.entry.runs import LENGTH
from fieldbook.walk.hold_check import needed
from fieldbook.walk.states import StepState

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry, Value
    from fieldbook.walk.definition.steps import Step

_TIME = "written_at"
_REPEATED = LENGTH
"""What `=` repeats. What was seen on a joint is never repeated: it was seen on that joint alone."""


def form_of(step: Step, start: Mapping[str, str], *, metric: bool, from_paper: bool) -> Form:
    """The form of a step; a kind that needs words asks for them too, a paper for its time.

    Args:
        step: The step.
        start: What is in the form before anything is typed.
        metric: Whether numbers without a unit are metric.
        from_paper: Whether a paper is being put in.
    """
    kind = kinds()[step.records]
    words = ("words",) if kind.needs_note else ()
    must = (*step.must, *needed(step), *kind.needs)
    # Needed words stand before whether the customer is to read them.
    first = [name for name in step.asks if name != "for_customer"]
    asks = [*first, *words, *(name for name in step.asks if name not in first)]
    if from_paper:
        # Where the cursor starts, behind the number of the joint that is there already.
        asks.insert(next((i for i, n in enumerate(asks) if not start.get(n)), len(asks)), _TIME)
    excusable = {*step.must, *needed(step)} - set(kind.needs)
    return Form(
        asks,
        must=(*must, *words),
        excusable=excusable if "reason" in kind.may else (),
        metric=metric,
        origin=step.origin,
        runs=step.repeat == "joints",
    )


def start_of(step: Step, session: Session, *, metric: bool) -> dict[str, str]:
    """What is in the form of a step before anything is typed.

    Args:
        step: The step.
        session: The open job.
        metric: Whether a number without a unit is read as metric.
    """
    job = session.job
    values = recalled(step, job, session.memory) | starts_with(step, job) | said_already(step, job)
    return {name: _as_read(name, value, metric=metric) for name, value in values.items()}


def _as_read(name: str, value: Value, *, metric: bool) -> str:
    """The text that is read as this value again, with its unit where another one is the usual."""
    usual = definition(name).metric if metric else definition(name).unit
    return value.text if value.unit == usual else figure(value)


def as_typed(step: Step, entry: Entry, *, metric: bool) -> dict[str, str]:
    """What to type into the form of a step for it to say what an entry of it says.

    A joint of a run comes back as a run of one: it was not witnessed, whoever mends its length.
    A file does not come back: the entry has its hash, and the form asks where it is.

    Args:
        step: The step.
        entry: What its form made.
        metric: Whether a number without a unit is read as metric.
    """
    texts = {
        name: _as_read(name, entry.values[name], metric=metric)
        for name in (*step.asks, _TIME)
        if name in entry.values and definition(name).dimension != "file"
    }
    if entry.note:
        texts["words"] = entry.note
    in_a_run = entry.text("recorded") == NOT_WITNESSED and not entry.text("written_by")
    if in_a_run and step.repeat == "joints" and LENGTH in texts:
        texts[LENGTH] = f"1 at {texts[LENGTH]}"
    return texts


def keep_draft(step: Step, form: Form, start: Mapping[str, str], session: Session) -> None:
    """Keep what is typed and not saved; what the form started with is no draft."""
    typed = {n: text for n, text in form.texts.items() if text != start.get(n, "")}
    if typed:
        session.drafts[step.id] = typed
    else:
        session.drafts.pop(step.id, None)


def record_form(step: Step, session: Session, by: str, typed: dict[str, Value]) -> Entry | None:
    """Record what a form says; None where it says nothing that the job does not say already.

    Raises:
        Refused: It is nonsense, or a file that cannot be taken.
        OSError: A file is not on disk.
        NotSaved: It is not on disk.
    """
    said = dict(typed)
    words = said.pop("words", None)
    at = said.pop(_TIME, None)
    sure = {SURE: said.pop(SURE)} if SURE in said else {}
    if "file_hash" in said:
        said |= session.attach(Path(said["file_hash"].text))
    done = not session.stand.states.get(step.id, StepState.TO_DO).is_open
    if done and said_already(step, session.job):
        new = news(step, session.job, said)
        if not new:
            return None
        said = {n: v for n, v in said.items() if n in new or n in kinds()[step.records].needs}
    values = entry_values(step, session.job, said) | sure
    note = words.text if words is not None else ""
    entry = session.record(step.records, by, values, note=note, at=at)
    session.drafts.pop(step.id, None)
    return entry


def same_again(step: Step, session: Session, typed: dict[str, Value]) -> dict[str, Value] | None:
    """What `=` records: what is typed, and the last joint's length; None where none was."""
    last = session.newest_of(step)
    if last is None or _REPEATED not in step.asks or _REPEATED not in last.values:
        return None
    return {_REPEATED: last.values[_REPEATED]} | typed
