"""Asks for a new job until it is on the shelf, or the question is left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.dialogs.ask_screen import AskScreen, Question
from fieldbook.quantities.admit import Refused
from fieldbook.record.entry import Draft
from fieldbook.store.shelf.names import folder_name
from fieldbook.walk.definition.record_now import RECORD_NOW

if TYPE_CHECKING:
    from pathlib import Path

    from fieldbook.app.host import Host

_ASKS = ("job_number", "work", "start", "line")
_MUST = ("job_number", "work", "line")
_WORDS = (
    "Record now: the first joint or mark at once, the rest when there is time.\n"
    "Plan first: the whole plan, then the string.\n"
    "The pull has begun? Record now, and start at the joint you are at."
)


async def ask_new_job(app: Host) -> Path | None:
    """The folder of the job that was opened; None when the question was left.

    What there is to choose is chosen already but for the drop line, where the cursor is: on a new
    job that is the one thing nobody can know before. To be awaited in a worker.
    """
    texts: tuple[tuple[str, str], ...] = (
        ("job_number", free_number(app)),
        ("work", "pull"),
        ("start", RECORD_NOW),
    )
    words, state = _WORDS, ""
    while True:
        question = Question("New job", words, _ASKS, _MUST, state, texts, opened_by="n")
        answer = await app.push_screen_wait(AskScreen(question, metric=app.metric))
        if answer is None:
            return None
        try:
            return app.shelf.create(Draft("job", app.initials, answer))
        except (Refused, OSError) as problem:
            texts = tuple((name, value.text) for name, value in answer.items())
            words, state = str(problem), "stop"


def free_number(app: Host) -> str:
    """A job number that no job here has: the day and who records, as crews without one write it.

    Counting on from the last job would give two trucks one number on the same morning.
    """
    day = f"{app.today():%y-%m%d}"
    first = f"{day}-{app.initials}" if app.initials else day
    number, count = first, 1
    while (app.home.jobs_folder / folder_name(number)).exists():
        count += 1
        number = f"{first}-{count}"
    return number
