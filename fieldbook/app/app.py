"""The app: its themes, who records, and which screen is up."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, ClassVar

from textual.app import SystemCommand
from textual.binding import Binding, BindingType

from fieldbook.app.ending import Ending
from fieldbook.app.shelf.shelf_screen import ShelfScreen
from fieldbook.app.showing import ScreensOnDemand
from fieldbook.app.theme.themes import DAY, NIGHT, THEMES
from fieldbook.app.walk.drafts import DraftKeeper
from fieldbook.app.widgets.debounce import Debounce
from fieldbook.app.widgets.keys import keys_of, printed

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable, Iterable
    from pathlib import Path

    from textual.dom import DOMNode
    from textual.screen import Screen

    from fieldbook.app.dialogs.first_start import FirstAnswers
    from fieldbook.app.session import Session
    from fieldbook.store.shelf.home import Home
    from fieldbook.store.shelf.shelf import Shelf

DEMO_INITIALS = "QA"


class FieldbookApp(ScreensOnDemand):
    """The book on the screen."""

    TITLE = "fieldbook"
    CSS = """
    Screen { background: $background; color: $foreground; }
    AskScreen, FirstStart { background: transparent; }
    Input > .input--placeholder { color: $muted; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("f1", "help", "Help", priority=True),
        Binding("question_mark", "help", "Help", show=False, priority=True),  # over a dialog too
        Binding("f10", "quit", "Quit", priority=True),
        Binding("ctrl+q", "quit", "Quit", show=False, priority=True),
    ]
    ENABLE_COMMAND_PALETTE = True

    def __init__(
        self,
        home: Home,
        *,
        demo: bool = False,
        may_choose: bool = False,
        clock: Callable[[], dt.datetime] | None = None,
        guard: Debounce | None = None,
    ) -> None:
        """Open the book on `home`.

        Args:
            home: The book's home.
            demo: Whether the book is thrown away afterwards.
            may_choose: Whether the first start asks for another folder than `home`.
            clock: What tells the time of an entry; the device's clock when None.
            guard: What keeps a bouncing key from saving twice; the usual one when None.
        """
        super().__init__()
        self.home = home
        self._demo = demo
        self._may_choose = may_choose
        self._clock = clock
        self.guard = guard if guard is not None else Debounce()
        self.half_typed = DraftKeeper()
        self._ending: Ending | None = None
        self._settings = home.settings
        self._session: Session | None = None
        self._shelf: tuple[Home, Shelf] | None = None
        if demo and not self._settings.initials:
            self._settings = replace(self._settings, initials=DEMO_INITIALS)
        for theme in THEMES:
            self.register_theme(theme)
        known = [theme.name for theme in THEMES]
        self.theme = self._settings.theme if self._settings.theme in known else DAY.name

    @property
    def initials(self) -> str:
        """Who records."""
        return self._settings.initials

    @property
    def metric(self) -> bool:
        """Whether a number typed without a unit is metric."""
        return self._settings.units == "metric"

    def update_styles(self, node: DOMNode, animate: bool = True) -> None:
        """Style a node again; one that is not in its place yet is styled when it is put there."""
        if node is self or node.is_attached:
            super().update_styles(node, animate)

    def on_load(self) -> None:
        """End as F10 does where the system asks, from before the terminal is taken."""
        self._ending = Ending(self.action_quit)

    def on_mount(self) -> None:
        """The safety words first, once; then the shelf."""
        self.push_screen(ShelfScreen())
        if not self._settings.safety_seen:
            from fieldbook.app.dialogs.first_start import FirstStart  # noqa: PLC0415 - loads the form

            first = FirstStart(self._settings, self.home, may_choose=self._may_choose)
            self.push_screen(first, self._first_answers)

    def _first_answers(self, answers: FirstAnswers | None) -> None:
        if answers is None:
            return
        if answers.home != self.home:
            self.home = answers.home
            self._settings = self.home.settings
            if isinstance(self.screen, ShelfScreen):
                self.screen.begin_anew()
        self._keep(initials=answers.initials, units=answers.units, safety_seen=True)

    @property
    def shelf(self) -> Shelf:
        """The shelf of the home, one for all screens, so that its index is read once."""
        from fieldbook.store.shelf.shelf import Shelf  # noqa: PLC0415 - loads TinyDB

        if self._shelf is None or self._shelf[0] != self.home:
            self._shelf = (self.home, Shelf(self.home))
        return self._shelf[1]

    def set_initials(self, initials: str) -> None:
        """Say who records from now on."""
        self._keep(initials=initials.strip())

    def _keep(self, **changes: str | bool) -> None:
        self._settings = replace(self._settings, **changes)  # type: ignore[arg-type] # by name
        try:
            self.home.keep(self._settings)
        except OSError as problem:
            self.notify(f"Not kept for next time: {problem}", markup=False, severity="warning")

    def today(self) -> dt.date:
        """The day by the clock of the entries."""
        from fieldbook.store.job.clock import local_time  # noqa: PLC0415 - loads the journal

        return (self._clock or local_time)().date()

    def open_job(self, folder: Path, *, on: Callable[[Session], None] | None = None) -> str:
        """Open a job and show its walk; why not, where it cannot be opened.

        Args:
            folder: Of the job.
            on: Shows the screen that it is opened on alone, such as `show_lift`, instead of the
                walk; to leave that is to close the job.
        """
        # Opening a job needs the unit registry and the journal; the shelf does not wait for them.
        from fieldbook.app.session import Session  # noqa: PLC0415
        from fieldbook.app.walk.screen import WalkScreen  # noqa: PLC0415
        from fieldbook.store.job.book import Book  # noqa: PLC0415
        from fieldbook.store.job.clock import local_time  # noqa: PLC0415
        from fieldbook.walk.definition.steps import BadWalk  # noqa: PLC0415

        try:
            session = Session(
                Book.open(folder, self.home.device_id(), clock=self._clock or local_time),
                company=self.home.company_steps,
                drafts=self.half_typed.of(self.home, folder).drafts,
            )
        except (BadWalk, OSError) as problem:
            return f"This job cannot be opened: {problem}"
        self.half_typed.fit(session, metric=self.metric)
        self._session = session
        if on is None:
            self.push_screen(WalkScreen(session))
        else:
            on(session)
        return ""

    def close_job(self) -> None:
        """Back to the shelf."""
        self._let_go()
        if isinstance(self.screen, ShelfScreen):
            self.screen.reload()

    def _let_go(self) -> None:
        """Close the job that is open, and every screen over the shelf."""
        self.keep_half_typed()
        if self._session is not None:
            self._session.close()
            self._session = None
        while not isinstance(self.screen, ShelfScreen):
            self.pop_screen()

    def lift_beside(self, by: int) -> None:
        """From a lift looked at from the shelf to that of the job below, or above."""
        self._let_go()
        if isinstance(self.screen, ShelfScreen):
            self.screen.lift_beside(by)

    def keep_half_typed(self) -> None:
        """Keep in the home what is half typed now, so that it outlives the program."""
        if self._session is not None:
            self.half_typed.note(self._session, metric=self.metric)
        self.half_typed.write()

    async def action_quit(self) -> None:
        """Close the book; what is half typed is there again when the job is opened."""
        from fieldbook.app.walk.entry import WalkEntry  # noqa: PLC0415 - loaded with a job

        for screen in self.screen_stack:
            if isinstance(screen, WalkEntry):
                screen.keep_draft()
        self.keep_half_typed()
        await super().action_quit()

    def on_unmount(self) -> None:
        """Let go of the book."""
        if self._session is not None:
            self._session.close()

    def action_help(self) -> None:
        """Help for the screen that is up."""
        from fieldbook.app.screens.help_screen import HelpScreen  # noqa: PLC0415 - shown on demand

        if not isinstance(self.screen, HelpScreen):
            self.push_screen(HelpScreen(self.screen))

    def action_command_palette(self) -> None:
        """Every act of the screen by its name."""
        from fieldbook.app.screens.palette import Palette  # noqa: PLC0415 - shown on demand

        if not isinstance(self.screen, Palette):
            self.push_screen(Palette())

    def action_day_or_night(self) -> None:
        """Black on white for the sun, or white on black for the dark."""
        self.theme = NIGHT.name if self.theme == DAY.name else DAY.name
        self._keep(theme=self.theme)

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Everything that a key of the screen does, and what the book does everywhere."""
        yield SystemCommand(
            "Black on white, or white on black", "Change the colours", self.action_day_or_night
        )
        yield SystemCommand("Help", "Keys and words of this screen", self.action_help)
        yield SystemCommand("Quit", "Close the book; all is saved", self.action_quit)
        for binding in keys_of(screen):
            if not binding.action.startswith("app."):
                yield SystemCommand(
                    binding.description,
                    f"Key {printed(binding)}",
                    lambda action=binding.action: self.call_later(screen.run_action, action),
                )
