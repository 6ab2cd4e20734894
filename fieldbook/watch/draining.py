"""Whether the line is proved drained, which decides the worst load that is still possible."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.units import magnitude
from fieldbook.watch.facts import of_entry

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.units import Quantity
    from fieldbook.record.entry import Entry

NAME = "draining"
_ERRORS = 4.0
"""How many gauge errors the fall must be worth: both readings may be off, and so may be what fell,
and less would take for proof what a line that kept its water can show. Ours."""
_SHARE_OF_FALL = 0.85  # hose weights and swell are good to about this: ours, no published source


@dataclass(frozen=True, slots=True)
class Draining:
    """What the gauge says about the water in the line.

    Attributes:
        proved: The gauge proves that the line is drained.
        words: Why, or why not, in plain words.
        fall: How far the hook load fell; None when it was not read before and after.
        expected: How far it falls when the whole column above the outside level is let go.
        going_in: The string is being set: it fills to the water outside until the pump runs. The
            lift check goes on answering for a full line, which is how it comes out one day.
    """

    proved: bool
    words: str
    fall: Quantity | None = None
    expected: Quantity | None = None
    going_in: bool = False

    @property
    def leaves_empty(self) -> bool:
        """Whether the reading to expect is that of a line with no column above the water."""
        return self.proved or self.going_in


GOING_IN = Draining(proved=False, words="goes in empty, fills to the water outside", going_in=True)

RUN = Draining(proved=False, words="full: the pump has run since it was set")


def judge_draining(
    entry: Entry | None,
    *,
    expected: Callable[[Entry], Quantity | None],
    load_error: Quantity | None,
    per_reading: float | None,
) -> Draining:
    """Hold the fall that was read against the fall that draining must give.

    Args:
        entry: The newest live `drain` entry, if any.
        expected: Gives the hook load of the column above the outside level at the time of
            draining; asked only where the gauge was read before and after.
        load_error: The gauge's error as a hook load, one way.
        per_reading: Hook load that one lbf of reading means.
    """
    if entry is None:
        return Draining(False, "not drained yet")
    if entry.text("drained_by") == "joint by joint":
        return Draining(False, "drains joint by joint: the line below stays full")
    before, after = of_entry(entry, "load_before"), of_entry(entry, "load_after")
    if before is None or after is None:
        return Draining(False, "not proved: the gauge was not read before and after")
    column = expected(entry)
    if column is None or load_error is None or per_reading is None:
        return Draining(False, "not proved: the expected fall or the gauge's error is not known")
    return _weigh((before - after) * per_reading, column, load_error)


def _weigh(fall: Quantity, expected: Quantity, load_error: Quantity) -> Draining:
    fell, asked = magnitude(fall, "lbf", "fall"), magnitude(expected, "lbf", "expected fall")
    error = magnitude(load_error, "lbf", "gauge error")
    if asked < _ERRORS * error:
        words = f"cannot be proved by load: {asked:,.0f} lbf is too little for the gauge's error"
        return Draining(False, words, fall, expected)
    if fell < asked * _SHARE_OF_FALL - error:
        moved = f"fell {fell:,.0f}" if fell >= 0.0 else f"rose {-fell:,.0f}"
        words = f"not proved: load {moved} lbf, draining takes off {asked:,.0f}"
        return Draining(False, words, fall, expected)
    words = f"drained: load fell {fell:,.0f} lbf, {asked:,.0f} expected"
    return Draining(True, words, fall, expected)


def draining_check(entry: Entry | None, found: Draining) -> Check | None:
    """Whether the line is proved empty, once it is said to have been drained at one go.

    None before that, and where a line drains joint by joint, which proves nothing below.
    """
    if entry is None or entry.text("drained_by") == "joint by joint":
        return None
    return Check(
        NAME,
        Verdict.WITHIN if found.proved else Verdict.UNKNOWN,
        demand=found.fall,
        allowable=found.expected,
        governs=found.words,
        missing=() if found.proved else ("proof that the line is empty",),
        formula="fall of the hook load against the weight of the column above the outside level",
        source="statics; 85 % of it, less the gauge's error, is proof: ours, no published source",
    )
