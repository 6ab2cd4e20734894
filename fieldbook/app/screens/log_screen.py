"""Every entry of the job, the newest first, struck ones marked; any of them can be struck."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.screen import Screen

from fieldbook.app.dialogs.job_dialogs import JobDialogs
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.rows import Rows

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.host import Host
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry

_ACTIONS = (Action("x", "cross this entry out", "strike"), Action("Esc", "back", "back"))


class LogScreen(Screen[None]):
    """The log: a line an entry, and the whole of the one that the cursor is on."""

    DEFAULT_CSS = """
    LogScreen {
        & Literal { padding: 0 1; }
        & #whole { min-height: 3; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,v", "back", "Back"),
        Binding("x", "strike", "Cross this entry out"),
    ]

    app: Host

    def __init__(self, session: Session) -> None:
        """Show the log of `session`."""
        super().__init__()
        self._session = session
        self._entries: list[Entry] = []

    def compose(self) -> ComposeResult:
        """The entries, the one the cursor is on in full, and the keys."""
        words = "The log, newest first; X marks what was crossed out"
        yield Literal(f"{self._session.name}: {words}", classes="title")
        yield Rows()
        yield Literal("", id="whole")
        yield Literal("", id="said", classes="title")
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """List them."""
        self._list()

    def _list(self, on: Entry | None = None) -> None:
        """List the entries, with the cursor on one of them."""
        self._entries = list(reversed(self._session.job.entries))
        rows = self.query_one(Rows)
        rows.show(self._line(entry) for entry in self._entries)
        if on in self._entries:  # the entries above it may have become more
            rows.highlighted = self._entries.index(on)
        rows.focus()

    def on_option_list_option_highlighted(self, event: Rows.OptionHighlighted) -> None:
        """Show the whole of the entry."""
        event.stop()
        entry = self._entries[event.option_index]
        strikes = self._session.job.struck_by(entry)
        struck = "".join(
            f"\nstruck by {s.by} at {s.time:%m-%d %H:%M}: {s.text('reason') or 'corrected'}"
            for s in strikes
        )
        whole = f"{self._session.entry_words(entry)}  [{entry.device}]{struck}"
        self.query_one("#whole", Literal).say(whole)

    def _line(self, entry: Entry) -> str:
        mark = " " if self._session.job.is_live(entry) else "X"
        when = f"{entry.seq:>4} {entry.time:%m-%d %H:%M:%S} {entry.by:<3}"
        return f"{mark}{when} {self._session.entry_words(entry)}"

    @work
    async def action_strike(self) -> None:
        """Strike the entry the cursor is on."""
        at = self.query_one(Rows).highlighted
        if at is None:
            return
        entry = self._entries[at]
        said = self.query_one("#said", Literal)
        if not self._session.job.is_live(entry):
            said.say("This one is crossed out already")
            return
        if words := await JobDialogs(self.app, self._session).strike(entry):
            said.say(words)
            self._list(entry)

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)
