"""The stops that an entry raised, told where it was saved: which, by how much, and what is next."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.walk.withheld import NEVER_PASSED, WAY_OUT
from fieldbook.watch.told import in_words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.check import Check
    from fieldbook.walk.stand import Stand


def raised_words(checks: Iterable[Check], stand: Stand) -> str:
    """A line for each check that says stop since the entry."""
    return "\n".join(f"STOP: {_limit(check)}. {_next(check, stand)}" for check in checks)


def _limit(check: Check) -> str:
    figures = ""
    if check.demand is not None and check.allowable is not None:
        figures = f" {in_words(check.demand)} of {in_words(check.allowable)}"
    governs = f", {check.governs}" if check.governs else ""
    return f"{check.name}{figures}{governs}"


def _next(check: Check, stand: Stand) -> str:
    """What is done about it, and who may go on without that, at which hold."""
    if check.name in NEVER_PASSED:
        return f"Nothing is lifted until it is gone: {WAY_OUT} (Esc, c)"
    change = "Change what is wrong: Esc, c"
    hold = next((hold for hold in stand.open_holds if check.name in hold.checks), None)
    if hold is None or not hold.release:
        return change
    return f"{change}. Else {' or '.join(hold.release)} passes it by name at: {hold.title}"
