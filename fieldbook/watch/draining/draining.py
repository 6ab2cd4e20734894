"""Whether the line is proved drained, which decides the worst load that is still possible."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.units import magnitude
from fieldbook.watch.bands import band_words
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.watch.draining.falls import Falls

NAME = "draining"
_ERRORS = 4.0
"""How many gauge errors the fall must be worth: both readings may be off, and so may be what fell,
and less would take for proof what a line that kept its water can show. Ours."""
_SURE_OF_FALL = 0.15  # hose weights and swell are good to about this: ours, no published source
_APART = 2.0  # gauge errors between draining and what else takes load off, to tell them apart: ours


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


GOING_IN = Draining(proved=False, words="running in empty", going_in=True)

RUN = Draining(proved=False, words="full: the pump has run since it was set")


def judge_draining(
    entry: Entry | None,
    *,
    falls: Callable[[Entry], Falls | None],
    load_error: Quantity | None,
    per_reading: float | None,
    full_again: Callable[[Entry], str],
) -> Draining:
    """Hold what was read before and after against what draining gives, and nothing else does.

    Args:
        entry: The newest live `drain` entry, if any.
        falls: Gives what takes load off at the time of draining; asked only where the gauge was
            read before and after.
        load_error: The gauge's error as a hook load, one way.
        per_reading: Hook load that one lbf of reading means.
        full_again: Says which reading after that entry is the reading of a full line; empty for
            none.
    """
    if entry is None:
        return Draining(False, "not drained yet")
    if entry.text("drained_by") == "joint by joint":
        return Draining(False, "drains joint by joint: the line below stays full")
    before, after = of_entry(entry, "load_before"), of_entry(entry, "load_after")
    if before is None or after is None:
        return Draining(False, "not proved: the gauge was not read before and after")
    model = falls(entry)
    if model is None or load_error is None or per_reading is None:
        return Draining(False, "not proved: the expected fall or the gauge's error is not known")
    fall = (before - after) * per_reading
    error = magnitude(load_error, "lbf", "gauge error")
    against = [
        *_unprovable(model, error),
        *_amiss(fall, model, error),
        *_out_of_band(before, after, model),
        *_air(entry),
        *filter(None, [full_again(entry)]),
    ]
    if against:
        return Draining(False, against[0], fall, model.column)
    fell, asked = (magnitude(each, "lbf", "fall") for each in (fall, model.column))
    words = f"drained: load fell {fell:,.0f} lbf, {asked:,.0f} expected"
    return Draining(True, words, fall, model.column)


def _unprovable(model: Falls, error: float) -> Iterator[str]:
    """Why no reading can prove it: too little falls, or something else takes as much off."""
    asked = magnitude(model.column, "lbf", "expected fall")
    pump = magnitude(model.pump, "lbf", "pump")
    cannot = "cannot be proved by load:"
    if asked < _ERRORS * error:
        yield f"{cannot} {asked:,.0f} lbf is too little for the gauge's error"
    if pump < _APART * error:
        yield f"{cannot} with the pump lost it falls as far within the gauge's error"
    if abs(asked - pump) < _APART * error:
        yield f"{cannot} a lost pump, the line still full, takes off as much"
    for least, most in model.parted:
        low, high = (magnitude(end, "lbf", "parted") for end in (least, most))
        if low - error <= asked <= high + error:
            yield f"{cannot} parted below the upper check valve it falls as much"


def _amiss(fall: Quantity, model: Falls, error: float) -> Iterator[str]:
    """What the fall is too little or too much for: nearer to a lost pump than to draining."""
    fell = magnitude(fall, "lbf", "fall")
    asked = magnitude(model.column, "lbf", "expected fall")
    pump = magnitude(model.pump, "lbf", "pump")
    least = asked * (1.0 - _SURE_OF_FALL) - error
    most = min(asked * (1.0 + _SURE_OF_FALL) + error, asked + pump / 2.0)
    between = (asked + pump) / 2.0
    if pump < asked:
        least = max(least, between)
    else:
        most = min(most, between)
    moved = f"fell {fell:,.0f}" if fell >= 0.0 else f"rose {-fell:,.0f}"
    said = f"not proved: load {moved} lbf, draining takes off {asked:,.0f}"
    if fell < least:
        yield said
    elif fell > most:
        yield f"{said}; more is gone with a lost pump or a parted line"


def _out_of_band(before: Quantity, after: Quantity, model: Falls) -> Iterator[str]:
    if not _within(before, model.full):
        yield f"not proved: before is no reading of a full line, {band_words(model.full)}"
    if not _within(after, model.drained):
        yield f"not proved: after is no reading of a drained line, {band_words(model.drained)}"
    elif _within(after, model.full):
        yield f"cannot be proved by load: a full line reads {band_words(model.full)} too"


def _within(reading: Quantity, band: Band) -> bool:
    return bool(band.low <= reading <= band.high)


def _air(entry: Entry) -> Iterator[str]:
    said = entry.text("air_drawn")
    if said == "no":
        yield "not proved: no air drawn in at the top"
    elif said != "yes":
        yield "not proved: air drawn in: blank"


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
        source="statics; within 15 % of it, and nearer to it than to a lost pump: ours",
    )
