"""Ask, record, and ask again until it is on disk or left."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from fieldbook.app.dialogs.ask_screen import AskScreen, Question
from fieldbook.quantities.admit import CONFIRMED, Refused

if TYPE_CHECKING:
    from collections.abc import Callable

    from fieldbook.app.host import Host
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry, Value


async def ask_initials(app: Host) -> str:
    """Ask who records from now on; what to say of it, nothing where the question was left."""
    asked = Question("Your initials", asks=("initials",), must=("initials",), opened_by="i")
    answer = await app.push_screen_wait(AskScreen(asked, metric=app.metric))
    if answer is None:
        return ""
    app.set_initials(answer["initials"].text)
    return f"{app.initials} records"


class RecordingDialogs:
    """Puts up a question and records the answer; what is typed is kept until it is saved."""

    def __init__(self, app: Host, session: Session) -> None:
        """Ask about the open job."""
        self._app = app
        self._session = session
        self._at: Value | None = None

    def _record(
        self,
        kind: str,
        values: dict[str, Value],
        *,
        by: str = "",
        note: str = "",
        strikes: str | None = None,
    ) -> Entry:
        by = by or self._app.initials
        return self._session.record(kind, by, values, note=note, strikes=strikes, at=self._at)

    async def _ask(
        self,
        question: Question,
        record: Callable[[dict[str, Value]], object],
        *,
        said: str = "",
    ) -> str:
        """Ask until it is on disk or left; what was said of it, nothing where it was left.

        Args:
            question: What is asked.
            record: Puts the answer on disk.
            said: What to say then; what was saved and when, where empty.
        """
        if self._session.paper is not None and question.dated:
            question = replace(question, asks=_with_the_time(question))
        while True:
            screen = AskScreen(question, metric=self._app.metric)
            answer = await self._app.push_screen_wait(screen)
            if answer is None:
                return ""
            texts = {name: value.text for name, value in answer.items()}
            self._at = answer.pop("written_at", None)
            if screen.confirmed:
                answer |= CONFIRMED
            try:
                record(answer)
            except Refused as problem:
                right = tuple(pair for pair in texts.items() if pair[0] not in problem.again)
                question = replace(question, words=str(problem), state="stop", texts=right)
            except OSError as problem:
                words = f"NOT SAVED: {problem}\nWhat you typed is kept. Enter tries again."
                question = replace(question, words=words, state="stop", texts=tuple(texts.items()))
            else:
                self._app.guard.start()
                made = self._session.job.entries[-1]
                return said or f"{self._session.entry_words(made)}, saved {made.time:%H:%M:%S}"


def _with_the_time(question: Question) -> tuple[str, ...]:
    """What is asked, and the time on the paper: before what Enter may leave out."""
    asks = question.asks
    behind = max((at for at, name in enumerate(asks) if name in question.must), default=len(asks))
    return (*asks[: behind + 1], "written_at", *asks[behind + 1 :])
