"""What is owed over all jobs, what is late first; what has come is written down here."""

from __future__ import annotations

import contextlib
from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.screen import Screen

from fieldbook.app.dialogs.ask_screen import AskScreen, Question
from fieldbook.app.shelf.well_rows import OwedRows, when
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.office.filing.localities import BadLocality, place_named
from fieldbook.office.reports.due import owed
from fieldbook.quantities.admit import Refused
from fieldbook.record.entry import Draft, Origin, Value
from fieldbook.store.job.book import Book

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from textual.app import ComposeResult

    from fieldbook.app.host import Host
    from fieldbook.app.widgets.rows import Rows
    from fieldbook.office.filing.localities import Locality
    from fieldbook.office.reports.due import Owed
    from fieldbook.store.shelf.shelf import Shelf

_ACTIONS = (
    Action("a", "received", "answer"),
    Action("Enter", "open job", "open"),
    Action("Esc", "back", "back"),
)
_ASKS = ("done_on", "outcome")


class DueScreen(Screen[None]):
    """Follow-ups, lab results and records to file, over all jobs."""

    DEFAULT_CSS = """
    DueScreen {
        & Literal { padding: 0 1; }
        & #empty { padding: 1 2; height: 1fr; }
        & #empty.gone { display: none; }
        & OwedRows.gone { display: none; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("a", "answer", "Write down that it was received"),
        Binding("enter", "open", "Open the job"),
        Binding("escape,q,d", "back", "Back"),
    ]
    AUTO_FOCUS = ""

    app: Host

    def __init__(self, shelf: Shelf, on: dt.date) -> None:
        """Show what is owed on the jobs of `shelf`, as last refreshed, looked at from a day."""
        super().__init__()
        self._shelf = shelf
        self._on = on

    def compose(self) -> ComposeResult:
        """Title, rows, acts."""
        yield Literal("Due: follow-ups, lab results, records to file", classes="title")
        yield Literal("Nothing is owed.", id="empty")
        yield OwedRows()
        yield Literal("", id="said", classes="title")
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """List what is owed."""
        self._list()

    def _list(self) -> None:
        found = owed(self._shelf, self._on, place=self._place())
        rows = self.query_one(OwedRows)
        rows.take(len(found), found.__getitem__)
        self.query_one("#empty").set_class(bool(found), "gone")
        if found:
            rows.focus()

    def _place(self) -> Locality | None:
        """The place the company files by; what is wrong with its files is said, and none taken."""
        home = self.app.home
        try:
            return place_named(home.place, home.localities_folder) if home.place else None
        except (OSError, UnicodeDecodeError, BadLocality) as problem:
            self._say(f"locality.txt: {problem}", "stop")
            return None

    def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Enter or a click opens the job."""
        event.stop()
        self.action_open()

    def action_open(self) -> None:
        """Open the job that owes it."""
        if (debt := self.query_one(OwedRows).chosen) is not None:
            self._say(self.app.open_job(debt.folder), "stop")

    def action_back(self) -> None:
        """Back to the shelf."""
        self.dismiss(None)

    @work
    async def action_answer(self) -> None:
        """Ask what came and when, and record it in the job; a sealed one takes it too."""
        debt = self.query_one(OwedRows).chosen
        if debt is None:
            return
        words = f"{debt.words}\n{when(debt)}; job {debt.job_number}"
        question = Question(
            f"It has come: {debt.what}",
            words,
            _ASKS,
            _ASKS,
            texts=(("done_on", self._on.isoformat()),),
            opened_by="a",
        )
        while (answer := await self._ask(question)) is not None:
            try:
                self._record(debt, answer)
            except (Refused, OSError) as problem:
                texts = tuple((name, value.text) for name, value in answer.items())
                said = f"NOT SAVED: {problem}\n{words}"
                question = replace(question, words=said, state="stop", texts=texts)
                continue
            with contextlib.suppress(OSError):  # it is saved; the list is as it was read
                self._shelf.refresh()
            self._list()
            self._say(f"{debt.what} written down in {debt.job_number}")
            return

    async def _ask(self, question: Question) -> Mapping[str, Value] | None:
        return await self.app.push_screen_wait(AskScreen(question, metric=self.app.metric))

    def _record(self, debt: Owed, answer: Mapping[str, Value]) -> None:
        values = {"answers": Value(debt.id, origin=Origin.STATED), **answer}
        with Book.open(debt.folder, self.app.home.device_id()) as book:
            book.record(Draft("answer", self.app.initials, values))

    def _say(self, words: str, state: str = "") -> None:
        self.query_one("#said", Literal).say(words, state)
