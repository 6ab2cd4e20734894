"""The shelf: the jobs, and a new one."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.screen import Screen
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from fieldbook.app.acts import Acts
from fieldbook.app.ask_screen import AskScreen, Question
from fieldbook.app.literal import Literal
from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from fieldbook.app.app import FieldbookApp
    from fieldbook.store.shelf import Listing

_EMPTY = "The shelf is empty. Press n for a new job."
_ACTS = (
    ("Enter", "open the job", "open"),
    ("l", "lift check", "lift"),
    ("n", "new job", "new"),
    ("m", "day or night", "app.day_or_night"),
    ("F1", "help", "app.help"),
    ("q", "quit", "app.quit"),
)


class ShelfScreen(Screen[None]):
    """Lists the jobs, the newest saved first."""

    DEFAULT_CSS = """
    ShelfScreen {
        & #title { text-style: bold; padding: 0 1; }
        & OptionList { height: 1fr; border: round $border; background: $background; }
        & #empty { padding: 1 2; }
        & .gone { display: none; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "Open the job", show=False),
        Binding("l", "lift", "Lift check"),
        Binding("n", "new", "New job"),
        Binding("m", "app.day_or_night", "Day or night"),
        Binding("q", "app.quit", "Quit"),
    ]

    app: FieldbookApp

    def __init__(self) -> None:
        """Nothing is listed yet."""
        super().__init__()
        self._listings: list[Listing] = []

    def compose(self) -> ComposeResult:
        """Title, the jobs, the acts."""
        yield Literal("fieldbook: the shelf", id="title")
        yield Literal("Reading the shelf ...", id="empty")
        yield OptionList(classes="gone")
        yield Acts(_ACTS)

    def on_mount(self) -> None:
        """Read the shelf once the screen stands."""
        self.reload()

    @work(thread=True, exclusive=True)
    def reload(self) -> None:
        """Read the shelf, away from the keys."""
        from fieldbook.store.shelf import Shelf  # noqa: PLC0415 - loads the journal

        listings = Shelf(self.app.home).jobs()
        self.app.call_from_thread(self._show, listings)

    def _show(self, listings: list[Listing]) -> None:
        self._listings = listings
        options = self.query_one(OptionList)
        options.clear_options()
        options.add_options(Option(_words(listing)) for listing in listings)
        options.set_class(not listings, "gone")
        empty = self.query_one("#empty", Literal)
        empty.say(_EMPTY)
        empty.set_class(bool(listings), "gone")
        if listings:
            options.highlighted = 0
            options.focus()

    def _chosen(self) -> Listing | None:
        at = self.query_one(OptionList).highlighted
        return self._listings[at] if at is not None and at < len(self._listings) else None

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Enter or a click on a job opens it."""
        event.stop()
        self.action_open()

    def action_open(self) -> None:
        """Open the job the cursor is on."""
        if (listing := self._chosen()) is not None:
            self.app.open_job(listing.folder)

    def action_lift(self) -> None:
        """Open the job on its lift check."""
        if (listing := self._chosen()) is not None:
            self.app.open_job(listing.folder, lift=True)

    @work
    async def action_new(self) -> None:
        """Ask for a new job and open it."""
        from fieldbook.quantities.admit import Refused  # noqa: PLC0415 - with the journal
        from fieldbook.record.entry import Draft  # noqa: PLC0415 - with the journal
        from fieldbook.store.shelf import Shelf  # noqa: PLC0415 - loads the journal

        asks = ("job_number", "line", "work", "job_title", "well_name", "owner")
        question = Question("New job", asks=asks, must=("job_number", "line", "work"))
        while True:
            answer = await self.app.push_screen_wait(AskScreen(question, metric=self.app.metric))
            if answer is None:
                return
            try:
                folder = Shelf(self.app.home).create(Draft("job", self.app.initials, answer))
            except (Refused, OSError) as problem:
                texts = tuple((name, value.text) for name, value in answer.items())
                question = Question("New job", str(problem), asks, question.must, "stop", texts)
                continue
            self.app.open_job(folder)
            return


def _words(listing: Listing) -> Content:
    saved = listing.saved.strftime("%Y-%m-%d %H:%M") if listing.saved is not None else ""
    state = "sealed" if listing.sealed else ""
    trouble = f"  ! {len(listing.problems)} found wrong" if listing.problems else ""
    first = f"{listing.job_number}  {listing.title or listing.well}"
    second = f"    {listing.line}, {listing.work}  saved {saved}  {listing.owner} {state}{trouble}"
    return Content(f"{plain(first)}\n{plain(second)}")
