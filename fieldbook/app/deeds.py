"""What is recorded besides the forms of the walk: each asks, records, and says what came of it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, worst
from fieldbook.app.ask_screen import AskScreen, Question
from fieldbook.app.entry_words import title_of, words_of
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.record.tally import tally
from fieldbook.walk.form import naming
from fieldbook.walk.release import refusals

if TYPE_CHECKING:
    from collections.abc import Callable

    from fieldbook.app.app import FieldbookApp
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry, Value
    from fieldbook.walk.steps import Step


class Deeds:
    """Asks for what a deed needs, and records it; what is typed is kept until it is saved."""

    def __init__(self, app: FieldbookApp, session: Session) -> None:
        """Do deeds on the open job."""
        self._app = app
        self._session = session

    async def note(self) -> str:
        """Write a note."""
        asked = Question("Note", asks=("words",), must=("words",))
        return await self._ask(asked, lambda v: self._record("note", {}, note=v["words"].text))

    async def initials(self) -> str:
        """Say who records from now on."""
        asked = Question("Who records?", asks=("initials",), must=("initials",))
        answer = await self._app.push_screen_wait(AskScreen(asked, metric=self._app.metric))
        if answer is None:
            return ""
        self._app.set_initials(answer["initials"].text)
        return f"{self._app.initials} records"

    async def strike(self, entry: Entry | None) -> str:
        """Strike an entry; it stays in the log, marked."""
        if entry is None:
            return "There is nothing to strike"
        words = f"{title_of(entry)}\n{words_of(entry)}\nIt stays in the log, marked as struck."
        asked = Question("Strike this entry?", words, asks=("reason",), must=("reason",))
        return await self._ask(
            asked,
            lambda v: self._record("strike", v, strikes=entry.id),
            said=f"{title_of(entry)} struck",
        )

    async def pass_over(self, step: Step) -> str:
        """Pass a step over, with the reason; a hold with what is relied on too."""
        hold = step.hold is not None
        must = ("reason", "relies_on") if hold else ("reason",)
        words = "This is a hold. Your name stays on it for good." if hold else ""
        asked = Question(
            f"Pass over: {step.title}", words, must, must, state="caution" if hold else ""
        )
        return await self._ask(
            asked, lambda v: self._record("passed_over", v | self._step(step)), said="passed over"
        )

    async def hand_over(self) -> str:
        """Hand the job to another crew lead, both counting aloud."""
        count = tally(self._session.job.live("joint"), "out").count
        words = f"The book counts {count} joints out. Both count aloud and put initials to it."
        asked = Question(
            "Hand over", words, ("witness", "count_now", "gauge_reading", "held_by"),
            ("witness", "count_now"),
        )  # fmt: skip

        def record(values: dict[str, Value]) -> Entry:
            entry = self._record("handover", values)
            self._app.set_initials(values["witness"].text)
            return entry

        return await self._ask(asked, record, said="handed over")

    async def suspend(self) -> str:
        """Suspend the work: what holds the string, well covered, locks on."""
        asked = Question(
            "Suspend the work",
            "Leave the string on two holds. Cover the well. Locks on and tried.",
            ("held_by", "gauge_reading", "well_covered", "locks_on"),
            ("held_by", "well_covered", "locks_on"),
        )
        return await self._ask(asked, lambda v: self._record("suspend", v), said="suspended")

    async def read_gauge(self) -> str:
        """Read the gauge."""
        asked = Question(
            "Gauge reading", asks=("gauge_reading", "raised", "held_by"), must=("gauge_reading",)
        )
        return await self._ask(asked, lambda v: self._record("load", v), said="reading saved")

    async def note_stop(self, checks: tuple[Check, ...]) -> str:
        """Write what happened at a stop; that lifts no limit."""
        check = checks[0]
        words = (
            f"{check.name}: {check.governs}\nThis writes down what happened and what was done."
            " It does not make the lift allowed."
        )
        asked = Question("Write what happened", words, ("reason",), ("reason",), state="stop")

        def record(values: dict[str, Value]) -> Entry:
            said = values | {"check": plain_value(check.name)}
            if check.share is not None:
                said["share"] = plain_value(
                    f"{check.share * 100:.0f}", check.share * 100, "percent"
                )
            return self._record("stop_noted", said)

        return await self._ask(asked, record, said="written down")

    async def release(self, step: Step) -> str:
        """Release a hold: who, in which role, and by name where a check does not hold."""
        checks = [c for c in self._session.look().checks if c.name in step.checks]
        verdict = worst(checks) if checks else Verdict.WITHIN
        over = any(check.verdict is Verdict.STOP and check.name == "lift" for check in checks)
        doubtful = verdict in (Verdict.STOP, Verdict.UNKNOWN)
        asks = ["role", *(["witness"] if step.witness else [])]
        if doubtful:
            asks += ["reason", "relies_on"]
        asked = Question(
            f"Release: {step.title}",
            _release_words(checks, self._app.initials),
            tuple(asks),
            tuple(asks),
            state=verdict.value if doubtful else "",
            texts=(("role", self._role()),),
        )

        def record(values: dict[str, Value]) -> Entry:
            said = values | self._step(step)
            draft = Draft("hold", self._app.initials, said)
            wrong = refusals(
                step, draft, holder=self._holder(step), verdict=verdict.value, over_rating=over
            )
            if wrong:
                raise Refused("; ".join(wrong))
            if doubtful:
                passed = {name: said[name] for name in ("reason", "relies_on", "step")}
                names = ", ".join(c.name for c in checks if c.verdict is verdict)
                self._record("check_passed", passed | {"check": plain_value(names)})
            return self._record("hold", said)

        return await self._ask(asked, record, said="hold released")

    def _role(self) -> str:
        """The role in which these initials last released something on this job."""
        holds = [e for e in self._session.job.live("hold") if e.by == self._app.initials]
        return holds[-1].text("role") if holds else ""

    def _holder(self, step: Step) -> str:
        holds = [e for e in self._session.job.live("hold") if e.text("step") == step.same_person]
        return holds[-1].by if step.same_person and holds else ""

    def _step(self, step: Step) -> dict[str, Value]:
        return {"step": naming(step)}

    def _record(
        self, kind: str, values: dict[str, Value], *, note: str = "", strikes: str | None = None
    ) -> Entry:
        return self._session.record(kind, self._app.initials, values, note=note, strikes=strikes)

    async def _ask(
        self,
        question: Question,
        record: Callable[[dict[str, Value]], Entry],
        *,
        said: str = "saved",
    ) -> str:
        """Ask until it is on disk or left; what was typed stays in the dialog."""
        while True:
            screen = AskScreen(question, metric=self._app.metric)
            answer = await self._app.push_screen_wait(screen)
            if answer is None:
                return ""
            texts = tuple((name, value.text) for name, value in answer.items())
            try:
                record(answer)
            except Refused as problem:
                question = replace(question, words=str(problem), state="stop", texts=texts)
            except OSError as problem:
                words = f"NOT SAVED: {problem}\nWhat you typed is kept. Enter tries again."
                question = replace(question, words=words, state="stop", texts=texts)
            else:
                return said


def _release_words(checks: list[Check], initials: str) -> str:
    lines = [f"{initials} releases it; the name and the time stay in the log."]
    for check in checks:
        missing = f": missing {', '.join(check.missing)}" if check.missing else ""
        governs = f" ({check.governs})" if check.governs else ""
        lines.append(f"{check.name} {check.verdict.value}{governs}{missing}")
    return "\n".join(lines)
