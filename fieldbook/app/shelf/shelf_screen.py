"""The shelf: the jobs, and a new one."""

from __future__ import annotations

import contextlib
from functools import partial
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.screen import Screen
from textual.worker import get_current_worker

from fieldbook.app.forms.find_field import FindField
from fieldbook.app.shelf.job_rows import JobRows
from fieldbook.app.shelf.messages import JobsFound, ShelfRead, ShelfReading, ShelfUnread
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from pathlib import Path

    from textual import events
    from textual.app import ComposeResult

    from fieldbook.app.host import Host
    from fieldbook.app.session import Session
    from fieldbook.store.shelf.shelf import Listing, Shelf
    from fieldbook.store.shelf.summary import Summary

_TITLE = "fieldbook: the shelf"
_MANY = 50  # fewer changed jobs are read before anybody has read how many
_EMPTY = (
    "The shelf is empty.\n\n"
    "Press n for a new job: its drop line, and record now or plan first.\n"
    "A pull that has begun goes in the same way, from the joint you are at.\n\n"
    "Only looking? Leave with q and run: fieldbook demo --play"
)
_ACTIONS = (
    Action("Enter", "open job", "open"),
    Action("l", "lift check", "lift"),
    Action("o", "depth plan", "planner"),
    Action("/", "find", "find"),
    Action("w", "wells", "wells"),
    Action("d", "due", "due"),
    Action("n", "new job", "new"),
    Action("i", "initials", "initials"),
    Action("Esc", "every job", "leave_finding"),
    Action("m", "day, night", "app.day_or_night"),
    Action("F1", "help", "app.help"),
    Action("q", "quit", "ask_quit"),
)


class _Left(Exception):
    """The shelf need not be read to its end."""


