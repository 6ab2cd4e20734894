"""The last entries that stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.literal import Literal

if TYPE_CHECKING:
    from fieldbook.app.session import Session

_ON_A_SHORT_SCREEN = 1
_ON_A_TALL_SCREEN = 5


class Recent(Literal):
    """A line for each of the last entries, the newest first."""

    DEFAULT_CSS = "Recent { color: $muted; text-wrap: nowrap; text-overflow: ellipsis; }"

    def show_entries(self, session: Session) -> None:
        """Show as many as the screen has room for."""
        job = session.job
        room = _ON_A_TALL_SCREEN if self.screen.has_class("-tall") else _ON_A_SHORT_SCREEN
        standing = [e for e in job.entries[-4 * room :] if job.is_live(e)][-room:]
        self.say("\n".join(f"{e.time:%H:%M} {e.by} {session.told(e)}" for e in reversed(standing)))
