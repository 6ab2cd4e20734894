"""Flexible riser hose, by its maker's sheet; nothing here is guessed when the sheet is silent."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf, pi
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import as_force_per_length, magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Hose:
    """One hose as its maker's sheet describes it; None where the sheet does not say.

    Attributes:
        bore: Inside diameter, round and without pressure.
        weight_per_length: Dry, force or mass per length.
        working_pressure: The most it may see in service.
        burst_pressure: At which it bursts.
        working_tension: The load it may hang from, end fittings on.
        swell: Growth of the bore at the working pressure, as a fraction of it.
        stretch: Growth of the length at the working tension, as a fraction of it.
        lowest_temperature: Coldest water it is made for.
        highest_temperature: Warmest water it is made for.
        lowest_ph: Most acid water it is made for.
        highest_ph: Most alkaline water it is made for.
        minimum_bend: Smallest radius it may be bent to.
        specific_gravity: Of its material, against water.
        source: Which sheet, edition and date.
    """

    bore: Quantity
    weight_per_length: Quantity
    working_pressure: Quantity | None = None
    burst_pressure: Quantity | None = None
    working_tension: Quantity | None = None
    swell: float | None = None
    stretch: float | None = None
    lowest_temperature: Quantity | None = None
    highest_temperature: Quantity | None = None
    lowest_ph: float | None = None
    highest_ph: float | None = None
    minimum_bend: Quantity | None = None
    specific_gravity: float | None = None
    source: str = ""


def swollen_bore(hose: Hose) -> Quantity | None:
    """Inside diameter under working pressure, or None when the sheet gives no swell.

    Source: the maker's sheet; nothing published.

    Raises:
        OutOfRange: The bore is not more than zero, or the swell is negative.
    """
    bore = magnitude(hose.bore, "in", "bore of the hose", above=0.0)
    if hose.swell is None:
        return None
    return quantity(bore * (1.0 + _fraction(hose.swell, "swell")), "in")


def swollen_bore_area(hose: Hose) -> Quantity | None:
    """Area of the swollen bore, or None when the sheet gives no swell.

    Source: geometry, with the swell of the maker's sheet.

    Raises:
        OutOfRange: As `swollen_bore`.
    """
    bore = swollen_bore(hose)
    return (
        None if bore is None else quantity(pi / 4.0 * magnitude(bore, "in", "bore") ** 2, "in**2")
    )


def water_per_length(hose: Hose, *, water_weight: Quantity) -> Quantity | None:
    """Weight of the water in the swollen hose per length, or None when the swell is not known.

    Source: geometry.

    Raises:
        OutOfRange: As `swollen_bore`, or the weight of water is not more than zero.
    """
    area = swollen_bore_area(hose)
    weight = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    if area is None:
        return None
    return quantity(weight * magnitude(area, "ft**2", "swollen bore"), "lbf/ft")


def material_volume(hose: Hose, *, length: Quantity, water_weight: Quantity) -> Quantity | None:
    """Volume of the hose's own material, or None when its specific gravity is not known.

    Source: mass over density.

    Raises:
        OutOfRange: A value is not more than zero.
    """
    span = magnitude(length, "ft", "length of hose", at_least=0.0)
    water = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
    if hose.specific_gravity is None:
        return None
    if not 0.0 < hose.specific_gravity < inf:
        raise OutOfRange(f"the specific gravity is {hose.specific_gravity:g}; it must be above 0")
    weight = as_force_per_length(hose.weight_per_length, "weight of the hose") * span
    return quantity(weight / (hose.specific_gravity * water), "ft**3")


def stretched(hose: Hose, *, length: Quantity, load: Quantity) -> Quantity | None:
    """Length of hose under a load, its stretch growing evenly up to the working tension.

    Args:
        hose: Its sheet must give stretch and working tension, else None is returned.
        length: Without load.
        load: Tension that acts along it.

    Raises:
        OutOfRange: The load is negative or above the working tension, where no sheet speaks.

    Source: straight line between the sheet's two points; common practice, no published source.
    """
    span = magnitude(length, "ft", "length of hose", at_least=0.0)
    if hose.stretch is None or hose.working_tension is None:
        return None
    rated = magnitude(hose.working_tension, "lbf", "working tension", above=0.0)
    pull = magnitude(load, "lbf", "load on the hose", at_least=0.0, at_most=rated)
    return quantity(span * (1.0 + _fraction(hose.stretch, "stretch") * pull / rated), "ft")


def _fraction(value: float, name: str) -> float:
    if not 0.0 <= value < 1.0:
        raise OutOfRange(f"{name} is {value:g}; it is a fraction from 0 up to 1")
    return value
