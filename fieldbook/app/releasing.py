"""Releasing a hold point: who, in which role, and by name where a check does not hold."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict, worst
from fieldbook.app.ask_screen import Question
from fieldbook.app.asking import Asking
from fieldbook.quantities.admit import Refused
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft
from fieldbook.walk.barring import stopped
from fieldbook.walk.form import naming
from fieldbook.walk.release import refusals

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.record.entry import Value
    from fieldbook.walk.steps import Step


class Releasing(Asking):
    """Asks for the yes of a hold point and records it."""

    async def release(self, step: Step, said: Mapping[str, Value]) -> str:
        """Ask for initials and role, and for a reason where a check is not within.

        Args:
            step: The hold point.
            said: What its form says besides.
        """
        look = self._session.look()
        stops = [check.name for check in look.stops]
        if stopped(step, stops):
            return f"STOP: {' and '.join(stops)}. Not released: change rig or limit (c)"
        checks = [check for check in look.checks if check.name in step.checks]
        verdict = worst(checks) if checks else Verdict.WITHIN
        doubtful = verdict in (Verdict.STOP, Verdict.UNKNOWN)
        asks = ("initials", "role", *(("witness",) if step.witness else ()))
        if doubtful:
            asks = (*asks, "reason", "relies_on")
        asked = Question(
            f"Release hold {step.hold}: {step.title}",
            _words(step, checks),
            asks,
            asks,
            state=verdict.value if doubtful else "",
            texts=(("initials", self._app.initials), ("role", self._role())),
            opened_by="r",
        )

        def record(values: dict[str, Value]) -> None:
            self._put(step, dict(said) | values, verdict, checks)

        return await self._ask(asked, record, said=f"{step.title}: released")

    def _put(
        self, step: Step, values: dict[str, Value], verdict: Verdict, checks: list[Check]
    ) -> None:
        by = values.pop("initials").text.strip()
        values["step"] = naming(step)
        wrong = refusals(
            step,
            Draft("hold", by, values),
            holder=self._holder(step),
            verdict=verdict.value,
            over_rating=any(c.name == "lift" and c.verdict is Verdict.STOP for c in checks),
        )
        if wrong:
            raise Refused("; ".join(wrong))
        if verdict in (Verdict.STOP, Verdict.UNKNOWN) and not self._is_passed(step, values):
            names = ", ".join(c.name for c in checks if c.verdict is verdict)
            passed = {name: values[name] for name in ("reason", "relies_on", "step")}
            self._session.record("check_passed", by, passed | {"check": plain_value(names)})
        self._session.record("hold", by, values)

    def _is_passed(self, step: Step, values: Mapping[str, Value]) -> bool:
        """Whether the same was put down a moment ago, and only the release was not saved then."""
        entries = self._session.job.entries
        last = entries[-1] if entries else None
        return (
            last is not None
            and last.kind == "check_passed"
            and last.text("step") == step.id
            and all(last.values.get(name) == values[name] for name in ("reason", "relies_on"))
        )

    def _role(self) -> str:
        """The role in which these initials last released something on this job."""
        holds = [e for e in self._session.job.live("hold") if e.by == self._app.initials]
        return holds[-1].text("role") if holds else ""

    def _holder(self, step: Step) -> str:
        holds = [e for e in self._session.job.live("hold") if e.text("step") == step.same_person]
        return holds[-1].by if step.same_person and holds else ""


def _words(step: Step, checks: list[Check]) -> str:
    lines = [f"By {' or '.join(step.release)}. Name and time stay in the log."]
    for check in checks:
        missing = f": missing {', '.join(check.missing)}" if check.missing else ""
        governs = f" ({check.governs})" if check.governs else ""
        lines.append(f"{check.name} {check.verdict.value}{governs}{missing}")
    return "\n".join(lines)
