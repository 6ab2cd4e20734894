"""The last entries that stand."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, NamedTuple

from fieldbook.app.drawn import Line
from fieldbook.app.lines import Lines, folded
from fieldbook.app.walk_style import is_short
from fieldbook.app.when import when
from fieldbook.walk.entry_words import parts_of

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fieldbook.app.session import Session

_ON_A_SHORT_SCREEN = (1, 2)  # entries, and lines for each
_ON_A_TALL_SCREEN = (5, 1)


class Recent(Lines):
    """The last entries, the newest first, each with as many figures as there is room for."""

    DEFAULT_CSS = "Recent { color: $muted; }"

    def __init__(self) -> None:
        """Tell of no entry yet."""
        super().__init__()
        self._entries: tuple[Told, ...] = ()

    def show_entries(self, session: Session) -> None:
        """Show as many as the screen has room for."""
        job = session.job
        room, _ = self._at_most
        standing = [e for e in job.entries[-4 * room :] if job.is_live(e)][-room:]
        self._entries = tuple(
            Told(
                f"{when(e.time, job.entries[-1].time.date())} {e.by} {session.title(e)}",
                tuple(parts_of(e)),
            )
            for e in reversed(standing)
        )
        self.draw_anew()

    @property
    def _at_most(self) -> tuple[int, int]:
        """How many entries, and how many rows each."""
        return _ON_A_SHORT_SCREEN if is_short(self.screen.size) else _ON_A_TALL_SCREEN

    def rows_in(self, width: int, height: int) -> Iterable[Line]:
        """The entries, cut to the rows that each may take."""
        del height
        _, rows = self._at_most
        for told in self._entries:
            yield from told.rows(width, rows)


class Told(NamedTuple):
    """An entry in words."""

    title: str
    parts: tuple[str, ...]

    def rows(self, width: int, most: int) -> tuple[Line, ...]:
        """At most so many rows with whole figures only: those that they do not take are counted."""
        for kept in range(len(self.parts), 0, -1):
            more = f", {len(self.parts) - kept} more" if kept < len(self.parts) else ""
            rows = folded(Line(f"{self.title}: {', '.join(self.parts[:kept])}{more}"), width)
            if len(rows) <= most:
                return rows
        words = f"{self.title}: {self.parts[0]}" if self.parts else self.title
        shortened = textwrap.shorten(words, width * most, placeholder=" ...")
        return folded(Line(shortened), width)[:most]
