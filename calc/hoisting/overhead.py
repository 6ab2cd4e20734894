"""How near an overhead power line a rig and what it swings may come."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.table import rows
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

SOURCE = "29 CFR 1926.1408 Table A; 1926.1409: 50 ft presumed over 350 kV; as good practice"
_PRESUMED = 50.0


def least_clearance(voltage: Quantity) -> Quantity:
    """The least distance from a line of `voltage` between its wires, as a length.

    Raises:
        OutOfRange: A voltage below zero, or over 1,000 kV: the owner of the line says the distance.

    Source: 29 CFR 1926.1408 Table A; each row holds up to and with its voltage.
    """
    kilovolts = magnitude(voltage, "kV", "voltage of the power line", at_least=0.0)
    for each in rows("power_line_clearance"):
        if kilovolts <= float(each["up_to[kV]"]):
            return quantity(float(each["clearance[ft]"]), "ft")
    raise OutOfRange(f"{kilovolts:,.0f} kV: over 1,000 kV the owner of the line says the distance")


def clearance_of_any_line() -> Quantity:
    """The distance presumed where a line may carry up to 1,000 kV: more than any row of Table A.

    Source: 29 CFR 1926.1409.
    """
    return quantity(_PRESUMED, "ft")
