"""The one verdict of a lift: the worst of what is computed and what the gauge says."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, worst
from fieldbook.watch.gauge.gauge_check import NAME as GAUGE
from fieldbook.watch.lift.lift import NAME as LIFT
from fieldbook.watch.text import limit_words, word_of

if TYPE_CHECKING:
    from fieldbook.watch.gauge.readings import Readings
    from fieldbook.watch.lift.lift import Lift


def lift_verdict(computed: Check, read: Check) -> Check:
    """The verdict of a lift, the same word everywhere it is.

    Where both are as bad, the gauge rules: what was read is named before what was computed.

    Args:
        computed: Every link and the crew's stop load, for the worst load still possible.
        read: The gauge: its newest reading, or the one to expect, against the one never to pass.
    """
    verdict = worst((computed, read))
    good = verdict is Verdict.WITHIN
    # A gauge that says nothing yet names no link; what is computed does.
    both = computed.verdict is read.verdict
    rules = not good and read.verdict is verdict and (read.share is not None or not both)
    ruling, other = (read, computed) if rules else (computed, read)
    governs = ruling.governs
    if rules:
        figures = " ".join(filter(None, (read.name, limit_words(read))))
        governs = ", ".join(filter(None, (figures, read.governs)))
    notes = [ruling.note]
    if not good and other.verdict is not Verdict.WITHIN:
        said = f"{other.name} {word_of(other.verdict)}"
        notes.append(": ".join(filter(None, (said, other.governs))))
    notes.append(other.note)
    missing = dict.fromkeys((*ruling.missing, *other.missing))
    return replace(
        ruling,
        name=computed.name,
        verdict=verdict,
        governs=governs,
        missing=tuple(missing),
        note="; ".join(dict.fromkeys(filter(None, notes))),
    )


def is_read(check: Check) -> bool:
    """Whether a verdict of the lift is the gauge's, and not what is computed."""
    return check.name == LIFT and check.governs.partition(" ")[0].rstrip(",") == GAUGE


def judged(answer: Lift, seen: Readings) -> Lift:
    """The lift check with its one verdict in the place of what is computed alone."""
    return replace(answer, check=lift_verdict(answer.chain, seen.check))
