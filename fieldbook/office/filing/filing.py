"""The regulator's facts of a job: each given, not applicable in words, or missing by name."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from calc.units import quantity
from fieldbook.office.filing.derived import DERIVED, NOT_FLOWING
from fieldbook.office.filing.localities import Fact, Locality, facts
from fieldbook.quantities.convert import as_quantity, show
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.labels import within
from fieldbook.record.days import finished_on
from fieldbook.record.promised import says_nothing_owed
from fieldbook.walk.states import StepState
from fieldbook.watch.state.facts import Facts

if TYPE_CHECKING:
    import datetime as dt

    from fieldbook.office.sheet.context import SheetContext
    from fieldbook.record.entry import Entry, Value

CHECK_THE_RULE = (
    "Which facts a place asks for, of whom and by when, was read in excerpts: check the current"
    " official text. Who files answers for what is filed."
)


class Answered(StrEnum):
    """How a fact is answered."""

    GIVEN = "given"
    NOT_APPLICABLE = "not applicable"
    PASSED_OVER = "passed over"
    MISSING = "missing"


@dataclass(frozen=True, slots=True)
class Answer:
    """One fact and its answer.

    Attributes:
        fact: The fact.
        how: How it is answered.
        words: The answer, never empty.
    """

    fact: Fact
    how: Answered
    words: str


@dataclass(frozen=True, slots=True)
class Filing:
    """What a record to file would say of a job.

    Attributes:
        locality: The place that asks; None for every fact there is.
        answers: One a fact, in the order asked for.
        finished: The last day of the work; None while it goes on.
        due: The day by which it is to be filed; None when that cannot be said.
        due_words: That day, or why there is none.
        crew_words: What the crew wrote of a record to file; empty where nothing.
    """

    locality: Locality | None
    answers: tuple[Answer, ...]
    finished: dt.date | None
    due: dt.date | None
    due_words: str
    crew_words: str

    @property
    def missing(self) -> tuple[str, ...]:
        """The labels of the facts that are missing."""
        return tuple(a.fact.label for a in self.answers if a.how is Answered.MISSING)

    def document(self) -> dict[str, Any]:
        """The filing as a JSON document."""
        return {
            "locality": self.locality.id if self.locality is not None else None,
            "finished": self.finished.isoformat() if self.finished is not None else None,
            "due": self.due.isoformat() if self.due is not None else None,
            "facts": [
                {
                    "fact": a.fact.id,
                    "label": a.fact.label,
                    "answered": a.how.value,
                    "words": a.words,
                }
                for a in self.answers
            ],
        }


def filing(context: SheetContext, locality: Locality | None = None) -> Filing:
    """Every fact that `locality` asks for, or every fact there is, answered from the job."""
    wanted = locality.facts if locality is not None else tuple(facts())
    finished = finished_on(context.job)
    due, words = _due(locality, finished)
    crew_words = context.job.text("permit", "record_duty")
    if says_nothing_owed(crew_words):
        words += "; the crew wrote that none is owed: check the rule"
    answers = tuple(_answer(context, facts()[name], locality) for name in wanted)
    return Filing(locality, answers, finished, due, words, crew_words)


def _due(locality: Locality | None, finished: dt.date | None) -> tuple[dt.date | None, str]:
    if locality is None:
        return None, "no place was named"
    if locality.days is None:
        return None, "no number of days is known: check the rule"
    if finished is None:
        return None, f"{locality.days} days after the work is finished; it is not yet"
    due = locality.due(finished)
    return due, f"{due}, {locality.days} days after the last work at the well on {finished}"


def _answer(context: SheetContext, fact: Fact, locality: Locality | None) -> Answer:
    work, line = context.job.text("job", "work"), context.job.text("job", "line")
    if fact.works and work and work not in fact.works:
        return Answer(fact, Answered.NOT_APPLICABLE, f"not applicable: the work was to {work}")
    if fact.lines and line and line not in fact.lines:
        return Answer(fact, Answered.NOT_APPLICABLE, f"not applicable: the drop line is {line}")
    if fact.derived:
        words = DERIVED[fact.derived](context)
        how = Answered.NOT_APPLICABLE if words == NOT_FLOWING else Answered.GIVEN
    else:
        words, how = _read(context, fact, locality), Answered.GIVEN
    if words:
        return Answer(fact, how, words)
    if reason := _why_not(context, fact):
        return Answer(fact, Answered.PASSED_OVER, reason)
    return Answer(fact, Answered.MISSING, "MISSING")


def _read(context: SheetContext, fact: Fact, locality: Locality | None) -> str:
    for kind, name in fact.sources:
        for entry in reversed(context.job.live(kind)):
            if name in entry.values and all(entry.text(q) == word for q, word in fact.where):
                return _answered_fact(context, fact, entry, entry.values[name], locality)
    return ""


def _answered_fact(
    context: SheetContext, fact: Fact, entry: Entry, value: Value, locality: Locality | None
) -> str:
    datum = fact.datum or (locality.datum if locality is not None else "")
    words = [_below(context, entry, value, datum) if fact.depth else figure(value)]
    words += [
        f"{within(definition(name).label)} {figure(entry.values[name])}"
        for name in fact.also
        if name in entry.values
    ]
    return ", ".join(words)


def _below(context: SheetContext, entry: Entry, value: Value, wanted: str) -> str:
    """A depth on the datum that is wanted, or as it is and what would be needed to turn it."""
    recorded_from = entry.text("datum") or context.job.text("well", "datum")
    if not recorded_from:
        return f"{figure(value)} below a datum that was not named: MISSING datum"
    if not wanted or wanted == recorded_from:
        return f"{figure(value)} below {recorded_from}"
    stick_up = Facts(context.job).get("well", "stick_up")
    if stick_up is None:
        return f"{figure(value)} below {recorded_from}; MISSING stick-up, to tell it below {wanted}"
    above = stick_up.m_as("ft") if recorded_from == "ground" else -stick_up.m_as("ft")
    turned = quantity(as_quantity(value).m_as("ft") + above, "ft")
    return f"{show(turned, 'ft', 2)} below {wanted} ({figure(value)} below {recorded_from})"


def _why_not(context: SheetContext, fact: Fact) -> str:
    """The reason that was written for not recording a fact; empty when there is none."""
    job = context.job
    for step in context.walk.steps:
        asked = [name for kind, name in fact.sources if kind == step.records and name in step.asks]
        if not asked:
            continue
        state = context.stand.states.get(step.id)
        if state in (StepState.PASSED_OVER, StepState.PASSED_BY_NAME):
            over = [e for e in job.live("passed_over") if e.text("step") == step.id]
            if over:
                return f"not recorded: {over[-1].text('reason')} ({over[-1].by})"
        for entry in reversed(job.live(step.records)):
            if entry.text("step") == step.id and (reason := entry.text("reason")):
                return f"not recorded: {reason} ({entry.by})"
    return ""
