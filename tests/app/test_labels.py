"""On the smallest screen every label of every step is whole, with the unit beside its field."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from textual.app import App, ComposeResult
from textual.containers import VerticalScroll

from fieldbook.app.forms.form import Form
from fieldbook.app.forms.form_line import FieldLine
from fieldbook.app.theme.themes import DAY
from fieldbook.app.walk.step_form import form_of
from fieldbook.quantities.definition import definition, definitions
from fieldbook.quantities.units import show_unit
from fieldbook.record.entry import Origin
from fieldbook.walk.definition.loading import load
from fieldbook.walk.definition.steps import LINES, Step

_ROOM = (43, 24)  # the left side of the walk at 80x24, with its scrollbar


def steps() -> Iterator[Step]:
    """Every step that asks something, each set of asks once."""
    seen = set()
    for line in LINES:
        for work in definition("work").choices:
            walk = load(line, work)
            for step in (*walk.steps, *walk.any_time):
                asked = (step.asks, step.must)
                if step.asks and asked not in seen:
                    seen.add(asked)
                    yield step


class Sheet(App[None]):
    """Shows one form after the other."""

    def __init__(self) -> None:
        super().__init__()
        self.register_theme(DAY)
        self.theme = DAY.name

    def compose(self) -> ComposeResult:
        yield VerticalScroll()


@pytest.mark.parametrize("metric", [False, True])
async def test_every_label_of_every_step_is_whole_at_80_columns(metric: bool) -> None:
    app = Sheet()
    async with app.run_test(size=_ROOM) as pilot:
        place = app.query_one(VerticalScroll)
        asked = 0
        for step in steps():
            form = form_of(step, {}, metric=metric, from_paper=False)
            await place.remove_children()
            await place.mount(form)
            await pilot.pause()
            for line in form.lines:
                asked += 1
                told = str(line.render())
                known = line.definition
                assert told.startswith(known.label + (" *" if line.must else "")), step.id
                assert line._field.region.x >= len(known.label) + 1, (step.id, known.label)
                if not known.is_words:
                    unit = show_unit(known.unit_in(metric=metric))
                    assert told.endswith(unit), (step.id, known.label)
                    assert len(told.rstrip()) <= line.size.width, (step.id, told)
        assert asked > 200


async def test_a_choice_of_two_shows_both_words_beside_a_long_label() -> None:
    app = Sheet()
    asks = ("least_insulation", "datum", "hoist")
    async with app.run_test(size=_ROOM) as pilot:
        await app.query_one(VerticalScroll).mount(form := Form(asks, must=asks))
        await pilot.pause()
        for line in form.lines[1:]:
            drawn = str(line._field.render())
            assert all(word in drawn for word in line.definition.choices), drawn


def test_no_label_is_longer_than_the_smallest_screen_takes() -> None:
    assert max(len(known.label) for known in definitions().values()) <= 25


@pytest.mark.parametrize(
    ("columns", "typed", "told"),
    [
        (60, "440.25 ft", "= 440.25 ft"),
        (32, "440.25 ft", ""),
        (32, "440.25", "ft"),
        (32, "440.25 m", ""),
        (32, "", "ft"),
    ],
)
async def test_where_there_is_no_room_for_what_was_understood_the_unit_stands_once(
    columns: int, typed: str, told: str
) -> None:
    app = Sheet()
    async with app.run_test(size=(columns, 5)) as pilot:
        form = Form(["joint_length"], must=(), metric=False, origin=Origin.MEASURED)
        await app.query_one(VerticalScroll).mount(form)
        line = next(iter(form.query(FieldLine)))
        line.text = typed
        await pilot.pause()
        assert str(line.render()).rpartition("  ")[2].strip() == told
