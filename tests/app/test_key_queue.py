"""Keys that arrive all at once, as over a slow line: each acts before the next is looked at."""

from __future__ import annotations

import asyncio

import pytest
from textual import events
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import Input

from fieldbook.app.forms.form import Form
from fieldbook.app.key_queue import QueuedKeysApp
from fieldbook.store.shelf.home import Home
from tests.app.crew import Crew, at_the_keys
from tests.app.scenes import job_in, put_job
from tests.watch.jobs import STEEL

_CHARACTERS = {"backspace": "\x7f", "enter": "\r"}


async def at_once(crew: Crew, *keys: str) -> None:
    """Keys that came in one packet: none waits for what the one before sets off."""
    for key in keys:
        crew.app.post_message(events.Key(key, _CHARACTERS.get(key, key)))
    await crew.settle()


async def test_a_digit_behind_a_backspace_is_not_what_it_takes_away(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await at_once(crew, *"219", "backspace", "backspace", *"09", "backspace")
        assert crew.app.screen.query_one(Form).texts["joint_length"] == "20"


async def test_a_figure_behind_enter_goes_into_the_next_line(home: Home) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await at_once(crew, *"20", "backspace", "1", "enter", *"900")
        texts = crew.app.screen.query_one(Form).texts
        assert [text for text in texts.values() if text][-2:] == ["21", "900"]


async def test_what_is_typed_while_a_joint_is_saved_is_of_the_next_joint(home: Home) -> None:
    folder = put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        await crew.pause()
        await at_once(crew, *"21", "enter", "enter", *"20", "enter")
        crew.sees("Joint 1 out saved")
        assert crew.app.screen.query_one(Form).texts["joint_length"] == "20"
    assert [joint.values["joint_length"].number for joint in crew.joints(folder)] == [21]


async def test_enter_pressed_again_while_a_job_is_opened_marks_nothing_done(home: Home) -> None:
    """Opening takes a while on a slow machine, and a step that asks nothing is done by Enter."""
    folder = put_job(home, STEEL, before="arrive.fence")
    before = len(job_in(folder).entries)
    async with at_the_keys(home) as crew:
        await at_once(crew, "enter", "enter")
        crew.sees("Enter: it is done")
        assert len(crew.job(folder).entries) == before
        await crew.press("enter")
        assert len(crew.job(folder).entries) == before + 1


class Chain(Vertical):
    """Sends itself one message after the other, each dealt with slowly; the last one takes note."""

    class Next(Message):
        def __init__(self, left: int) -> None:
            super().__init__()
            self.left = left

    def __init__(self, length: int) -> None:
        super().__init__(Input())
        self._length = length
        self.stood = ""

    def on_input_submitted(self) -> None:
        self.post_message(self.Next(self._length))

    async def on_chain_next(self, event: Next) -> None:
        for _ in range(20):
            await asyncio.sleep(0)
        if event.left:
            self.post_message(self.Next(event.left - 1))
        else:
            self.stood = self.query_one(Input).value


class Chained(QueuedKeysApp):
    def __init__(self, length: int) -> None:
        super().__init__()
        self._length = length

    def compose(self) -> ComposeResult:
        yield Chain(self._length)


@pytest.mark.parametrize("length", [0, 1, 4, 9])
async def test_a_digit_behind_enter_waits_for_every_message_that_enter_becomes(length: int) -> None:
    app = Chained(length)
    async with app.run_test() as pilot:
        for key in ("1", "enter", "2"):
            app.post_message(events.Key(key, _CHARACTERS.get(key, key)))
        await pilot.pause()
        assert app.query_one(Chain).stood == "1"
        assert app.query_one(Input).value == "12"
