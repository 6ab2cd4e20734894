"""The lift path beside the entry, on a screen that has the room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.screens.load_path_text import TITLE, chain
from fieldbook.app.walk.position_text import off_the_hook
from fieldbook.app.walk.style import is_roomy
from fieldbook.app.widgets.lines import Lines
from fieldbook.app.widgets.row_view import TextLine

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.walk.definition.steps import Step
    from fieldbook.watch.watcher import Look


class ChainPanel(Lines):
    """The links from the top of the lift down, the weakest marked; hidden on a smaller screen."""

    DEFAULT_CSS = "ChainPanel { margin: 1 0 0 0; text-wrap: nowrap; }"

    def show_look(self, look: Look, step: Step | None) -> None:
        """Show the links where there is room, and a string on the hook."""
        room = is_roomy(self.screen.size) and not off_the_hook(look.now, step)
        self.set_class(not room or not look.lift.links, "gone")
        if room:
            self.say_lines(_lines(look))


def _lines(look: Look) -> Iterator[TextLine]:
    yield TextLine(TITLE, "title")
    for row in chain(look.lift.links, read=look.readings.check, every=False):
        yield TextLine(row.text, row.check.verdict.value)
