"""What every function of calc refuses in every quantity it is given."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from calc.errors import CalcError, NotFinite, WrongDimension
from calc.units import quantity, ureg

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Sequence

    Call = tuple[Callable[..., object], dict[str, Any]]


def quantities_of(calls: Sequence[Call]) -> list[Any]:
    """One case for each quantity among the arguments of each call."""
    return [
        pytest.param(function, arguments, name, id=f"{function.__name__}-{name}")
        for function, arguments in calls
        for name, value in arguments.items()
        if isinstance(value, ureg.Quantity)
    ]


def assert_refuses(
    function: Callable[..., object],
    arguments: dict[str, Any],
    name: str,
    *,
    signed: Collection[str] = (),
) -> None:
    """A wrong dimension, a bare number, NaN and infinity are refused; below zero unless `signed`.

    The arguments as they stand must be good, else the refusals would prove nothing.
    """
    unit = str(arguments[name].units)
    assert function(**arguments) is not None
    for wrong in (quantity(1, "candela"), 1.0):
        with pytest.raises(WrongDimension):
            function(**{**arguments, name: wrong})
    for endless in (float("nan"), float("inf"), -float("inf")):
        with pytest.raises(NotFinite):
            function(**{**arguments, name: quantity(endless, unit)})
    if name not in signed:
        with pytest.raises(CalcError):
            function(**{**arguments, name: quantity(-1.0, unit)})
