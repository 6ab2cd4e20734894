"""The walk looks up what earlier jobs on the well remember, while nothing waits for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.walk.ticks import TickingWalk
from fieldbook.store.shelf.wells import memory_of_well

if TYPE_CHECKING:
    from fieldbook.app.session import Session
    from fieldbook.record.memory import Memory

LOOKS_BACK = "look back"
"""Name of the worker that reads the earlier jobs."""


class PrefilledWalk(TickingWalk):
    """A walk that fills the forms of the plan in from the last job on the well."""

    def __init__(self, session: Session) -> None:
        """Walk the job of `session`."""
        super().__init__(session)
        self._well: tuple[str, ...] = ()

    def show_all(self) -> None:
        """Show everything again."""
        raise NotImplementedError

    def _look_back(self) -> None:
        """Look the well up once, and again when the job says that it is another one."""
        job = self._session.job
        well = tuple(job.text("job", name) for name in ("owner", "well_name", "well_id"))
        if well != self._well:
            self._well = well
            self.run_worker(self._read_earlier, name=LOOKS_BACK, thread=True, exit_on_error=False)

    def _read_earlier(self) -> None:
        memory = memory_of_well(self.app.shelf, self._session.job)
        self.app.call_from_thread(self.call_later, self._remembered, memory)

    async def _remembered(self, memory: Memory | None) -> None:
        session = self._session
        if memory is None and session.memory is None:
            return
        untouched = self.form is not None and all(
            text == self._start.get(name, "") for name, text in self.form.texts.items()
        )
        session.memory = memory
        if not self.is_attached:
            return
        if untouched:
            typing = self.focused is not None
            await self.put_form(self._step)
            if typing:  # after Esc the letters act, and the next one is no text
                self.focus_form()
        self.show_all()