class ShelfScreen(Screen[None]):
    """Lists the jobs, the newest saved first."""

    DEFAULT_CSS = """
    ShelfScreen {
        & #title { text-style: bold; padding: 0 1; }
        & #empty { padding: 1 2; height: 1fr; }
        & #said { padding: 0 1; text-style: bold; height: auto; }
        & .gone, & #empty.gone { display: none; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "Open the job the cursor is on"),
        Binding("1", "row(1)", "Go to the job of that number, 1 to 9"),
        *(Binding(str(n), f"row({n})", show=False) for n in range(2, 10)),
        Binding("l", "lift", "Lift check of the job"),
        Binding("o", "planner", "Planner: how deep PVC, steel and hose can go"),
        Binding("slash", "find", "Find jobs by owner, well, pump, day, finding"),
        Binding("w", "wells", "The wells over the years"),
        Binding("d", "due", "Due: follow-ups, lab results, records to file"),
        Binding("n", "new", "New job"),
        Binding("escape", "leave_finding", "Show every job again"),
        Binding("i", "initials", "Say who records"),
        Binding("m", "app.day_or_night", "Black on white, or white on black"),
        Binding("q", "ask_quit", "Quit, once q is pressed again"),
    ]

    AUTO_FOCUS = ""

    app: Host

    def __init__(self) -> None:
        """Nothing is listed yet."""
        super().__init__()
        self._shelf: Shelf | None = None
        self._go_to: Path | None = None
        self._all: ShelfRead | None = None
        self._quits = False

    def compose(self) -> ComposeResult:
        """Title, the field to find in, the jobs, the acts."""
        yield Literal(_TITLE, id="title")
        yield FindField("owner, well, pump, day, finding")
        yield Literal("Reading the shelf ...", id="empty")
        yield JobRows()
        yield Literal("", id="said", classes="gone")
        yield ActionList(_ACTIONS)

    def action_row(self, number: int) -> None:
        """Put the cursor on the job of that number."""
        rows = self.query_one(JobRows)
        if number <= rows.option_count:
            rows.highlighted = number - 1

    def on_mount(self) -> None:
        """Read the shelf once the screen is up."""
        self.reload()

    def begin_anew(self) -> None:
        """Read another home's shelf."""
        self._shelf = self._all = None
        self.reload()

    @work(thread=True, exclusive=True, group="reload")
    def reload(self) -> None:
        """Read the shelf, away from the keys: the newest from the index, then what changed."""
        worker = get_current_worker()
        company = self.app.home.company_steps
        shelf = self._shelf = self.app.shelf
        newest, _ = shelf.newest()
        if newest:
            self.post_message(ShelfRead(len(newest), newest.__getitem__, whole=False))
        from fieldbook.app.shelf.job_status import basis, job_status  # noqa: PLC0415 - loads the walk

        def on_progress(done: int, of: int) -> None:
            if worker.is_cancelled:
                raise _Left
            if of > _MANY and done % 10 == 0:
                self.post_message(ShelfReading(done, of))

        with contextlib.suppress(_Left):
            status_of = partial(job_status, company=company)
            try:
                shelf.refresh(status_of=status_of, basis=basis(company), on_progress=on_progress)
            except OSError as problem:
                self.post_message(ShelfUnread(problem.strerror or str(problem)))
                return
            self.post_message(ShelfRead(*self._listed(shelf.index.documents()), whole=True))

    def _listed(self, summaries: Sequence[Summary]) -> tuple[int, Callable[[int], Listing]]:
        shelf = self._shelf
        assert shelf is not None
        return len(summaries), lambda place: shelf.listing(summaries[place])

    def on_shelf_reading(self, event: ShelfReading) -> None:
        """Say how far the reading is."""
        words = f"{_TITLE}   reading {event.done:,} of {event.of:,} jobs that changed"
        self.query_one("#title", Literal).say(words)

    def on_shelf_unread(self, event: ShelfUnread) -> None:
        """Say that it cannot be read, so that no job is taken for gone."""
        words = f"CANNOT READ THE SHELF: {event.why}; {self.app.home.jobs_folder}"
        self.query_one("#title", Literal).say(words, "stop")
        self.query_one("#empty", Literal).say("Plug in the drive, or mend who may read it.")

    def on_shelf_read(self, event: ShelfRead) -> None:
        """Show the jobs, or find among them again what is looked for."""
        self._all = event
        if event.whole:
            self.query_one("#title", Literal).say(_TITLE)
        if words := self.query_one(FindField).words:
            self.find(words)
        else:
            self._show(event.count, event.listing, _EMPTY)
            if event.count and self.focused is not self.query_one(FindField):
                self.query_one(JobRows).focus()

    def _show(self, count: int, listing: Callable[[int], Listing], otherwise: str) -> None:
        rows = self.query_one(JobRows)
        rows.take(count, listing, self._go_to)
        if rows.chosen is not None and rows.chosen.folder == self._go_to:
            self._go_to = None
        empty = self.query_one("#empty", Literal)
        empty.say(otherwise)
        empty.set_class(bool(count), "gone")

    def on_find_field_asked(self, event: FindField.Asked) -> None:
        """Find while it is typed; without words every job is shown."""
        if event.words:
            self.find(event.words)
        elif self._all is not None:
            self.query_one("#title", Literal).say(_TITLE)
            self._show(self._all.count, self._all.listing, _EMPTY)

    def on_find_field_done(self) -> None:
        """From the field to the jobs."""
        if self.query_one(JobRows).display:
            self.query_one(JobRows).focus()

    @work(thread=True, exclusive=True, group="find")
    def find(self, words: str) -> None:
        """Find jobs in the index, away from the keys."""
        from fieldbook.store.shelf.query import Wanted  # noqa: PLC0415 - loads TinyDB

        worker = get_current_worker()
        if self._shelf is None:
            return
        found = self._shelf.find_jobs(Wanted(tuple(words.split())))
        if not worker.is_cancelled:
            self.post_message(JobsFound(words, *self._listed(found)))

    def on_jobs_found(self, event: JobsFound) -> None:
        """Show what was found, unless something else is looked for by now."""
        if event.words == self.query_one(FindField).words:
            words = f"No job has all of: {event.words}\n\nEsc shows every job."
            self._show(event.count, event.listing, words)
            jobs = "1 job" if event.count == 1 else f"{event.count:,} jobs"
            self.query_one("#title", Literal).say(f"{_TITLE}   {jobs} found")

    def action_ask_quit(self) -> None:
        """Quit where it is asked for twice: on the walk this letter only comes back here."""
        if self._quits:
            self.app.run_worker(self.app.action_quit())
        self._quits = True
        self.say("Quit? Press q again. All is saved.")

    def on_key(self, event: events.Key) -> None:
        """Any other key means that the crew stays."""
        if event.key != "q" and self._quits:
            self._quits = False
            self.say("")

    def action_find(self) -> None:
        """Begin to look for jobs."""
        self.query_one(FindField).begin()

    def action_leave_finding(self) -> None:
        """Every job again."""
        self.query_one(FindField).action_leave()

    def say(self, words: str, state: str = "") -> None:
        """Say something above the keys."""
        line = self.query_one("#said", Literal)
        line.say(words, state)
        line.set_class(not words, "gone")

    def _open(self, folder: Path, *, on: Callable[[Session], None] | None = None) -> None:
        self._go_to = folder
        self.say(self.app.open_job(folder, on=on), "stop")

    def on_option_list_option_selected(self, event: JobRows.OptionSelected) -> None:
        """Enter or a click on a job opens it."""
        event.stop()
        self.action_open()

    def action_open(self) -> None:
        """Open the job the cursor is on."""
        if (listing := self.query_one(JobRows).chosen) is not None:
            self._open(listing.folder)

    def action_wells(self) -> None:
        """Show the wells, first that of the job the cursor is on."""
        if self._shelf is not None:
            chosen = self.query_one(JobRows).chosen
            self.app.show_wells(self._shelf, chosen.folder if chosen is not None else None)

    def action_due(self) -> None:
        """Show what is owed."""
        if self._shelf is not None:
            self.app.show_due(self._shelf)

    def action_lift(self) -> None:
        """Open the job on its lift check."""
        if (listing := self.query_one(JobRows).chosen) is not None:
            self._open(listing.folder, on=self.app.show_lift)

    def lift_beside(self, by: int) -> None:
        """The lift check of the job below the cursor, or above it."""
        rows = self.query_one(JobRows)
        rows.highlighted = min(max((rows.highlighted or 0) + by, 0), rows.option_count - 1)
        self.action_lift()

    def action_planner(self) -> None:
        """Open the job on its planner."""
        if (listing := self.query_one(JobRows).chosen) is not None:
            self._open(listing.folder, on=self.app.show_planner)

    @work
    async def action_initials(self) -> None:
        """Say who records."""
        from fieldbook.app.dialogs.asking import ask_initials  # noqa: PLC0415 - loads the form

        self.say(await ask_initials(self.app))

    @work
    async def action_new(self) -> None:
        """Ask for a new job and open it."""
        from fieldbook.app.dialogs.new_job import ask_new_job  # noqa: PLC0415 - loads the journal

        if (folder := await ask_new_job(self.app)) is not None:
            self._open(folder)
