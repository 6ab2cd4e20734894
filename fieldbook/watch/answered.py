"""The one way a check is asked, so that no figure of the log is more than a check can take."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from calc.check import Check, Verdict
from calc.errors import CalcError

if TYPE_CHECKING:
    from collections.abc import Callable

T = TypeVar("T")
U = TypeVar("U")


def answered(name: str, ask: Callable[[], T]) -> T | Check:
    """What a check answers; `unknown` with the words of `calc` where no formula covers a figure.

    Only what `calc` refuses is caught: it names the quantity, and what its formula covers. Anything
    else is a fault of the program, and is not hidden.
    """
    return answered_or(name, ask, lambda check: check)


def answered_or(name: str, ask: Callable[[], T], otherwise: Callable[[Check], U]) -> T | U:
    """As `answered`, for what answers with more than a check: `otherwise` makes it of the check."""
    try:
        return ask()
    except CalcError as problem:
        missing = (f"a figure that can be: {problem}",)
        return otherwise(Check(name, Verdict.UNKNOWN, missing=missing))
