"""Releasing a hold point: who, in which role, and by name where a check does not hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Verdict
from fieldbook.app.dialogs.ask_screen import Question
from fieldbook.app.dialogs.asking import RecordingDialogs
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.walk.entry.form import naming
from fieldbook.walk.release import refusals
from fieldbook.walk.withheld import doubtful, figures_not_passed, not_passed, stop_words
from fieldbook.watch.text import word_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from calc.check import Check
    from fieldbook.record.entry import Value
    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.hold_check import Refutation


_UNKNOWN, _BY_STOP_LOAD = "no ratings or weights at hand", "gauge, and my stop load"
_OPEN_STEPS = "not known at the well", "the office, from the job file"
"""A reason and what one goes by, as a crew writes them, to be kept on one key or typed over."""


class ReleaseDialog(RecordingDialogs):
    """Asks for the yes of a hold point and records it."""

    async def release(self, step: Step, said: Mapping[str, Value]) -> str:
        """Ask for initials and role, and for a reason where a check is not within.

        Args:
            step: The hold point.
            said: What its form says besides.
        """
        session = self._session
        if stopping := stop_words(step, session.verdicts):
            return stopping[0]
        seen = session.against(step)
        if never := [one.words for one in seen if one.rule.never]:
            return f"HOLD is not signed. {never[0]}"
        checks = [check for check in session.look().checks if check.name in step.checks]
        in_doubt = doubtful(step, session.verdicts)
        asks = ("initials", "role", *(("witness",) if step.witness else ()))
        if in_doubt or seen:
            asks = (*asks, "reason", "relies_on")
        stated = {name: value for name, value in said.items() if name != "written_at"}
        times = [("written_at", said[n].text) for n in said if n == "written_at"]
        asked = Question(
            f"Sign: {step.title}",
            _words(step, checks, seen),
            asks,
            asks,
            state="stop" if seen else session.verdicts[in_doubt[0]] if in_doubt else "",
            texts=(
                ("initials", self._initials),
                ("role", self._role(step)),
                *(self._reasons(step, seen) if in_doubt or seen else ()),
                *times,
            ),
            signs=True,
            opened_by="r",
        )

        def record(values: dict[str, Value]) -> None:
            self._put(step, stated | values)

        return await self._ask(asked, record, said=f"{step.title}: signed")

    def _put(self, step: Step, values: dict[str, Value]) -> None:
        session = self._session
        by = values.pop("initials").text.strip()
        values["step"] = naming(step)
        if wrong := refusals(
            step, Draft("hold", by, values), holder=session.stand.holders.get(step.id, "")
        ):
            raise Refused("; ".join(wrong.values()), again=wrong)
        # Where the pass was saved a moment ago, and only the release was not, none is left to pass.
        seen = figures_not_passed(step, by, session.job, session.against(step))
        names = (
            *(one.rule.name for one in seen),
            *not_passed(step, by, session.job, session.verdicts),
        )
        if names:
            passed = {name: values[name] for name in ("reason", "relies_on", "step")}
            passed["check"] = plain_value(", ".join(names))
            self._record("check_passed", passed, by=by)
        if step.each_entry_is_the_yes:  # the reading itself is its yes, once what it says is passed
            return
        if withheld := session.withheld(Draft("hold", by, values)):
            raise Refused("; ".join(withheld))
        self._record("hold", values, by=by)

    @property
    def _initials(self) -> str:
        """Who gives the yes: whoever records, or wrote the paper."""
        paper = self._session.paper
        return paper.by if paper is not None else self._app.initials

    def _role(self, step: Step) -> str:
        """The role in which these initials last released something on this job.

        On a job that records at once, at first, the role that the hold names first.
        """
        holds = [e for e in self._session.job.live("hold") if e.by == self._initials]
        if holds:
            return holds[-1].text("role")
        return step.release[0] if step.turn else ""

    def _reasons(self, step: Step, seen: Sequence[Refutation]) -> tuple[tuple[str, str], ...]:
        """The reason and what one goes by, to be kept or typed over: as these initials gave last.

        On a job that records at once there is one to begin with. What is known to be wrong, by a
        figure or by a check, gets no reason by itself; what is unknown or still open may.
        """
        session = self._session
        job, verdicts = session.job, session.verdicts
        if any(one.rule.figure for one in seen) or any(
            verdicts[name] == Verdict.STOP for name in doubtful(step, verdicts)
        ):
            return ()
        if seen:
            return _pair(*_OPEN_STEPS) if step.turn else ()
        own = [e for e in job.live("check_passed") if e.by == self._initials]
        if own:
            return _pair(own[-1].text("reason"), own[-1].text("relies_on"))
        if not step.turn:
            return ()
        return _pair(_UNKNOWN, _BY_STOP_LOAD if job.last("limit") is not None else "")


def _pair(reason: str, relies_on: str) -> tuple[tuple[str, str], ...]:
    return ("reason", reason), ("relies_on", relies_on)


def _words(step: Step, checks: list[Check], seen: list[Refutation]) -> str:
    # Blank steps are not dangerous as a figure is that says otherwise.
    lines = [f"{'STOP: ' if one.rule.figure else ''}{one.words}." for one in seen]
    lines.append(f"By {' or '.join(step.release)}. Name and time stay in the log.")
    for check in checks:
        missing = f": missing {', '.join(check.missing)}" if check.missing else ""
        governs = f" ({check.governs})" if check.governs else ""
        lines.append(f"{check.name} {word_of(check.verdict)}{governs}{missing}")
    return "\n".join(lines)
