"""The last entries that stand."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, NamedTuple

from fieldbook.app.shelf.when import when
from fieldbook.app.walk.style import is_roomy, is_short
from fieldbook.app.widgets.lines import Lines, folded
from fieldbook.app.widgets.row_view import TextLine
from fieldbook.walk.entry.entry_words import parts_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from fieldbook.app.session import Session

_ON_A_SHORT_SCREEN = (1, 2)  # entries, and rows for each
_ON_A_TALL_SCREEN = (5, 1)
_ON_A_ROOMY_SCREEN = (40, 2)


class RecentEntries(Lines):
    """The last entries, the newest first, each with as many figures as there is room for."""

    DEFAULT_CSS = "RecentEntries { color: $muted; }"

    def __init__(self) -> None:
        """Tell of no entry yet."""
        super().__init__()
        self._entries: tuple[EntryRow, ...] = ()

    def show_entries(self, session: Session) -> None:
        """Show as many as the screen has room for."""
        job = session.job
        room, _ = self._at_most
        standing = [e for e in job.entries[-4 * room :] if job.is_live(e)][-room:]
        self._entries = tuple(
            EntryRow(
                f"{when(e.time, job.entries[-1].time.date())} {e.by} {session.title(e)}",
                tuple(parts_of(e)),
            )
            for e in reversed(standing)
        )
        self.draw_anew()

    @property
    def _at_most(self) -> tuple[int, int]:
        """How many entries, and how many rows each."""
        if is_short(self.screen.size):
            return _ON_A_SHORT_SCREEN
        return _ON_A_ROOMY_SCREEN if is_roomy(self.screen.size) else _ON_A_TALL_SCREEN

    def rows_in(self, width: int, height: int) -> Iterable[TextLine]:
        """The entries that stand whole in the rows there are."""
        entries, rows = self._at_most
        yield from rows_of(self._entries, width, rows, height or entries * rows)


def rows_of(entries: Iterable[EntryRow], width: int, most: int, room: int) -> Iterator[TextLine]:
    """The entries, each in so many rows, or in as many as its first figure takes.

    The first that does not stand whole in what is left of the room ends them: only the newest is
    ever shortened. Rows that are left hold more of its figures: it is the one to be looked over.
    """
    shown: list[tuple[EntryRow, tuple[TextLine, ...]]] = []
    left = room
    for row in entries:
        rows = row.rows(width, min(most, left)) or row.longer(width)
        if len(rows) > left:
            if not shown:
                yield from row.shortened(width, room)
                return
            break
        shown.append((row, rows))
        left -= len(rows)
    for row, rows in shown[:1]:
        yield from row.rows(width, len(rows) + left)
    for _, rows in shown[1:]:
        yield from rows


class EntryRow(NamedTuple):
    """An entry in words."""

    title: str
    parts: tuple[str, ...]

    def rows(self, width: int, most: int) -> tuple[TextLine, ...]:
        """At most so many rows with whole figures only: those that they do not take are counted.

        No row at all where they do not take the first.
        """
        for kept in range(len(self.parts), self._least - 1, -1):
            rows = self._folded(kept, width)
            if len(rows) <= most:
                return rows
        return ()

    def longer(self, width: int) -> tuple[TextLine, ...]:
        """As many rows as the first figure takes, with what else they hold."""
        return self.rows(width, len(self._folded(self._least, width)))

    def shortened(self, width: int, most: int) -> tuple[TextLine, ...]:
        """So many rows of the first figure."""
        words = self._words(self._least)
        return folded(TextLine(textwrap.shorten(words, width * most, placeholder=" ...")), width)[
            :most
        ]

    @property
    def _least(self) -> int:
        return min(1, len(self.parts))

    def _folded(self, kept: int, width: int) -> tuple[TextLine, ...]:
        return folded(TextLine(self._words(kept)), width)

    def _words(self, kept: int) -> str:
        """Title and the first figures, and how many there are besides."""
        if not self.parts:
            return self.title
        more = f", {len(self.parts) - kept} more" if kept < len(self.parts) else ""
        return f"{self.title}: {', '.join(self.parts[:kept])}{more}"
