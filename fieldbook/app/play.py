"""A pull that plays by itself, from a new job to a reading over the limit: forty seconds."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, Any

from fieldbook.app.shelf.shelf_screen import ShelfScreen

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.pilot import Pilot

KEY, BREATH, LOOK = 0.1, 0.8, 1.5
"""Seconds between the keys of a figure, before a key that saves, and to look at what came of it."""

_JOINTS = (("21", "680"), ("", "645"), ("", "612"), ("", "1700"))
"""Length, where it is another, and reading: the last is over the crew's stop load."""


def script() -> Iterator[tuple[float, str]]:
    """Each key, and the seconds before it."""
    yield LOOK, "n"
    yield LOOK, "s"
    yield BREATH, "enter"
    yield from _typed("1500")  # the crew's own stop load
    yield LOOK, "enter"  # the rig is set
    yield from _typed("0")  # volts on the leads
    yield BREATH, "enter"
    yield from _typed("0")  # pressure at the head
    yield BREATH, "enter"
    yield LOOK, "enter"  # the lift check, and what is unknown, signed
    yield LOOK, "enter"
    yield LOOK, "enter"  # the first lift
    for length, reading in _JOINTS:
        if length:
            yield from _typed(length)
        else:
            yield LOOK, "down"
        yield from ((KEY, figure) for figure in reading)
        yield BREATH, "enter" if length else "equals_sign"
        if length:
            yield BREATH, "enter"


def _typed(figure: str) -> Iterator[tuple[float, str]]:
    for place, character in enumerate(figure):
        yield KEY if place else LOOK, character
    yield BREATH, "enter"


async def play_a_pull(pilot: Pilot[Any]) -> None:
    """Press the keys of the script, one after the other; the screen is the crew's afterwards."""
    while not isinstance(pilot.app.screen, ShelfScreen):  # the first start asks before it
        await asyncio.sleep(LOOK)
        await pilot.press("enter")
    for seconds, key in script():
        await asyncio.sleep(seconds)
        await pilot.press(key)
