"""The library and the open job: take an item over into the job, or keep what the job says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.dialogs.ask_screen import Question
from fieldbook.app.dialogs.asking import RecordingDialogs
from fieldbook.app.dialogs.gear_taking import fits, question, step_for, taken
from fieldbook.app.screens.gear_screen import GearScreen
from fieldbook.gear.inventory import load
from fieldbook.gear.item import KINDS, BadGear, Item, names_in_gear
from fieldbook.gear.keeping import keep
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.dates import DATES
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.labels import within

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry, Value
    from fieldbook.walk.definition.steps import Step

_NAMES = ("rig_name", "gauge_name", "part", "pump_model", "piece")
"""What may serve as a title, where it was written."""


class GearDialogs(RecordingDialogs):
    """What is done with the company's gear while a job is open."""

    async def take(self, at: Step | None) -> str:
        """Pick an item and, once its figures were looked at, record them."""
        folder = self._app.home.gear_folder
        try:
            items = load(folder)
        except BadGear as problem:
            return f"STOP: the library cannot be used. {problem}"
        if not items:
            return f"No gear is kept yet in {folder}. On the job card, k keeps what a job says"
        fitting = [item for item in items if at is not None and fits(item, at) and not item.retired]
        today = self._app.today()
        here = at.title if at is not None else ""
        item = await self._app.push_screen_wait(GearScreen(items, fitting, today=today, here=here))
        if item is None:
            return ""
        return await self._look_at(item, at)

    async def _look_at(self, item: Item, at: Step | None) -> str:
        if item.retired:
            return f"{item.title} is retired: it is used no more"
        step = step_for(item, at, self._session.stand.steps)
        if step is None:
            return f"{item.title}: no step of this job asks for it"
        job = self._session.job

        def record(answer: dict[str, Value]) -> Entry:
            values, note = taken(item, step, job, answer)
            return self._record(item.kind, values, note=note)

        asked = question(item, step, job, self._app.today())
        return await self._ask(asked, record, said=f"{item.title}: taken from the library")

    async def keep(self, step: Step, entry: Entry | None) -> str:
        """Keep what the job says of rig, gauge, pulley, piece or pump as a new item."""
        kind = step.records
        if kind not in KINDS:
            return "This is of the job; the library keeps rigs, gauges, pulleys, pieces, pumps"
        said = self._said(step, entry)
        if not set(said) - set(DATES):
            return "Nothing that the library keeps is written here yet"
        dates = tuple(name for name in names_in_gear(kind) if name in DATES)
        titles = (said[name].text for name in _NAMES if name in said)
        texts = {"gear_title": next(titles, "")} | {n: said[n].text for n in dates if n in said}
        if kind == "rig" and (due := self._session.job.text("rig", "rig_inspection_due")):
            texts.setdefault("inspection_due", due)
        asked = Question(
            f"Keep in the library: {within(kinds()[kind].label)}",
            "Its figures as this job says them, in a file of its own. No item is written over.",
            ("gear_title", "gear_source", *dates),
            ("gear_title", "gear_source"),
            texts=tuple(texts.items()),
            dated=False,
            opened_by="k",
        )

        def write(answer: dict[str, Value]) -> None:
            title, source = answer.pop("gear_title").text, answer.pop("gear_source").text
            figures = {n: value for n, value in said.items() if n not in DATES}
            try:
                keep(self._app.home.gear_folder, kind, figures | answer, title=title, source=source)
            except BadGear as problem:
                raise Refused(str(problem)) from problem

        return await self._ask(asked, write, said="kept in the library")

    def _said(self, step: Step, entry: Entry | None) -> dict[str, Value]:
        """What the chosen piece says, or what the job says of rig, gauge or pump as a whole."""
        if step.repeat:
            return dict(entry.values) if entry is not None else {}
        found = {
            name: self._session.job.value(step.records, name)
            for name in names_in_gear(step.records)
        }
        return {name: value for name, value in found.items() if value is not None}
