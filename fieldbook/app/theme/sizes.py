"""The classes that a screen wears by its size, before anything is on it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from textual.screen import Screen


def wear_size(screen: Screen[None]) -> None:
    """Put on the classes of the breakpoints that the terminal reaches.

    Textual puts them on once the screen is up, and then has every widget styled and laid out again.
    To be called as the screen is composed.
    """
    size = screen.app.size
    for cells, breakpoints in (
        (size.width, screen.HORIZONTAL_BREAKPOINTS or []),
        (size.height, screen.VERTICAL_BREAKPOINTS or []),
    ):
        if reached := [(least, name) for least, name in breakpoints if cells >= least]:
            screen.add_class(max(reached)[1], update=False)
