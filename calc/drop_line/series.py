"""Many numbers in one unit, kept as plain floats until one is asked for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.units import quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Series:
    """A row of quantities in one unit; a thousand pint objects would cost milliseconds.

    >>> Series((1.0, 2.5), "lbf")[1].m_as("lbf")
    2.5
    """

    values: tuple[float, ...]
    unit: str

    def __len__(self) -> int:
        return len(self.values)

    def __getitem__(self, index: int) -> Quantity:
        return quantity(self.values[index], self.unit)

    def __iter__(self) -> Iterator[Quantity]:
        return (quantity(value, self.unit) for value in self.values)
