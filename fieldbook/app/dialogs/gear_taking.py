"""What an item of the library puts into a job: the question before it, and the entry after it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from fieldbook.app.dialogs.ask_screen import Question
from fieldbook.gear.item import Item, names_in_gear
from fieldbook.quantities.dates import DATES, DateStatus, standing
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.labels import within
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Origin, Value
from fieldbook.record.in_use import takes_the_place
from fieldbook.walk.entry.form import entry_values, starts_with

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step

_LOOK = "Hold each figure against the gear itself; Enter past the last one saves."
_STATES = {DateStatus.PAST: "caution", DateStatus.NOT_WRITTEN: "unknown"}


def fits(item: Item, step: Step) -> bool:
    """Whether the form of `step` asks for what the item says."""
    agrees = all(
        item.values[name].text == word for name, word in step.fixed.items() if name in item.values
    )
    return item.kind == step.records and agrees and any(name in item.values for name in step.asks)


def step_for(item: Item, at: Step | None, steps: Iterable[Step]) -> Step | None:
    """The step that the item's figures belong to: the one we are at, or the first that fits."""
    ahead = [*([at] if at is not None else []), *steps]
    return next((step for step in ahead if fits(item, step)), None)


def question(item: Item, step: Step, job: Job, today: dt.date) -> Question:
    """The item's figures in a form, with where they stand and how its dates stand on `today`."""
    said = _said(item)
    need = [n for n in kinds()[item.kind].needs if n not in said]
    more = [n for n in step.must if n not in said and n not in need] if step.repeat else []
    counted = {n: v.text for n, v in starts_with(step, job).items() if n in need}
    seen = standing(item.dates, today)
    words = (
        f"{item.source} ({item.origin})",
        f"Dates: {seen.words}",
        item.notes,
        _staying(item, job),
        _LOOK,
    )
    figures = [n for n in names_in_gear(item.kind) if n in item.values]
    names = (*need, *figures, *more, *(n for n in DATES if n in item.dates))
    return Question(
        f"{item.title}, from the library",
        "\n".join(line for line in words if line),
        names,
        (*need, *more),
        state=_STATES.get(seen.status, ""),
        texts=tuple((counted | {n: v.text for n, v in said.items()}).items()),
    )


def _staying(item: Item, job: Job) -> str:
    """What the job says of rig or pump that the item does not, and that therefore stays."""
    if kinds()[item.kind].needs or item.kind == "gauge":
        return ""  # a thing by itself: nothing of another one is taken for its own
    values = _said(item) | {"library_item": plain_value(item.title)}
    if takes_the_place(item.kind, job.live(item.kind), values):
        return ""
    names = [n for n in names_in_gear(item.kind) if n not in item.values and n not in DATES]
    labels = [within(definition(n).label) for n in names if job.value(item.kind, n) is not None]
    return f"Stays as this job says it: {', '.join(labels)}" if labels else ""


def taken(
    item: Item, step: Step, job: Job, answer: Mapping[str, Value]
) -> tuple[dict[str, Value], str]:
    """The values and the note of the entry that takes the item over.

    A figure that was left as it stood is known as the library says; one that was written otherwise
    is the crew's own, and the note names it.
    """
    said = _said(item)
    kept = {n: said[n] for n, value in answer.items() if n in said and said[n].text == value.text}
    own = {n: replace(v, origin=Origin.STATED) for n, v in answer.items() if n not in kept}
    values = entry_values(step, job, own | kept)
    if step.adopts:
        del values["step"]  # one item may say what several steps ask for
    values["library_item"] = plain_value(item.title)
    changed = [within(definition(n).label) for n in said if n not in kept]
    note = f"from the library, {item.source}"
    return values, f"{note}; otherwise here: {', '.join(changed)}" if changed else note


def _said(item: Item) -> dict[str, Value]:
    dates = {n: Value(text=item.dates[n], origin=item.origin) for n in DATES if n in item.dates}
    return {**item.values, **dates}
