"""The one pint registry of the project, and the gate by which numbers enter a formula.

Public functions of `calc` take and return `Quantity`; inside they work on plain floats in the
units named by `magnitude`. Two registries cannot be mixed, so nothing else makes one.

Weights in this trade are read as forces (a load gauge shows pounds-force), while tables print
pounds. `as_force` turns a mass into its standard weight so that either may be given.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache
from typing import TYPE_CHECKING, TypeAlias

import pint

from calc.errors import NotFinite, OutOfRange, WrongDimension

if TYPE_CHECKING:
    from pint.util import UnitsContainer

ureg: pint.UnitRegistry[float] = pint.UnitRegistry()
ureg.define("gpm = gallon / minute")
ureg.define("Mohm = megaohm")
ureg.define("NTU = []")

Quantity: TypeAlias = pint.Quantity[float]


@lru_cache(maxsize=4096)
def quantity(value: float, unit: str) -> Quantity:
    """A quantity of `value` in `unit`, where `unit` is our own text and never typed by a user.

    The same figures are asked for at every look at a job, and pint takes its time to make one:
    what was made is handed out again, so nobody changes a quantity in place.

    >>> round(quantity(20.5, "ft").m_as("m"), 4)
    6.2484
    """
    return ureg.Quantity(float(value), _unit(unit))


@cache
def _unit(unit: str) -> pint.Unit:
    return ureg.Unit(unit)


@cache
def _factor(given: UnitsContainer, unit: str) -> float | None:
    """What turns `given` into `unit` by multiplying; None for a scale with its own zero, as degF.

    Live checks convert hundreds of values; looking the factor up is a tenth of pint's own cost.

    Raises:
        DimensionalityError: The one cannot be expressed in the other.
    """
    wanted = _unit(unit)
    factor = float(ureg.Quantity(1.0, given).m_as(wanted))
    straight = float(ureg.Quantity(0.0, given).m_as(wanted)) == 0.0
    return factor if straight else None


def magnitude(
    value: Quantity,
    unit: str,
    name: str,
    *,
    at_least: float | None = None,
    above: float | None = None,
    at_most: float | None = None,
) -> float:
    """The plain number of `value` in `unit`, after its dimension and range have been checked.

    Args:
        value: Any quantity.
        unit: The unit the formula works in.
        name: What the value is, for the message of an error.
        at_least: Smallest allowed number, in `unit`.
        above: The number must be greater than this, in `unit`.
        at_most: Largest allowed number, in `unit`.

    Raises:
        WrongDimension: `value` is not a quantity, or cannot be expressed in `unit`.
        NotFinite: `value` is NaN or infinite.
        OutOfRange: `value` is outside the limits given.

    >>> magnitude(quantity(1, "ft"), "in", "length")
    12.0
    """
    if not isinstance(value, ureg.Quantity):
        raise WrongDimension(f"{name} needs a unit such as {unit}, got {value!r}")
    try:
        # `value.units` would make a new `Unit` each time, which takes longer than all of the rest.
        factor = _factor(value._units, unit)  # noqa: SLF001
        number = float(value.m_as(unit) if factor is None else value.magnitude * factor)
    except pint.DimensionalityError as error:
        raise WrongDimension(
            f"{name} is in {value.units}; it needs a unit such as {unit}"
        ) from error
    if not math.isfinite(number):
        raise NotFinite(f"{name} is {number}, not a finite number")
    if at_least is not None and number < at_least:
        raise OutOfRange(f"{name} is {number:g} {unit}, less than {at_least:g} {unit}")
    if above is not None and number <= above:
        raise OutOfRange(f"{name} is {number:g} {unit}; it must be more than {above:g} {unit}")
    if at_most is not None and number > at_most:
        raise OutOfRange(f"{name} is {number:g} {unit}, more than {at_most:g} {unit}")
    return number


def as_force(value: Quantity, name: str, *, at_least: float | None = 0.0) -> float:
    """A weight in lbf, given as a force or as a mass under standard gravity.

    Raises:
        WrongDimension: Neither a force nor a mass.
        NotFinite: NaN or infinite.
        OutOfRange: Less than `at_least` lbf.

    >>> as_force(quantity(100, "lb"), "pump")
    100.0
    >>> round(as_force(quantity(100, "kg"), "pump"), 1)
    220.5
    """
    if isinstance(value, ureg.Quantity) and value.check("[mass]"):
        return magnitude(value, "lb", name, at_least=at_least)
    return magnitude(value, "lbf", name, at_least=at_least)


def as_force_per_length(value: Quantity, name: str, *, at_least: float | None = 0.0) -> float:
    """A linear weight in lbf/ft, given as force or mass per length.

    Raises:
        WrongDimension: Neither a force nor a mass per length.
        NotFinite: NaN or infinite.
        OutOfRange: Less than `at_least` lbf/ft.
    """
    if isinstance(value, ureg.Quantity) and value.check("[mass]/[length]"):
        return magnitude(value, "lb/ft", name, at_least=at_least)
    return magnitude(value, "lbf/ft", name, at_least=at_least)
