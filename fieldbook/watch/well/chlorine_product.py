"""Chlorine in the measure a crew has at hand: ounces or pounds of dry product, cups or gallons."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from calc.hydraulics.disinfection import dry_dose, liquid_dose
from calc.units import magnitude

if TYPE_CHECKING:
    from calc.units import Quantity

_LABEL = re.compile(r"(?<![\d.])(\d{1,2}(?:\.\d+)?|100)\s*(?:%|per ?cent\b)", re.IGNORECASE)
_USUAL_DRY, _USUAL_LIQUID = 65.0, 5.25  # calcium hypochlorite and bleach in the printed tables
_STRONGEST_LIQUID = 20.0
_OUNCES, _CUPS = 32.0, 16.0


def product_words(*, volume: Quantity, target: Quantity, product: str) -> str:
    """How much product brings a volume of water to a strength.

    Args:
        volume: Of the water, more than 0.
        target: Strength wanted, above 0 and to 1,000 mg/L.
        product: What it is, with the per cent on its label; where that names no per cent, or
            several, both usual products are shown.

    Raises:
        OutOfRange: A volume or target outside those limits.

    Source: mass balance, `calc.hydraulics.disinfection`. Above 20 % a product is dry: no liquid is
        stronger. A liquid's per cent is taken as grams in 100 mL.
    """
    named = {float(each) for each in _LABEL.findall(product)} - {0.0}
    if len(named) == 1:
        return _amount(volume, target, named.pop())
    both = (_amount(volume, target, percent) for percent in (_USUAL_DRY, _USUAL_LIQUID))
    return f"{' or '.join(both)}; another strength on the label, another amount"


def _amount(volume: Quantity, target: Quantity, percent: float) -> str:
    if percent > _STRONGEST_LIQUID:
        dry = dry_dose(volume=volume, target=target, available=percent / 100.0)
        ounces, grams = (magnitude(dry, unit, "product") for unit in ("oz", "gram"))
        shown = f"{ounces:,.1f} oz" if ounces < _OUNCES else f"{ounces / 16.0:,.1f} lb"
        return f"{shown} ({grams:,.0f} g) of {percent:g} % dry"
    liquid = liquid_dose(volume=volume, target=target, trade_percent=percent)
    cups, litres = (magnitude(liquid, unit, "product") for unit in ("cup", "liter"))
    shown = f"{cups:,.1f} cups" if cups < _CUPS else f"{cups / 16.0:,.1f} gal"
    return f"{shown} ({litres:,.2f} L) of {percent:g} % liquid"
