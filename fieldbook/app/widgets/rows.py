"""A list of lines to go up and down in; each line is shown as it is and cut where it ends."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable


_SIDES = 6  # border, padding and scrollbar


class Rows(OptionList):
    """The lines; Enter or a click chooses one."""

    DEFAULT_CSS = """
    Rows {
        height: 1fr; background: $background; text-wrap: nowrap; text-overflow: ellipsis;
        border: round $border;
        &:focus { border: round $border; }
        & > .option-list--option { padding: 0; }
        & > .option-list--option-highlighted { background: $primary; color: $background; }
        &:focus > .option-list--option-highlighted { background: $primary; color: $background; }
        &:nocolor > .option-list--option-highlighted { text-style: reverse; }
    }
    """

    def show(self, lines: Iterable[str]) -> None:
        """Show `lines`; the cursor stays where it was."""
        at = self.highlighted
        self.clear_options()
        self.add(lines)
        if self.option_count:
            self.highlighted = min(at if at is not None else 0, self.option_count - 1)

    def folded(self, line: str, indent: int) -> str:
        """A line folded to the width of the screen, what is folded under `indent` cells of it."""
        width = self.app.size.width - _SIDES
        below = " " * indent
        return textwrap.fill(line, width, subsequent_indent=below, drop_whitespace=False)

    def add(self, lines: Iterable[str]) -> None:
        """Show more lines below."""
        self.add_options(Option(_content(line)) for line in lines)


def _content(line: str) -> Content:
    return Content("\n".join(plain(part) for part in line.split("\n")))
