"""The rows of a step that is done again and again: joints, readings of the reel, pieces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.units import show_unit
from fieldbook.walk.counts import counts

if TYPE_CHECKING:
    from collections.abc import Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step
    from fieldbook.watch.lift.trace import Trace

_A_PAGE = 24
_SPARE = 2
_MOST_ROWS = 500  # as many joints as a run may have; a count with digits too many prints no more
_FEW = {"pieces": 6, "as needed": 4}
_ENDS = ("Time", "Initials")


@dataclass(frozen=True, slots=True)
class Table:
    """Rows to be filled in.

    Attributes:
        heads: What belongs in each column, with its unit.
        choices: Label and words of the columns that are a choice.
        rows: What is in each row already.
    """

    heads: tuple[str, ...]
    choices: tuple[tuple[str, tuple[str, ...]], ...]
    rows: tuple[tuple[str, ...], ...]


def rows_of(
    step: Step,
    job: Job,
    entries: Sequence[Entry],
    trace: Trace | None,
    joints: int | None,
    *,
    done: bool,
    metric: bool,
) -> Table:
    """The rows of a step: those that were written, then empty ones.

    Args:
        step: A step that repeats.
        job: The job.
        entries: What was written for it.
        trace: What the gauge should show; None where nobody can tell.
        joints: How many rows there are to be of joints, or of readings of the reel.
        done: Whether the step is done, so that nothing more is to be written.
        metric: Whether the units are metric.
    """
    expected = _expected(step, trace)
    asks = list(step.asks)
    heads = [_head(name, metric=metric) for name in asks]
    if expected:
        heads += ["Expect full, lbf", "Expect drained, lbf"]
    rows = [
        (
            *(figure(entry.values[name]) if name in entry.values else "" for name in asks),
            *expected.get(_number(entry), ("", "") if expected else ()),
            f"{entry.time:%H:%M}",
            entry.by,
        )
        for entry in entries
    ]
    first = max((_number(entry) for entry in entries), default=0) + 1
    for number in range(first, first + (0 if done else _empty(step, job, joints, len(rows)))):
        numbered = step.repeat == "joints"
        cells = [str(number) if numbered and name == "joint_number" else "" for name in asks]
        rows.append((*cells, *expected.get(number, ("", "") if expected else ()), "", ""))
    return Table((*heads, *_ENDS), _choices(asks), tuple(rows))


def _empty(step: Step, job: Job, joints: int | None, written: int) -> int:
    if step.repeat not in ("joints", "footage"):
        return _FEW[step.repeat]
    if joints is None and step.repeat == "joints":
        joints = counts(job).joints
    rows = min(joints if joints is not None else _A_PAGE, _MOST_ROWS)
    return max(rows - written, 0) + _SPARE


def _expected(step: Step, trace: Trace | None) -> dict[int, tuple[str, str]]:
    """The reading before each joint is broken out, line full and drained, by joint number."""
    if step.repeat != "joints" or step.fixed.get("direction") != "out":
        return {}
    if trace is None or trace.counted_in:  # curves of the string that goes in say nothing of it
        return {}
    # The last point of the curves is what hangs when every joint is out.
    curves = zip(trace.full[:-1], trace.drained[:-1], strict=True)
    return {n: (f"{full:,.0f}", f"{dry:,.0f}") for n, (full, dry) in enumerate(curves, 1)}


def _number(entry: Entry) -> int:
    value = entry.values.get("joint_number")
    return int(value.number) if value is not None and value.number is not None else 0


def _head(name: str, *, metric: bool) -> str:
    quantity = definition(name)
    unit = show_unit(quantity.unit_in(metric=metric))
    return f"{quantity.label}, {unit}" if unit else quantity.label


def _choices(asks: Sequence[str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    quantities = [definition(name) for name in asks]
    return tuple((quantity.label, quantity.choices) for quantity in quantities if quantity.choices)
