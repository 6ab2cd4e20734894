"""The lift path beside the entry, on a screen that has the room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.drawn import Line
from fieldbook.app.lines import Lines
from fieldbook.app.links import TITLE, chain
from fieldbook.app.walk_style import is_roomy

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.watch.watcher import Look


class Chain(Lines):
    """The links from the top of the lift down, the weakest marked; hidden on a smaller screen."""

    DEFAULT_CSS = "Chain { margin: 1 0 0 0; text-wrap: nowrap; }"

    def show_look(self, look: Look) -> None:
        """Show the links where there is room."""
        room = is_roomy(self.screen.size)
        self.set_class(not room or not look.lift.links, "gone")
        if room:
            self.say_lines(_lines(look))


def _lines(look: Look) -> Iterator[Line]:
    yield Line(TITLE, "title")
    for row in chain(look.lift.links, every=False):
        yield Line(row.text, row.check.verdict.value)
