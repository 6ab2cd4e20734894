"""The answer to "may I lift this" in three lines, the same on screen, on paper and in a terminal.

The verdict first, then the reading to stop at, then what the gauge should read and reads.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from calc.check import Verdict
from calc.units import magnitude
from fieldbook.quantities.convert import show
from fieldbook.watch.bands import band_words
from fieldbook.watch.lift.lift import STOP_LOAD
from fieldbook.watch.lift.load_path import CAUTION_SHARE
from fieldbook.watch.lift.verdict import is_read
from fieldbook.watch.text import word_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.units import Quantity
    from fieldbook.watch.watcher import Look

_FIRST = {
    Verdict.WITHIN: "OK TO LIFT",
    Verdict.CAUTION: "LIFT WITH CAUTION",
    Verdict.STOP: "STOP",
    Verdict.UNKNOWN: "CAN'T SAY",
}
YOURS = "yours"
"""Whose stop load it is: the crew's own, which they typed."""


class Answer(NamedTuple):
    """The three lines.

    Attributes:
        verdict: Whether it may be lifted, and why not where it may not.
        stop_at: The reading at which the lift stops.
        gauge: What the gauge should read, and reads.
    """

    verdict: str
    stop_at: str
    gauge: str


def lift_answer(look: Look) -> Answer:
    """The three lines of a lift."""
    return Answer(first_words(look), stop_words(look), gauge_words(look))


def first_words(look: Look) -> str:
    """The verdict and its reason."""
    check = look.lift.check
    if not look.now.has_load:
        return f"{word_of(check.verdict)}: {check.governs}"
    first = _FIRST[check.verdict]
    if check.verdict is Verdict.UNKNOWN:
        return f"{first}: needs {some(check.missing)}" if check.missing else first
    if check.verdict is Verdict.STOP:
        return f"{first}: {_over(look)}"
    reason = _caution(look) if check.verdict is Verdict.CAUTION else ""
    return f"{first}: {reason}" if reason else first


def _over(look: Look) -> str:
    """What is over what, and by how much."""
    chain, read = look.lift.chain, look.readings.check
    ruling = read if is_read(look.lift.check) else chain
    if look.readings.read is None and chain.verdict is Verdict.STOP:
        ruling = chain  # nothing is read yet: the link says more than the reading to come
    if ruling.demand is None or ruling.allowable is None:
        return ruling.governs or ruling.note
    figures, over = _figures(ruling.demand, ruling.allowable), ruling.demand - ruling.allowable
    words = f"OVER BY {figures[2]}" if magnitude(over, "lbf", "over") > 0.0 else "nothing left"
    if ruling is read:
        what = "gauge reads" if look.readings.read is not None else "gauge will read"
        return f"{what} {figures[0]}, stop at {figures[1]}: {words}"
    return f"{figures[0]} lbf on {ruling.governs}, limit {figures[1]}: {words}"


def _caution(look: Look) -> str:
    said = (look.lift.chain, look.readings.check)
    check = next((one for one in said if one.verdict is Verdict.CAUTION), look.lift.check)
    if check.share is None or check.share < CAUTION_SHARE:
        return check.note.partition("; ")[0]
    return f"{check.share:.0%} of {check.governs}" if check.governs else f"{check.share:.0%}"


def stop_words(look: Look) -> str:
    """The reading at which the lift stops, whose limit it is, and what it leaves out."""
    seen = look.readings
    if not look.now.has_load:
        return ""
    needs = f"not checked: {some(seen.never_needs)}" if seen.never_needs else ""
    if seen.never is None:
        return f"STOP AT: can't say, needs {some(seen.never_needs)}"
    of = YOURS if seen.never_of == STOP_LOAD else seen.never_of
    words = f"STOP AT {show(seen.never, 'lbf')} on the gauge ({of})"
    return f"{words}; {needs}" if needs else words


def gauge_words(look: Look) -> str:
    """What the gauge should read now, and what it reads."""
    seen = look.readings
    if not look.now.has_load:
        return ""
    drained = look.draining.leaves_empty
    band = seen.expect_drained if drained else seen.expect_full
    line = "drained" if drained else "full"
    should = (
        f"should read {band_words(band)} {line}" if band is not None else "no reading to expect"
    )
    reads = f"reads {_lbf(seen.read)}" if seen.read is not None else "not read yet"
    return f"gauge {should}, {reads}"


def some(missing: Sequence[str]) -> str:
    """The first that is missing, and how many more."""
    more = f" and {len(missing) - 1} more" if len(missing) > 1 else ""
    return f"{missing[0]}{more}" if missing else "more figures"


def _figures(demand: Quantity, allowable: Quantity) -> tuple[str, str, str]:
    return _lbf(demand), _lbf(allowable), _lbf(demand - allowable)


def _lbf(load: Quantity) -> str:
    return f"{magnitude(load, 'lbf', 'load'):z,.0f}"
