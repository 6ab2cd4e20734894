"""What is recorded besides the forms of the walk: each asks, records, and says what came of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.dialogs.ask_screen import AskScreen, Question
from fieldbook.app.dialogs.asking import RecordingDialogs, ask_initials
from fieldbook.app.walk.position_text import count_words, direction_of
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.typed import plain_value
from fieldbook.walk.counts import counts
from fieldbook.walk.entry.entry_words import words_of
from fieldbook.walk.entry.form import naming
from fieldbook.walk.entry.from_paper import Paper
from fieldbook.walk.handing_over import counted_otherwise
from fieldbook.walk.release import same
from fieldbook.walk.suspension import left_open
from fieldbook.walk.withheld import never_skipped, stop_words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.check import Check
    from fieldbook.record.entry import Entry, Value
    from fieldbook.walk.definition.steps import Step

TYPED_WRONG = "typed wrong"
_MOST_OFFERS = 8
_WHY_STRUCK = (TYPED_WRONG, "counted twice", "did not happen", "wrong joint", "wrong unit")
_WHY_PASSED = ("not on this job", "done before we came", "cannot be done here", "owner's wish")
_WHY_STOPPED = ("set down on the last good hold", "gauge was read wrongly", "stuck, and let down")
_WHY_NOT_WRITTEN = ("not measured", "not on the nameplate", "cannot be reached", "not on this job")


class JobDialogs(RecordingDialogs):
    """What the crew writes besides the forms of the steps."""

    def _offers(self, usual: tuple[str, ...], kind: str) -> tuple[str, ...]:
        """The usual reasons, then those that this job gave last, each on its digit."""
        given = (entry.text("reason") for entry in reversed(self._session.job.entries)
                 if entry.kind == kind)  # fmt: skip
        own = [reason for reason in dict.fromkeys(given) if reason and reason not in usual]
        return (*usual, *own[: _MOST_OFFERS - len(usual)])

    async def note(self) -> str:
        """Write a note; it stays inside unless it is said to be for the customer."""
        asked = Question("Note", asks=("words", "for_customer"), must=("words",), opened_by="n")

        def record(values: dict[str, Value]) -> Entry:
            said = {name: value for name, value in values.items() if name != "words"}
            return self._record("note", said, note=values["words"].text)

        return await self._ask(asked, record, said="note saved")

    async def initials(self) -> str:
        """Say who records from now on."""
        return await ask_initials(self._app)

    async def afterwards(self) -> str:
        """Put a paper into the book from now on, or go back to entries made as it happens."""
        session = self._session
        if session.paper is not None:
            session.paper = None
            return "As it happens again. Before the next lift: look at what holds the string"
        asked = Question(
            "From paper or from memory",
            "Until a is pressed again, entries say who wrote them first and on which day. A yes"
            " to a hold, each joint too, is then shown as not witnessed.",
            ("written_by", "written_on"),
            ("written_by", "written_on"),
            texts=(("written_by", self._app.initials), ("written_on", f"{session.book.now():%F}")),
            opened_by="a",
        )

        def begin(values: dict[str, Value]) -> None:
            paper = Paper(
                values["written_by"].text.strip(), values["written_on"].text, self._app.initials
            )
            if found := paper.problems(session.book.now()):
                raise Refused("; ".join(found))
            session.paper = paper

        return await self._ask(asked, begin, said="FROM PAPER: what is entered now is from paper")

    async def strike(self, entry: Entry | None, older: str = "") -> str:
        """Strike an entry; it stays in the log, marked.

        Args:
            entry: The entry.
            older: How another entry than this one is struck.
        """
        if entry is None:
            return "There is nothing to cross out"
        title = self._session.title(entry)
        asked = Question(
            "Cross out this entry?",
            f"{title}\n{words_of(entry)}\nIt stays in the log, marked as crossed out.{older}",
            asks=("reason",),
            must=("reason",),
            offers=self._offers(_WHY_STRUCK, "strike"),
            dated=False,
            opened_by="x-",
        )
        return await self._ask(
            asked,
            lambda v: self._record("strike", v, strikes=entry.id),
            said=f"{title}: crossed out",
        )

    async def pass_over(self, step: Step) -> str:
        """Pass a step over, with the reason; a hold with what is relied on too."""
        session = self._session
        keeping = never_skipped(step, session.stand, session.job)
        if stopping := stop_words(step, session.verdicts) or keeping:
            return stopping[0]
        hold = step.hold is not None
        must = ("reason", "relies_on") if hold else ("reason",)
        asked = Question(
            f"Skip: {step.title}",
            "This is a hold point. Your name stays on it for good." if hold else "",
            must,
            must,
            state="caution" if hold else "",
            offers=self._offers(_WHY_PASSED, "passed_over"),
            opened_by="p",
        )

        def record(values: dict[str, Value]) -> Entry:
            return self._record("passed_over", values | {"step": naming(step)})

        return await self._ask(asked, record, said=f"{step.title}: skipped")

    async def why_not_written(self, labels: Iterable[str]) -> Value | None:
        """Why something that a form needs is left empty."""
        asked = Question(
            "No figure? Say why",
            ", ".join(labels),
            asks=("reason",),
            must=("reason",),
            offers=_WHY_NOT_WRITTEN,
        )
        answer = await self._app.push_screen_wait(AskScreen(asked, metric=self._app.metric))
        return answer["reason"] if answer is not None else None

    async def hand_over(self) -> str:
        """Hand the job to another crew lead, both counting aloud."""
        session = self._session
        counted = "footage" if session.job.text("job", "line") == "hose" else "count_now"
        direction = direction_of(session.job, session.stand.current)
        open_holds = "; ".join(step.title for step in session.stand.open_holds[:3])
        asked = Question(
            "Hand over",
            f"{count_words(session.job, direction)} by the book. Both count aloud, then the one who"
            f" takes over puts initials here.\nHolds still open: {open_holds or 'none'}",
            ("witness", counted, "gauge_reading", "held_by"),
            ("witness", counted),
            opened_by="h",
        )
        apart = ""

        def record(values: dict[str, Value]) -> None:
            nonlocal apart
            said = values | {"direction": plain_value(direction)}
            entry = self._record("handover", said)
            apart = counted_otherwise(counts(session.job), direction, entry)
            self._app.set_initials(values["witness"].text)

        answer = await self._ask(asked, record, said="handed over")
        if apart:
            return f"Handed over, but {apart}: settle it before a lift"
        # Who locked it out takes the lock off; the new crew locks out before that.
        stand = session.stand
        locked = {
            by
            for name, by in stand.holders.items()
            if stand.states[name].is_open and not same(by, self._app.initials)
        }
        if answer and locked:
            return f"{answer}; locked out by {', '.join(sorted(locked))}: put your own lock on (w)"
        return answer

    async def suspend(self) -> str:
        """Suspend the work: what holds the string, well covered, locks on."""
        asked = Question(
            "Shut the work down",
            "String on its hanger or on two holds. Well covered. Locks on, and tried.",
            ("held_by", "gauge_reading", "well_covered", "locks_on"),
            ("held_by", "well_covered", "locks_on"),
            opened_by="z",
        )
        left = ""

        def record(values: dict[str, Value]) -> None:
            nonlocal left
            left = left_open(self._record("suspend", values))

        answer = await self._ask(asked, record, said="shut down")
        return f"Shut down, but {left}: nobody leaves it like this" if left else answer

    async def read_gauge(self) -> str:
        """Read the gauge."""
        asked = Question(
            "Gauge reading",
            asks=("gauge_reading", "raised", "held_by"),
            must=("gauge_reading",),
            at_the_gauge=True,
            opened_by="g",
        )
        return await self._ask(asked, lambda v: self._record("load", v))

    async def note_stop(self, checks: tuple[Check, ...]) -> str:
        """Write what happened at a stop; that lifts no limit."""
        check = checks[0]
        asked = Question(
            "Write what happened",
            f"{check.name}: {check.governs}\nThis writes down what happened and what was done."
            " It does not make the lift allowed.",
            ("reason",),
            ("reason",),
            state="stop",
            offers=_WHY_STOPPED,
            opened_by="k",
        )

        def record(values: dict[str, Value]) -> Entry:
            said = values | {"check": plain_value(check.name)}
            if check.share is not None:
                percent = f"{check.share * 100:.0f}"
                said["share"] = plain_value(percent, float(percent), "percent")
            return self._record("stop_noted", said)

        return await self._ask(asked, record, said="written down")
