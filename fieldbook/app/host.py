"""What the screens ask of the app, so that no screen imports the app that imports it."""

from __future__ import annotations

from abc import abstractmethod
from typing import TYPE_CHECKING

from fieldbook.app.key_queue import QueuedKeysApp

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable
    from pathlib import Path

    from fieldbook.app.session import Session
    from fieldbook.app.walk.drafts import DraftKeeper
    from fieldbook.app.widgets.debounce import Debounce
    from fieldbook.store.shelf.home import Home
    from fieldbook.store.shelf.shelf import Shelf


class Host(QueuedKeysApp):
    """The app as its screens see it.

    Attributes:
        home: The book's home.
        guard: What keeps a bouncing key from saving twice.
        half_typed: What is half typed in each job.
    """

    home: Home
    guard: Debounce
    half_typed: DraftKeeper

    @property
    @abstractmethod
    def initials(self) -> str:
        """Who records."""

    @property
    @abstractmethod
    def metric(self) -> bool:
        """Whether a number typed without a unit is metric."""

    @property
    @abstractmethod
    def shelf(self) -> Shelf:
        """The shelf of the home, one for all screens."""

    @abstractmethod
    def set_initials(self, initials: str) -> None:
        """Say who records from now on."""

    @abstractmethod
    def today(self) -> dt.date:
        """The day by the clock of the entries."""

    @abstractmethod
    def open_job(self, folder: Path, *, on: Callable[[Session], None] | None = None) -> str:
        """Open a job and show its walk; why not, where it cannot be opened."""

    @abstractmethod
    def close_job(self) -> None:
        """Go back to the shelf."""

    @abstractmethod
    def lift_beside(self, by: int) -> None:
        """From a lift looked at from the shelf to that of the job below, or above."""

    @abstractmethod
    def keep_half_typed(self) -> None:
        """Keep in the home what is half typed."""

    @abstractmethod
    def show_wells(self, shelf: Shelf, folder: Path | None) -> None:
        """Show the wells, the cursor on that of the job in `folder`."""

    @abstractmethod
    def show_due(self, shelf: Shelf) -> None:
        """Show what is owed."""

    @abstractmethod
    def show_lift(self, session: Session) -> None:
        """Show the lift check."""

    @abstractmethod
    def show_planner(self, session: Session) -> None:
        """Show how deep each drop line can go."""

    @abstractmethod
    def show_trace(self, session: Session) -> None:
        """Show the trace of the gauge."""

    @abstractmethod
    async def show_log(self, session: Session) -> None:
        """Show every entry, until the log is left."""

    @abstractmethod
    def show_emergency(self, session: Session) -> None:
        """Show where we are and whom to call."""
