"""Hold points held against the figures that can refute them: before the yes, and after it.

Before it, the newest figure decides at the gate whether a release is taken. After it, a figure that
says otherwise takes the yes back, and the hold waits again. Nothing here changes what is recorded.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definition, definitions
from fieldbook.quantities.figures import figure
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.record.entry import Origin, Value
from fieldbook.walk.counts import counts
from fieldbook.walk.definition.hold_rules import JOINTS_OUT, HoldRule, rules

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step

_TINY = 1e-9  # of a figure: what a conversion may be off
_PERCENT = " percent"


@dataclass(frozen=True, slots=True)
class Refutation:
    """A figure that keeps a hold point from its yes, or takes the yes back.

    Attributes:
        rule: The rule.
        words: What is wrong and what to do.
        entry: The entry that says the figure; None where one is lacking.
    """

    rule: HoldRule
    words: str
    entry: Entry | None = None


def rules_of(step: Step) -> tuple[HoldRule, ...]:
    """What refutes the hold of `step`: by its number, and by its own table."""
    return (*rules().get(step.hold, ()), *step.refuted) if step.hold is not None else ()


def needed(step: Step) -> tuple[str, ...]:
    """The figures that `step` asks and without which its hold gets no yes, besides its `must`."""
    return tuple(rule.figure for rule in rules_of(step) if rule.needed and rule.figure in step.asks)


def not_excused(step: Step) -> frozenset[str]:
    """The figures of `step` that no reason replaces."""
    return frozenset(
        r.figure for r in rules_of(step) if r.never and not r.later and r.figure in step.asks
    )


def never_passed(step: Step) -> bool:
    """Whether nobody passes the hold of `step` by name."""
    return bool(not_excused(step))


def refuted(step: Step, job: Job, steps: Sequence[Step]) -> list[Refutation]:
    """What the newest figures say against the hold of `step`, in the order of the rules.

    Args:
        step: The hold point.
        job: The job.
        steps: The steps of the job as it is, in order.
    """
    found = []
    for rule in rules_of(step):
        if rule.later or not rule.figure:
            continue
        said = list(_saying(rule, step, job, steps))
        if not said and rule.needed and rule.at:
            found.append(Refutation(rule, rule.say))
        if said and _refutes(rule, said[-1], job):
            found.append(_found(rule, said[-1]))
    return found


def taken_back(
    step: Step, given: Entry, job: Job, steps: Sequence[Step], ends: dict[int, list[Entry]]
) -> Refutation | None:
    """The newest figure since the yes that says otherwise; None where none does.

    Args:
        step: The hold point.
        given: The entry that released it, or passed it over.
        job: The job.
        steps: The steps of the job as it is, in order.
        ends: Number of a hold point -> the entries that released it or passed it over.
    """
    against = []
    for rule in rules_of(step):
        if not rule.figure or (given.kind == "passed_over" and not rule.never):
            continue
        over = (e.order for e in ends.get(rule.until or 0, ()) if e.order > given.order)
        end = min(over, default=None)
        for entry in _saying(rule, step, job, steps):
            within = entry.order > given.order and (end is None or entry.order < end)
            if within and _refutes(rule, entry, job):
                against.append(_found(rule, entry))
    return max(against, key=lambda f: f.entry.order if f.entry else (0, ""), default=None)


def _found(rule: HoldRule, entry: Entry) -> Refutation:
    said = figure(entry.values[rule.figure], rule.figure)
    return Refutation(rule, rule.say.replace("{figure}", said), entry)


def _saying(rule: HoldRule, step: Step, job: Job, steps: Sequence[Step]) -> Iterator[Entry]:
    """The live entries that say the figure of `rule` and are not of an earlier step, in order.

    What belongs to an earlier step was measured before this one was done, whenever it was written.
    """
    names = [other.id for other in steps]
    before = set(names[: names.index(step.id)]) if step.id in names else set()
    kinds = rule.kinds or (step.records,)
    saying = [e for kind in kinds for e in job.live(kind) if rule.figure in e.values]
    for entry in sorted(saying, key=lambda entry: entry.order):
        named = entry.text("step")
        if named in ("", *rule.at) if rule.at else named not in before:
            yield entry


def _refutes(rule: HoldRule, entry: Entry, job: Job) -> bool:
    said = entry.values[rule.figure]
    if rule.words:
        return said.text in rule.words
    bound = _bound(rule, entry, job)
    if bound is None or said.number is None:
        return False
    unit = definition(rule.figure).unit
    number, limit = _number(said, unit), _number(bound, unit)
    slack = _slack(rule, entry, job, limit, unit) + _TINY * abs(limit)
    if rule.over:
        return number > limit + slack
    if rule.under:
        return number < limit - slack
    return abs(number - limit) > slack


def _bound(rule: HoldRule, entry: Entry, job: Job) -> Value | None:
    allowed = _value(rule.allowed, rule, entry, job)
    if allowed is not None:
        return allowed
    return _value(rule.over or rule.under or rule.unlike, rule, entry, job)


def _value(text: str, rule: HoldRule, entry: Entry, job: Job) -> Value | None:
    """The figure that a bound means; None where there is none, or nobody said it."""
    kind, _, name = text.rpartition(".")
    if not text:
        return None
    if text == JOINTS_OUT:
        joints = counts(job).out.count
        return Value(str(joints), float(joints), "", Origin.COMPUTED) if joints else None
    if name in definitions():
        found = job.value(kind, name) if kind else entry.values.get(name)
        return found if found is not None and found.number is not None else None
    try:
        return parse(text, definition(rule.figure))
    except NotUnderstood:
        return None


def _slack(rule: HoldRule, entry: Entry, job: Job, limit: float, unit: str) -> float:
    if rule.slack.endswith(_PERCENT):
        return abs(limit) * float(rule.slack.removesuffix(_PERCENT)) / 100.0
    value = _value(rule.slack, rule, entry, job)
    return abs(_number(value, unit)) if value is not None else 0.0


def _number(value: Value, unit: str) -> float:
    """The number of a figure in `unit`; pint loads only where it was typed in another one.

    The shelf shows where each job is before anybody waits for the unit registry.
    """
    if value.unit == unit and value.number is not None:
        return value.number
    from fieldbook.quantities.convert import number_in  # noqa: PLC0415 - loads pint

    return number_in(value, unit)
