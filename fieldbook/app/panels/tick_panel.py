"""A page of ticks: the steps of the walk that only confirm, each on one key."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.widgets.lines import Lines
from fieldbook.app.widgets.row_view import TextLine

if TYPE_CHECKING:
    from collections.abc import Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.walk.definition.steps import Step

MOST_TICKS = 11
KEYS = "1234567890-"
"""The key of each row."""


class TickPanel(Lines):
    """What there is to tick, and what is ticked already, when and by whom."""

    def show_page(self, page: Sequence[Step], ticked: Sequence[Entry | None]) -> None:
        """Show a page, or hide where there is none.

        Args:
            page: Its steps, in order.
            ticked: For each, the entry that says it is done; None where nothing does.
        """
        self.set_class(not page, "gone")
        if not page:
            return
        waiting = next((s for s, e in zip(page, ticked, strict=True) if e is None), page[0])
        lines = [TextLine(page[0].page, "title")]
        if waiting.caution is not None:
            lines.append(TextLine(f"{waiting.caution.word}: {waiting.caution.text}", "caution"))
        for key, step, entry in zip(KEYS, page, ticked, strict=False):
            mark = f"x {entry.time:%H:%M} {entry.by}" if entry is not None else "_"
            lines.append(TextLine(f"{key}  {step.title:<30} {mark}"))
        lines.append(TextLine("Not good? w, then Enter on it: write what is wrong."))
        self.say_lines(lines)
