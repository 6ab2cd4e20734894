"""Runs simulated pulls through the book and counts what it said."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import sqrt
from typing import NamedTuple

from tests.listen_sim.apart import distance
from tests.listen_sim.drawing import names_for
from tests.listen_sim.pulls import clean_pull, faulty_pull
from tests.listen_sim.strings import LINES

BIG = 4.0
"""Standard deviations from the next best explanation at which a fault must be decided."""
SIZES = (0.0, 1.0, 2.0, 3.0, 4.0, 6.0, 10.0)


class Outcome(NamedTuple):
    """What the book said of one pull.

    Attributes:
        line: Key of the line.
        truth: What was the matter; empty for nothing.
        said: What was decided first; empty when nothing was.
        unnoticed: Nothing was decided and the last word was as expected.
        apart: Standard deviations to the nearest other explanation.
        after: How many readings it took to decide.
    """

    line: str
    truth: str
    said: str
    unnoticed: bool
    apart: float
    after: int

    @property
    def right(self) -> bool:
        return bool(self.said) and self.said == self.truth

    @property
    def wrong(self) -> bool:
        return bool(self.said) and self.said != self.truth


Task = tuple[str, str, int]
"""Key of the line, name of the fault or nothing, seed."""


def tasks(faulty: int, clean: int) -> list[Task]:
    """So many pulls for each fault on each line, and so many clean ones for each line."""
    names = [(key, name) for key, line in LINES.items() for name in names_for(line)]
    found = [(key, name, seed) for seed in range(faulty) for key, name in names]
    return found + [(key, "", seed) for seed in range(clean) for key in LINES]


def outcome(task: Task) -> Outcome:
    """Run one pull."""
    key, name, seed = task
    if not name:
        told = clean_pull(LINES[key], seed).tellings
        apart = 0.0
    else:
        pull = faulty_pull(name, LINES[key], seed)
        told, apart = pull.tellings, distance(pull)[0]
    for number, telling in enumerate(told, 1):
        if telling.decided and telling.best is not None:
            return Outcome(key, name, telling.best.name, False, apart, number)
    return Outcome(key, name, "", told[-1].verdict == "as expected", apart, 0)


class Share(NamedTuple):
    """A count out of a count, with Wilson's interval at 95 in 100.

    Source: Wilson 1927, as the score interval in any textbook of statistics.
    """

    hits: int
    of: int

    @property
    def interval(self) -> tuple[float, float]:
        if not self.of:
            return 0.0, 1.0
        z2, share = 1.959964**2, self.hits / self.of
        middle = share + z2 / (2 * self.of)
        half = sqrt(z2 * (share * (1 - share) / self.of + z2 / (4 * self.of**2)))
        below = 1 + z2 / self.of
        return max((middle - half) / below, 0.0), min((middle + half) / below, 1.0)

    def __str__(self) -> str:
        if not self.of:
            return "none"
        low, high = self.interval
        return f"{self.hits / self.of:.1%} ({low:.1%} to {high:.1%})"


def wrong_of_decided(outcomes: Iterable[Outcome]) -> Share:
    """Of faults that were decided, those decided wrongly."""
    decided = [o for o in outcomes if o.truth and o.said]
    return Share(sum(o.wrong for o in decided), len(decided))


def false_alarms(outcomes: Iterable[Outcome]) -> Share:
    """Of clean pulls, those in which anything was decided at any reading."""
    clean = [o for o in outcomes if not o.truth]
    return Share(sum(bool(o.said) for o in clean), len(clean))


def decided_if_big(outcomes: Iterable[Outcome]) -> Share:
    """Of faults at least `BIG` from the next best, those decided rightly within three readings."""
    big = [o for o in outcomes if o.truth and o.apart >= BIG]
    return Share(sum(o.right for o in big), len(big))


def power(outcomes: Sequence[Outcome]) -> list[tuple[str, Share, Share]]:
    """(size, decided rightly, decided wrongly) by distance from the next best explanation."""
    found = []
    for low, high in zip(SIZES, (*SIZES[1:], float("inf")), strict=True):
        within = [o for o in outcomes if o.truth and low <= o.apart < high]
        size = f"{low:g} to {high:g}" if high < float("inf") else f"{low:g} and more"
        right, wrong = sum(o.right for o in within), sum(o.wrong for o in within)
        found.append((size, Share(right, len(within)), Share(wrong, len(within))))
    return found
