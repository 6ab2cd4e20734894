"""Values to and from pint quantities, and into plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.units import magnitude
from calc.units import quantity as make
from fieldbook.quantities.labels import within
from fieldbook.quantities.units import show_unit

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.quantities.definition import Definition
    from fieldbook.record.entry import Value


def as_quantity(value: Value) -> Quantity:
    """The value as a pint quantity; a plain number is dimensionless.

    Raises:
        ValueError: The value is a word.
    """
    if value.number is None:
        raise ValueError(f"{value.text!r} is a word, not a number")
    return make(value.number, value.unit or "dimensionless")


def number_in(value: Value, unit: str) -> float:
    """The number of `value` in another unit of the same dimension."""
    if value.unit == unit and value.number is not None:
        return value.number
    return float(as_quantity(value).m_as(unit or "dimensionless"))


def doubt(value: Value, definition: Definition) -> str:
    """Why the value looks wrong, in plain words; empty when it does not.

    The crew decides: a doubt is asked about once and never refuses anything.
    """
    if value.number is None or definition.plausible is None:
        return ""
    low, high = definition.plausible
    number = number_in(value, definition.unit)
    if low <= number <= high:
        return ""
    shown = show_unit(definition.unit_in(metric=False))
    return f"{within(definition.label)} is usually {low:g} to {high:g} {shown}".rstrip()


def show(quantity: Quantity, unit: str, digits: int = 0) -> str:
    """A quantity in `unit` as people write it, such as `1,480 lbf`; a 0 has no sign."""
    return f"{magnitude(quantity, unit, 'shown'):z,.{digits}f} {show_unit(unit)}".rstrip()
