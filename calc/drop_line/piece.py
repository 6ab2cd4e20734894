"""One piece of a hanging string: a joint, a hose, a check valve, a pump with its motor."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, NamedTuple

from calc.units import as_force, magnitude

if TYPE_CHECKING:
    from calc.units import Quantity


class PieceNumbers(NamedTuple):
    """A piece in the units the string is added up in: ft, lbf and powers of them."""

    length: float
    weight: float
    displaced: float
    bore: float
    outside: float


@dataclass(frozen=True, slots=True)
class Piece:
    """What one piece weighs, displaces and holds, and what its weakest section may carry.

    Weight, displaced volume and bore are taken as spread evenly over the length.

    Attributes:
        name: What the crew calls it ("joint 13").
        kind: What it is ("joint", "hose", "check valve", "pump").
        length: From the upper end to the lower, made up; more than zero.
        weight: Everything the piece brings, in air: pipe, coupling, its cable and ties. Force or
            mass.
        displaced: Volume of all its solid material.
        bore_area: Area that holds water; a hose's when swollen. Zero for a pump or motor.
        outside_area: Area within the outer surface of the section that carries the tension.
        holds_water: A check valve sits at the lower end of this piece.
        allowable: Tension its weakest section may carry, none at all being 0; None when no rating
            is known.
        allowable_of: Which section that is ("thread root", "end fitting").
        allowable_source: Where the rating comes from.

    Raises:
        WrongDimension: A value is not the kind of quantity named.
        OutOfRange: The length is not more than zero, or another value is negative.
        NotFinite: A value is NaN or infinite.
    """

    name: str
    kind: str
    length: Quantity
    weight: Quantity
    displaced: Quantity
    bore_area: Quantity
    outside_area: Quantity
    holds_water: bool = False
    allowable: Quantity | None = None
    allowable_of: str = ""
    allowable_source: str = ""
    numbers: PieceNumbers = field(init=False, repr=False, compare=False)
    allowable_lbf: float | None = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        numbers = PieceNumbers(
            magnitude(self.length, "ft", f"length of {self.name}", above=0.0),
            as_force(self.weight, f"weight of {self.name}"),
            magnitude(self.displaced, "ft**3", f"displaced volume of {self.name}", at_least=0.0),
            magnitude(self.bore_area, "ft**2", f"bore of {self.name}", at_least=0.0),
            magnitude(self.outside_area, "ft**2", f"outside area of {self.name}", at_least=0.0),
        )
        rated: float | None = None
        if self.allowable is not None:
            rated = magnitude(self.allowable, "lbf", f"allowable of {self.name}", at_least=0.0)
        # The only way to fill a field of a frozen dataclass that is worked out from the others.
        object.__setattr__(self, "numbers", numbers)
        object.__setattr__(self, "allowable_lbf", rated)
