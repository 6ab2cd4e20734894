"""Every entry of the job, the newest first, struck ones marked; any of them can be struck."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.screen import Screen
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from fieldbook.app.deeds import Deeds
from fieldbook.app.entry_words import title_of, words_of
from fieldbook.app.literal import Literal

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.app import FieldbookApp
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry


class LogScreen(Screen[None]):
    """The log."""

    DEFAULT_CSS = """
    LogScreen { & OptionList { height: 1fr; background: $background; } & Literal { padding: 0 1; } }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,v", "back", "Back"),
        Binding("x", "strike", "Strike this entry"),
    ]

    app: FieldbookApp

    def __init__(self, session: Session) -> None:
        """Show the log of `session`."""
        super().__init__()
        self._session = session
        self._entries: list[Entry] = []

    def compose(self) -> ComposeResult:
        """The entries and the keys."""
        yield Literal("The log, newest first; X marks what was struck", classes="title")
        yield OptionList()
        yield Literal("x: strike this entry    Esc: back", id="said")

    def on_mount(self) -> None:
        """List them."""
        self._list()

    def _list(self) -> None:
        self._entries = list(reversed(self._session.job.entries))
        options = self.query_one(OptionList)
        at = options.highlighted
        options.clear_options()
        options.add_options(Option(self._words(entry)) for entry in self._entries)
        options.highlighted = at if at is not None else 0
        options.focus()

    def _words(self, entry: Entry) -> Content:
        job = self._session.job
        mark, struck = " ", ""
        if not job.is_live(entry):
            who = ", ".join(
                f"{s.by}: {s.text('reason') or 'corrected'}" for s in job.struck_by(entry)
            )
            mark, struck = "X", f"  [struck by {who}]"
        line = f"{mark}{entry.seq:>4} {entry.time:%m-%d %H:%M:%S} {entry.by:<3} {title_of(entry)}"
        return Content(f"{line}: {words_of(entry)}{struck}")

    @work
    async def action_strike(self) -> None:
        """Strike the entry the cursor is on."""
        at = self.query_one(OptionList).highlighted
        if at is None:
            return
        entry = self._entries[at]
        said = self.query_one("#said", Literal)
        if not self._session.job.is_live(entry):
            said.say("This one is struck already")
            return
        if words := await Deeds(self.app, self._session).strike(entry):
            said.say(words)
            self._list()

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)
