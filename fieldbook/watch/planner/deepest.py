"""How deep a candidate can go: the deepest string of which a limit is not passed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.check import Verdict
from calc.units import magnitude
from fieldbook.watch.lift.load_path import CAUTION_SHARE

if TYPE_CHECKING:
    from calc.check import Check
    from calc.units import Quantity
    from fieldbook.watch.planner.trial import Bench, Trial

FARTHEST = 2000.0
"""Feet of drop line up to which a limit is sought."""
_FINEST = 0.25
_FORBIDS = 1.0


@dataclass(frozen=True, slots=True)
class Limit:
    """What one limit allows.

    Attributes:
        name: Of the limit.
        length: Longest drop line it allows, ft; None while it is not known.
        setting: Where the intake hangs then; None while that is not known.
        caution: Longest drop line that stays below the share from which a check is a caution;
            sought only for the limit that governs.
        beyond: It allows more than was looked for.
        check: The check at that length, or as it is where no length is known.
        missing: What is needed to know it.
    """

    name: str
    length: float | None
    setting: Quantity | None
    caution: float | None
    beyond: bool
    check: Check
    missing: tuple[str, ...]


def limits(bench: Bench) -> list[Limit]:
    """Every limit of the candidate on `bench`, in the order of its checks."""
    found = [_limit(bench, name) for name in bench.at(_FINEST).limits]
    ruling = governing_limit(found)
    if ruling is None or ruling.check.share is None:
        return found
    caution = _longest(bench, ruling.name, CAUTION_SHARE)
    return [replace(limit, caution=caution) if limit is ruling else limit for limit in found]


def _limit(bench: Bench, name: str) -> Limit:
    at_once = bench.at(_FINEST).limits[name]
    if at_once.share is None:
        # Nothing to search: not known, or a window that no length changes.
        allowed = FARTHEST if at_once.verdict is Verdict.WITHIN else None
        if at_once.verdict is Verdict.STOP:
            allowed = 0.0
        beyond = allowed == FARTHEST
        return Limit(name, allowed, None, None, beyond, at_once, at_once.missing)
    length = _longest(bench, name, _FORBIDS)
    there = bench.at(length if length > 0.0 else _FINEST)
    return Limit(
        name=name,
        length=length,
        setting=there.setting,
        caution=None,
        beyond=length == FARTHEST,
        check=there.limits[name],
        missing=there.limits[name].missing,
    )


def _longest(bench: Bench, name: str, share: float) -> float:
    """The longest string, to a quarter of a foot, before the first that is over `share`.

    A share is made of straight lines of the length, which bend where an end goes under water: a
    string lighter than water loads less again from there on, so the bends are looked at first.
    """
    low = 0.0
    for high in _bends(bench):
        if _over(bench.at(high), name, share):
            break
        low = high
    else:
        return FARTHEST
    rounds = 0
    while high - low > _FINEST:
        rounds += 1
        guess = _crossing(bench, name, share, low, high) if rounds % 3 else 0.5 * (low + high)
        for length in (guess - 0.4 * _FINEST, guess + 0.4 * _FINEST):
            if low < length < high:
                if _over(bench.at(length), name, share):
                    high = length
                    break
                low = length
    return low


def _bends(bench: Bench) -> list[float]:
    """Lengths at which the foot of the line, or of the pump, goes under water; and the farthest."""
    now = bench.at(_FINEST).now
    ends = [FARTHEST]
    if now.deepest is not None:
        foot = magnitude(now.deepest, "ft", "level") - magnitude(now.top, "ft", "top")
        ends += [foot, foot - max(now.hanging_ft - _FINEST, 0.0)]
    return sorted(end for end in ends if _FINEST < end <= FARTHEST)


def _crossing(bench: Bench, name: str, share: float, low: float, high: float) -> float:
    """Where the straight line between two lengths reaches `share`."""
    below, above = (bench.at(max(end, _FINEST)).limits[name].share for end in (low, high))
    if below is None or above is None or above <= below:
        return 0.5 * (low + high)
    return low + (high - low) * (share - below) / (above - below)


def _over(trial: Trial, name: str, share: float) -> bool:
    found = trial.limits[name].share
    return found is None or found > share


def governing_limit(found: list[Limit]) -> Limit | None:
    """The limit that allows the least, among those that are known."""
    known = [limit for limit in found if limit.length is not None]
    return min(known, key=lambda limit: limit.length or 0.0, default=None)
