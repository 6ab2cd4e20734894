"""Chlorine for a well: how much of a product for a target, what a dose gives, how long it stays.

Target and contact time are the law of the place and differ (25 to 500 mg/L, 15 minutes to 24
hours), so both are given by the caller.

Per cent means three things. Of a dry product it is available chlorine by weight. Of a liquid it is
trade per cent, grams of available chlorine in 100 mL; a label's per cent by weight is turned into
that with the specific gravity.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_HIGHEST_MG_L = 1000.0
_STRONGEST_TRADE_PERCENT = 20.0
_GRAMS_PER_LITRE = 10.0
"""Of available chlorine, for each trade per cent."""


def chlorine_needed(*, volume: Quantity, target: Quantity) -> Quantity:
    """Available chlorine that brings a volume of water to a strength.

    Args:
        volume: Of the water in the well and in whatever is treated with it.
        target: Strength wanted, above 0 and to 1,000 mg/L, a limit of ours.

    Raises:
        OutOfRange: A negative volume, or a target outside those limits.

    Source: mass balance; grams = mg/L x gallons x 0.0037854.
    """
    litres = magnitude(volume, "liter", "volume of water", at_least=0.0)
    strength = magnitude(target, "mg/liter", "target", above=0.0, at_most=_HIGHEST_MG_L)
    return quantity(litres * strength / 1000.0, "gram")


def dry_dose(*, volume: Quantity, target: Quantity, available: float) -> Quantity:
    """Weight of a dry product, such as calcium hypochlorite, for a target.

    Args:
        volume: Of the water.
        target: Strength wanted.
        available: Available chlorine, a fraction by weight: 0.65 for 65 %.

    Raises:
        OutOfRange: As `chlorine_needed`, or a fraction that is not above 0 and to 1.

    Source: mass balance.

    >>> water, strength = quantity(146.9, "gallon"), quantity(50, "mg/liter")
    >>> round(dry_dose(volume=water, target=strength, available=0.65).m_as("oz"), 1)
    1.5
    """
    grams = magnitude(chlorine_needed(volume=volume, target=target), "gram", "chlorine")
    return quantity(grams / _fraction(available), "gram")


def liquid_dose(*, volume: Quantity, target: Quantity, trade_percent: float) -> Quantity:
    """Volume of a liquid product, such as sodium hypochlorite, for a target.

    Args:
        volume: Of the water.
        target: Strength wanted.
        trade_percent: Grams of available chlorine in 100 mL: 12 is 120 g/L. As it is today; liquid
            loses strength in store.

    Raises:
        OutOfRange: As `chlorine_needed`, or a trade per cent that is not above 0 and to 20.

    Source: mass balance.
    """
    grams = magnitude(chlorine_needed(volume=volume, target=target), "gram", "chlorine")
    return quantity(grams / _strength(trade_percent), "liter")


def strength_of_dry_dose(*, volume: Quantity, dose: Quantity, available: float) -> Quantity:
    """Strength that a weight of dry product gives a volume of water, before anything uses it up.

    Raises:
        OutOfRange: A volume not more than zero, a negative dose, or a fraction that is not above 0
            and to 1.

    Source: `dry_dose` turned about.
    """
    litres = magnitude(volume, "liter", "volume of water", above=0.0)
    grams = magnitude(dose, "gram", "dose", at_least=0.0) * _fraction(available)
    return quantity(1000.0 * grams / litres, "mg/liter")


def strength_of_liquid_dose(*, volume: Quantity, dose: Quantity, trade_percent: float) -> Quantity:
    """Strength that a volume of liquid product gives a volume of water, before it is used up.

    Raises:
        OutOfRange: A volume not more than zero, a negative dose, or a trade per cent that is not
            above 0 and to 20.

    Source: `liquid_dose` turned about; the dose's own volume is left out, as in the tables.
    """
    litres = magnitude(volume, "liter", "volume of water", above=0.0)
    grams = magnitude(dose, "liter", "dose", at_least=0.0) * _strength(trade_percent)
    return quantity(1000.0 * grams / litres, "mg/liter")


def trade_percent(*, weight_percent: float, specific_gravity: float) -> float:
    """Trade per cent of a liquid whose label gives per cent of available chlorine by weight.

    Args:
        weight_percent: Grams of available chlorine in 100 g, above 0.
        specific_gravity: Of the liquid; bleach is some 1.08, strong liquid some 1.2 (from memory).

    Raises:
        OutOfRange: A value not more than zero, a specific gravity above 1.5, or a product above 20.

    Source: definition.
    """
    if not (weight_percent > 0.0 and 0.0 < specific_gravity <= 1.5):
        raise OutOfRange(
            f"{weight_percent:g} % at specific gravity {specific_gravity:g} is no liquid bleach"
        )
    percent = weight_percent * specific_gravity
    _strength(percent)
    return percent


def contact_left(*, required: Quantity, elapsed: Quantity) -> Quantity:
    """Contact time still to run; nothing once it is over.

    Source: time over time; nothing published.

    Args:
        required: By the rule of the place.
        elapsed: Since the chlorine was all in and mixed.

    Raises:
        OutOfRange: A negative time.
    """
    whole = magnitude(required, "hour", "contact time", at_least=0.0)
    return quantity(
        max(0.0, whole - magnitude(elapsed, "hour", "elapsed time", at_least=0.0)), "hour"
    )


def _fraction(available: float) -> float:
    if not 0.0 < available <= 1.0:
        raise OutOfRange(f"{available:g} of available chlorine; it is a fraction above 0 and to 1")
    return available


def _strength(percent: float) -> float:
    if not 0.0 < percent <= _STRONGEST_TRADE_PERCENT:
        raise OutOfRange(f"{percent:g} trade per cent; liquids have more than 0 and up to 20")
    return percent * _GRAMS_PER_LITRE
