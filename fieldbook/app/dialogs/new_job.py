"""Asks for a new job until it is on the shelf, or the question is left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.dialogs.ask_screen import AskScreen, Question
from fieldbook.quantities.admit import Refused
from fieldbook.record.entry import Draft

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.app.host import Host

_ASKS = ("job_number", "line", "work", "job_title", "well_name", "well_id", "owner")
_MUST = ("job_number", "line", "work")


async def ask_new_job(app: Host) -> Path | None:
    """The folder of the job that was opened; None when the question was left.

    To be awaited in a worker.
    """
    question = Question("New job", asks=_ASKS, must=_MUST, opened_by="n")
    while True:
        answer = await app.push_screen_wait(AskScreen(question, metric=app.metric))
        if answer is None:
            return None
        try:
            return app.shelf.create(Draft("job", app.initials, answer))
        except (Refused, OSError) as problem:
            texts = tuple((name, value.text) for name, value in answer.items())
            question = Question("New job", str(problem), _ASKS, _MUST, "stop", texts)
