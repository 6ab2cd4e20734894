"""The shelf: the jobs, and a new one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.screen import Screen

from fieldbook.app.acts import Act, Acts
from fieldbook.app.ask_screen import AskScreen, Question
from fieldbook.app.literal import Literal
from fieldbook.app.rows import Rows

if TYPE_CHECKING:
    from pathlib import Path

    from textual.app import ComposeResult

    from fieldbook.app.app import FieldbookApp
    from fieldbook.store.shelf import Listing

_EMPTY = (
    "The shelf is empty.\n\n"
    "Press n for a new job: its number, its drop line (pvc, steel or hose) and its work.\n"
    "The book then walks you through it, from the plan to the signed record.\n\n"
    "Only looking? Leave with q and run: fieldbook demo"
)
_ACTS = (
    Act("Enter", "open job", "open"),
    Act("l", "lift check", "lift"),
    Act("n", "new job", "new"),
    Act("i", "initials", "initials"),
    Act("m", "day, night", "app.day_or_night"),
    Act("F1", "help", "app.help"),
    Act("q", "quit", "app.quit"),
)
_ASKS = ("job_number", "line", "work", "job_title", "well_name", "owner")
_MUST = ("job_number", "line", "work")


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
        Binding("l", "lift", "Lift check of the job"),
        Binding("n", "new", "New job"),
        Binding("i", "initials", "Say who records"),
        Binding("m", "app.day_or_night", "Black on white, or white on black"),
        Binding("q", "app.quit", "Quit"),
    ]

    app: FieldbookApp

    @dataclass
    class WasRead(Message):
        """The shelf was read."""

        listings: list[Listing]

    def __init__(self) -> None:
        """Nothing is listed yet."""
        super().__init__()
        self._listings: list[Listing] = []
        self._last: Path | None = None

    def compose(self) -> ComposeResult:
        """Title, the jobs, the acts."""
        yield Literal("fieldbook: the shelf", id="title")
        yield Literal("Reading the shelf ...", id="empty")
        yield Rows(classes="gone")
        yield Literal("", id="said", classes="gone")
        yield Acts(_ACTS)

    def on_mount(self) -> None:
        """Read the shelf once the screen stands."""
        self.reload()

    @work(thread=True, exclusive=True)
    def reload(self) -> None:
        """Read the shelf, away from the keys."""
        from fieldbook.app.standing import standing  # noqa: PLC0415 - after the first paint
        from fieldbook.store.shelf import Shelf  # noqa: PLC0415 - loads the journal

        company = self.app.home.company_steps
        listings = Shelf(self.app.home).jobs(stands=lambda job: standing(job, company))
        self.post_message(self.WasRead(listings))

    def on_shelf_screen_was_read(self, event: WasRead) -> None:
        """Show the jobs, the cursor on the one that was open last."""
        self._listings = event.listings
        rows = self.query_one(Rows)
        rows.show(_words(listing) for listing in event.listings)
        rows.set_class(not event.listings, "gone")
        empty = self.query_one("#empty", Literal)
        empty.say(_EMPTY)
        empty.set_class(bool(event.listings), "gone")
        folders = [listing.folder for listing in event.listings]
        if self._last in folders:
            rows.highlighted = folders.index(self._last)
        if folders:
            rows.focus()

    def say(self, words: str, state: str = "") -> None:
        """Say something above the keys."""
        line = self.query_one("#said", Literal)
        line.say(words, state)
        line.set_class(not words, "gone")

    def _open(self, folder: Path, *, lift: bool = False) -> None:
        self._last = folder
        self.say(self.app.open_job(folder, lift=lift), "stop")

    def _chosen(self) -> Listing | None:
        at = self.query_one(Rows).highlighted
        return self._listings[at] if at is not None and at < len(self._listings) else None

    def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Enter or a click on a job opens it."""
        event.stop()
        self.action_open()

    def action_open(self) -> None:
        """Open the job the cursor is on."""
        if (listing := self._chosen()) is not None:
            self._open(listing.folder)

    def action_lift(self) -> None:
        """Open the job on its lift check."""
        if (listing := self._chosen()) is not None:
            self._open(listing.folder, lift=True)

    @work
    async def action_initials(self) -> None:
        """Say who records."""
        asked = Question("Who records?", asks=("initials",), must=("initials",), opened_by="i")
        answer = await self.app.push_screen_wait(AskScreen(asked, metric=self.app.metric))
        if answer is not None:
            self.app.set_initials(answer["initials"].text)
            self.say(f"{self.app.initials} records")

    @work
    async def action_new(self) -> None:
        """Ask for a new job and open it."""
        from fieldbook.quantities.admit import Refused  # noqa: PLC0415 - with the journal
        from fieldbook.record.entry import Draft  # noqa: PLC0415 - with the journal
        from fieldbook.store.shelf import Shelf  # noqa: PLC0415 - loads the journal

        question = Question("New job", asks=_ASKS, must=_MUST, opened_by="n")
        while True:
            answer = await self.app.push_screen_wait(AskScreen(question, metric=self.app.metric))
            if answer is None:
                return
            try:
                folder = Shelf(self.app.home).create(Draft("job", self.app.initials, answer))
            except (Refused, OSError) as problem:
                texts = tuple((name, value.text) for name, value in answer.items())
                question = Question("New job", str(problem), _ASKS, _MUST, "stop", texts)
                continue
            self._open(folder)
            return


def _words(listing: Listing) -> str:
    saved = listing.saved.strftime("%Y-%m-%d %H:%M") if listing.saved is not None else "never"
    sealed = ", sealed" if listing.sealed else ""
    trouble = f"  ! {len(listing.problems)} found wrong" if listing.problems else ""
    title = listing.title or listing.well or listing.owner
    first = f"{listing.job_number}  {title}  ({listing.line}, {listing.work}{sealed}){trouble}"
    return f"{first}\n    {listing.stands}   saved {saved}"
