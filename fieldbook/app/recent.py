"""The last entries that stand."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from fieldbook.app.literal import Literal
from fieldbook.app.when import when
from fieldbook.walk.entry_words import parts_of

if TYPE_CHECKING:
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry

_ON_A_SHORT_SCREEN = (1, 2)  # entries, and lines for each
_ON_A_TALL_SCREEN = (5, 1)


class Recent(Literal):
    """The last entries, the newest first, each with as many figures as there is room for."""

    DEFAULT_CSS = "Recent { color: $muted; }"

    def show_entries(self, session: Session) -> None:
        """Show as many as the screen has room for."""
        job = session.job
        tall = self.screen.has_class("-tall")
        room, lines = _ON_A_TALL_SCREEN if tall else _ON_A_SHORT_SCREEN
        standing = [e for e in job.entries[-4 * room :] if job.is_live(e)][-room:]
        width = self.size.width * lines
        self.say("\n".join(_told(entry, session, width) for entry in reversed(standing)))


def _told(entry: Entry, session: Session, room: int) -> str:
    """An entry with whole figures only: those that the room does not take are counted."""
    newest = session.job.entries[-1].time.date()
    title = f"{when(entry.time, newest)} {entry.by} {session.title(entry)}"
    said = parts_of(entry)
    for kept in range(len(said), 0, -1):
        more = f", {len(said) - kept} more" if kept < len(said) else ""
        words = f"{title}: {', '.join(said[:kept])}{more}"
        if len(words) <= room or not room:  # no width is known before the first layout
            return words
    return textwrap.shorten(f"{title}: {said[0]}", room, placeholder=" ...") if said else title
