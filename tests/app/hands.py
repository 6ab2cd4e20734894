"""Hands that walk a whole job in the app: keys only, led by the walk, with a sample's figures."""

from __future__ import annotations

import datetime as dt
from typing import Any

from fieldbook.app.forms.choice import Choice
from fieldbook.app.forms.form import Form
from fieldbook.app.forms.form_line import FieldLine
from fieldbook.app.screens.planner_screen import PlannerScreen
from fieldbook.app.walk.screen import WalkScreen
from fieldbook.app.widgets.rows import Rows
from fieldbook.quantities.figures import figure
from fieldbook.record.entry import Draft
from tests.app.crew import Crew

_MOST_STEPS = 40
_PLANNERS = {"duty": "d", "pump": "c", "curve_point": "k", "line_choice": "y"}
"""The planner's key for each kind of entry that is made there and names no step."""
_NAMES = ("line", "nps", "schedule")


class Clock:
    """Shows the time of the entry that is being made."""

    def __init__(self, start: dt.datetime) -> None:
        self.time = start

    def read(self) -> dt.datetime:
        return self.time


class Hands:
    """What a crew's fingers do for one entry of a sample."""

    def __init__(self, crew: Crew) -> None:
        self._crew = crew

    async def open_new(self, opening: Draft) -> None:
        """A new job from an empty shelf, by its number, line and work."""
        await self._crew.press("n")
        await self._fill(opening)

    async def make(self, draft: Draft) -> None:
        """Whatever makes this entry at the step it belongs to, or on the planner's screen."""
        planned = "step" not in draft.values
        if isinstance(self._crew.app.screen, PlannerScreen) and not planned:
            await self._crew.press("escape")
        if draft.kind != "hold" and self._crew.app.initials != draft.by:
            await self._crew.press("escape", "i")
            await self._answer({"initials": draft.by})
        if planned:
            await self._plan(draft)
            return
        step = draft.values["step"].text
        await self._to(step)
        if draft.kind == "passed_over":
            await self._crew.press("escape", "p")
            await self._answer({"reason": draft.values["reason"].text})
        elif draft.kind == "hold":
            await self._release(draft)
        elif draft.kind == "done" and self._step.repeat:
            await self._crew.press("escape", "d")
        elif self._form is not None and self._form.lines:
            await self._fill(draft)
        else:
            await self._crew.press("enter")

    @property
    def _walk(self) -> WalkScreen:
        screen = self._crew.app.screen
        assert isinstance(screen, WalkScreen), self._crew.screen
        return screen

    @property
    def _step(self) -> Any:
        return self._walk._step

    @property
    def _form(self) -> Form | None:
        forms = list(self._crew.app.screen.query(Form))
        return forms[0] if forms else None

    async def _plan(self, draft: Draft) -> None:
        """An entry of the planner; what a sheet says, on the line it is the sheet of."""
        if not isinstance(self._crew.app.screen, PlannerScreen):
            await self._crew.press("escape", "o")
        if draft.kind == "line_choice":
            await self._crew.planned()
            await self._to_line(*(draft.values[n].text for n in _NAMES if n in draft.values))
        await self._crew.press(_PLANNERS[draft.kind])
        await self._fill(draft)

    async def _to_line(self, *names: str) -> None:
        """To the first line of the planner that is called so, from the top."""
        rows = self._crew.app.screen.query_one(Rows)
        await self._crew.press("home")
        for _ in range(rows.option_count):
            at = rows.highlighted
            assert at is not None
            words = str(rows.get_option_at_index(at).prompt).lower().split()
            if all(name.lower() in words for name in names):
                return
            await self._crew.press("down")
        raise AssertionError(f"no line {names}\n{self._crew.screen}")

    async def _to(self, name: str) -> None:
        """To another step by PgUp and PgDn, where the walk does not lead to it by itself."""
        if not isinstance(self._crew.app.screen, WalkScreen):
            return  # a release that opened by itself
        for _ in range(_MOST_STEPS):
            if self._step.id == name:
                return
            order = [step.id for step in self._walk._session.stand.steps]
            way = "pagedown" if order.index(name) > order.index(self._step.id) else "pageup"
            await self._crew.press("escape", way)
        raise AssertionError(f"no way to {name}\n{self._crew.screen}")

    async def _release(self, draft: Draft) -> None:
        if isinstance(self._crew.app.screen, WalkScreen):
            form = self._form
            if form is not None and form.lines and self._step.records == "done":
                await self._fill(draft)
            else:
                await self._crew.press("escape", "r")
        said = {n: draft.values[n].text for n in ("role", "witness") if n in draft.values}
        await self._answer({"initials": draft.by, **said})

    async def _answer(self, texts: dict[str, str]) -> None:
        assert not isinstance(self._crew.app.screen, WalkScreen), self._crew.screen
        await self._type(texts)

    async def _fill(self, draft: Draft) -> None:
        texts = {name: _typed(value) for name, value in draft.values.items()}
        if draft.note:
            texts["words"] = draft.note
        await self._type(texts)

    async def _type(self, texts: dict[str, str]) -> None:
        """Every line of the form as it is to be, then Enter on the last."""
        form = self._form
        assert form is not None, self._crew.screen
        if self._crew.app.focused is None:
            await self._crew.press("enter")
        for at, line in enumerate(form.lines):
            await self._go_to(form, at)
            await self._set(line, texts.get(line.definition.name, ""))
        before = self._crew.app.screen, self._made
        for _ in range(3):  # once more where a figure is asked about
            await self._crew.press("enter")
            if (self._crew.app.screen, self._made) != before:
                return
        raise AssertionError(f"not taken\n{self._crew.screen}")

    @property
    def _made(self) -> int:
        session = self._crew.app._session
        return len(session.job.entries) if session is not None else 0

    async def _go_to(self, form: Form, at: int) -> None:
        for _ in range(len(form.lines) + 1):
            focused = self._crew.app.focused
            here = next(i for i, line in enumerate(form.lines) if focused in line.walk_children())
            if here == at:
                return
            await self._crew.pilot.press("down" if at > here else "up")
        raise AssertionError(f"line {at} was not reached\n{self._crew.screen}")

    async def _set(self, line: FieldLine, text: str) -> None:
        if line.text == text:
            return
        if isinstance(line._field, Choice):
            await self._crew.pilot.press("backspace")
            for _ in line.definition.choices or ("yes", "no"):
                if line.text == text:
                    return
                await self._crew.pilot.press("right")
        else:
            await self._crew.pilot.press("end", *["backspace"] * len(line.text), *text)
        assert line.text == text, f"{line.definition.name}: {line.text!r}\n{self._crew.screen}"


def _typed(value: Any) -> str:
    return figure(value)
