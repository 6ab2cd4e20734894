"""The one shape in which every live check answers."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import magnitude

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.units import Quantity


class Verdict(StrEnum):
    """How a demand compares with what is allowed. The word itself carries the meaning."""

    WITHIN = "within"
    CAUTION = "caution"
    STOP = "stop"
    UNKNOWN = "unknown"


_RANK = {Verdict.WITHIN: 0, Verdict.CAUTION: 1, Verdict.UNKNOWN: 2, Verdict.STOP: 3}


@dataclass(frozen=True, slots=True)
class Check:
    """One answer: what is asked of a part, what it may carry, and how we know.

    Attributes:
        name: What was checked, in the trade's words.
        verdict: `within`, `caution`, `stop` or `unknown`.
        demand: What is asked of the part; None when it cannot be computed.
        allowable: What the part may carry; None when no rating is known.
        share: demand / allowable; None unless both are known.
        governs: The part that sets the verdict ("thread, joint 13").
        missing: Every input that is needed and not given, in plain words. Not empty means the
            verdict is `unknown` unless something already known is over its limit.
        formula: The calculation in words.
        source: Where the formula and the limit come from.
        note: Anything the reader must also know.
        at_least: The limit is a least: `demand` is what is asked, `allowable` what there is of it.
    """

    name: str
    verdict: Verdict
    demand: Quantity | None = None
    allowable: Quantity | None = None
    share: float | None = None
    governs: str = ""
    missing: tuple[str, ...] = ()
    formula: str = ""
    source: str = ""
    note: str = ""
    at_least: bool = False


def judge(  # noqa: PLR0913 - one call states one check
    name: str,
    demand: Quantity | None,
    allowable: Quantity | None,
    *,
    unit: str,
    caution_share: float,
    governs: str = "",
    missing: Iterable[str] = (),
    formula: str = "",
    source: str = "",
    note: str = "",
    at_least: bool = False,
) -> Check:
    """Hold a demand against its allowable.

    A known demand over a known allowable is a `stop` even when other inputs are missing; anything
    else with an input missing is `unknown`. Where nothing is allowed, or nothing is there of what
    is asked, any demand is over it, and no share can say by how much.

    Args:
        name: What is checked.
        demand: What is asked of the part, or None.
        allowable: What it may carry, or None.
        unit: The unit both are compared in.
        caution_share: The share of the allowable from which the verdict is `caution`, 0 to 1; at 1
            all that is allowed is within.
        governs: The part that is checked.
        missing: Inputs that are needed and not given.
        formula: The calculation in words.
        source: Where formula and limit come from.
        note: Anything else the reader must know.
        at_least: Whether the demand is the least that is asked, and the allowable what there is.

    Raises:
        OutOfRange: `caution_share` is not in 0..1, or neither the allowable nor the demand is more
            than zero.
        WrongDimension: Demand or allowable cannot be expressed in `unit`.
    """
    if not 0.0 <= caution_share <= 1.0:
        raise OutOfRange(f"the caution share is {caution_share:g}; it must lie between 0 and 1")
    lacking = tuple(missing)
    share: float | None = None
    over = False
    if demand is not None and allowable is not None:
        asked = magnitude(demand, unit, f"demand of {name}")
        over = magnitude(allowable, unit, f"allowable of {name}") <= 0.0 < asked
        if not over:
            share = asked / magnitude(allowable, unit, f"allowable of {name}", above=0.0)
    if over or (share is not None and share > 1.0):
        verdict = Verdict.STOP
    elif share is None or lacking:
        verdict = Verdict.UNKNOWN
    elif share >= caution_share < 1.0:
        verdict = Verdict.CAUTION
    else:
        verdict = Verdict.WITHIN
    return Check(
        name=name,
        verdict=verdict,
        demand=demand,
        allowable=allowable,
        share=share,
        governs=governs,
        missing=lacking,
        formula=formula,
        source=source,
        note=note,
        at_least=at_least,
    )


def worst(checks: Iterable[Check]) -> Verdict:
    """The verdict that rules a set: `stop`, then `unknown`, then `caution`, then `within`.

    An empty set proves nothing, so it is `unknown`.
    """
    verdicts = [check.verdict for check in checks]
    return max(verdicts, key=_RANK.__getitem__, default=Verdict.UNKNOWN)


def governing(checks: Iterable[Check]) -> Check | None:
    """The check with the largest known share, or None when no share is known."""
    known = [check for check in checks if check.share is not None]
    return max(known, key=lambda check: check.share or 0.0, default=None)
