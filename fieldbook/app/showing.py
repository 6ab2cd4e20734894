"""The screens that the app shows over the shelf or the walk, each loaded when it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.host import Host
from fieldbook.app.shelf.shelf_screen import ShelfScreen

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.app.session import Session
    from fieldbook.store.shelf.shelf import Shelf


class ScreensOnDemand(Host):
    """An app that shows a screen of the open job, and closes the job when none is left of it."""

    _session: Session | None = None

    def show_wells(self, shelf: Shelf, folder: Path | None) -> None:
        """Show the wells, the cursor on that of the job in `folder`."""
        from fieldbook.app.shelf.wells_screen import WellsScreen  # noqa: PLC0415 - loads the plot

        self.push_screen(WellsScreen(shelf, folder, self.today()))

    def show_due(self, shelf: Shelf) -> None:
        """Show what is owed."""
        from fieldbook.app.shelf.due_screen import DueScreen  # noqa: PLC0415 - loads the journal

        self.push_screen(DueScreen(shelf, self.today()))

    def show_lift(self, session: Session) -> None:
        """Show the lift check."""
        from fieldbook.app.screens.lift_screen import LiftScreen  # noqa: PLC0415 - shown on demand

        alone = isinstance(self.screen, ShelfScreen)
        self.push_screen(LiftScreen(session, alone=alone), self._left_alone)

    def show_planner(self, session: Session) -> None:
        """Show how deep each drop line can go."""
        from fieldbook.app.screens.planner_screen import PlannerScreen  # noqa: PLC0415 - shown on demand

        self.push_screen(PlannerScreen(session), self._left_alone)

    def show_trace(self, session: Session) -> None:
        """Show the trace of the gauge."""
        from fieldbook.app.screens.trace_screen import TraceScreen  # noqa: PLC0415 - loads the plot

        self.push_screen(TraceScreen(session))

    async def show_log(self, session: Session) -> None:
        """Show every entry, until the log is left."""
        from fieldbook.app.screens.log_screen import LogScreen  # noqa: PLC0415 - shown on demand

        await self.push_screen_wait(LogScreen(session))

    def show_emergency(self, session: Session) -> None:
        """Show where we are and whom to call."""
        from fieldbook.app.screens.emergency_screen import EmergencyScreen  # noqa: PLC0415 - on demand
        from fieldbook.gear.emergency import load_numbers  # noqa: PLC0415 - on demand
        from fieldbook.gear.item import BadGear  # noqa: PLC0415 - on demand

        try:
            card = EmergencyScreen(session.job, load_numbers(self.home.emergency_file))
        except BadGear as problem:  # what the job itself says is shown all the same
            card = EmergencyScreen(session.job, trouble=str(problem))
        self.push_screen(card)

    def _left_alone(self, _: None) -> None:
        """A screen was left that a job was opened on from the shelf: back there."""
        self.call_later(self._close_if_left)

    def _close_if_left(self) -> None:
        if self._session is not None and isinstance(self.screen, ShelfScreen):
            self.close_job()
