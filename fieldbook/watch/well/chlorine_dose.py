"""What a dose of chlorine gives: amount and strength out of a crew's words, in the well's water.

Amount and product are words, as a crew says them: "1 cup", "bleach, 5.25 percent". What is not
plainly an amount, or not plainly one strength, is not guessed at.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.hydraulics.disinfection import strength_of_dry_dose, strength_of_liquid_dose
from calc.hydraulics.well import volume_per_length
from calc.units import magnitude, quantity
from fieldbook.record.levels import at_rest
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.well_bottom import bottom

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_VOLUMES = {
    "cup": ("cup", "cups"),
    "quart": ("quart", "quarts", "qt", "qts"),
    "pint": ("pint", "pints", "pt", "pts"),
    "gallon": ("gallon", "gallons", "gal", "gals"),
    "floz": ("fl oz", "fluid ounce", "fluid ounces"),
    "liter": ("l", "liter", "liters", "litre", "litres"),
    "milliliter": ("ml", "milliliter", "milliliters", "millilitre", "millilitres"),
}
_WEIGHTS = {
    "pound": ("lb", "lbs", "pound", "pounds"),
    "gram": ("g", "gram", "grams"),
    "kilogram": ("kg", "kilogram", "kilograms"),
}
_OUNCES = ("oz", "ounce", "ounces")
_UNITS = {word: unit for many in (_VOLUMES, _WEIGHTS) for unit, ws in many.items() for word in ws}
_ONE = r"(?:(\d+)[ -])?(\d+)/(\d+)|(\d*\.?\d+)"
_PART = re.compile(rf"\s*(?:{_ONE})\s*([a-z]+(?: [a-z]+)?)\s*(?:,|\+|and\b)?", re.ASCII)
_PERCENT = re.compile(r"(\d*\.?\d+)\s*(?:%|percent\b|per cent\b)", re.ASCII)
_RANGE = re.compile(r"\d\s*%?\s*(?:-|to|or)\s*\d*\.?\d+\s*(?:%|per ?cent)", re.ASCII)
_DRY = ("calcium", "granul", "powder", "tablet", "dry", "pellet")
_LIQUID = ("bleach", "sodium", "liquid")
_STRENGTH = "product strength, as 'bleach, 5.25 percent'"
_AMOUNT = "amount of a liquid in cups, quarts or gallons, of a dry product in ounces or pounds"


@dataclass(frozen=True, slots=True)
class DoseGiven:
    """What a dose gives.

    Attributes:
        entry: The entry that says how much was given; None where none does.
        strength: In the water of the well, before anything uses it up; None where it is not known.
        words: The dose and the water, such as "1 cup of 5.25 % in 441 gal".
        missing: What is lacking.
    """

    entry: Entry | None
    strength: Quantity | None
    words: str
    missing: tuple[str, ...]


def given(job: Job) -> DoseGiven:
    """What the newest dose gives in the water that is in the well.

    A label's percent of a liquid is taken as trade percent, grams in 100 mL: some 5 percent less
    than such bleach holds when it is fresh, and it loses strength in store (from memory).
    """
    doses = [entry for entry in job.live("chlorine") if entry.text("chlorine_amount").strip()]
    facts = Facts(job)
    water = water_in_the_well(job, facts)
    if not doses:
        return DoseGiven(None, None, "", ("amount used", *facts.missing))
    entry = doses[-1]
    amount = entry.text("chlorine_amount").strip()
    product = entry.text("chlorine_product") or job.text("chlorine", "chlorine_product")
    percent = percent_in(product)
    dose = amount_in(amount, product)
    lacking = [*facts.missing]
    if percent is None:
        lacking.append(_STRENGTH)
    if dose is None:
        lacking.append(_AMOUNT)
    if water is None or percent is None or dose is None:
        return DoseGiven(entry, None, "", tuple(lacking))
    gallons = magnitude(water, "gallon", "water")
    words = f"{amount} of {percent:g} % in {gallons:,.0f} gal"
    try:
        strength = _strength(water, dose, percent)
    except OutOfRange as problem:
        return DoseGiven(entry, None, words, (str(problem),))
    return DoseGiven(entry, strength, words, ())


def water_in_the_well(job: Job, facts: Facts) -> Quantity | None:
    """The water that is in the casing at rest; what is lacking for it is noted in `facts`."""
    bore, depth = facts.need("well", "casing_diameter"), bottom(facts).depth
    rested = at_rest(job.live("level"))
    level = of_entry(rested[-1], "water_level") if rested else None
    if level is None:
        facts.lack("depth to water at rest")
    if bore is None or depth is None or level is None:
        return None
    if bore.magnitude <= 0 or depth <= level:
        facts.lack("water standing in the casing")
        return None
    water: Quantity = volume_per_length(bore=bore) * (depth - level)
    return water


def amount_in(words: str, product: str = "") -> Quantity | None:
    """A volume or a weight out of words such as "1 1/2 cups" or "1 gal and 1 quart", or None.

    Ounces are of weight where the product is dry, of volume where it is a liquid, else not known.
    """
    text, at, total = words.strip().lower().rstrip("."), 0, None
    while at < len(text):
        found = _PART.match(text, at)
        if found is None or found.end() == at:
            return None
        unit = _unit(found[5].strip(), product)
        if unit is None:
            return None
        part = quantity(_number(found), unit)
        if total is not None and not total.is_compatible_with(part):
            return None
        total = part if total is None else total + part
        at = found.end()
    fits = total is not None and _fits(total, product)
    return total if fits else None


def percent_in(product: str) -> float | None:
    """The one strength that the words of a product say, in percent; None where not just one is."""
    found = {float(number) for number in _PERCENT.findall(product.lower())}
    return found.pop() if len(found) == 1 and not _RANGE.search(product.lower()) else None


def _strength(water: Quantity, dose: Quantity, percent: float) -> Quantity:
    if dose.check("[mass]"):
        return strength_of_dry_dose(volume=water, dose=dose, available=percent / 100.0)
    return strength_of_liquid_dose(volume=water, dose=dose, trade_percent=percent)


def _number(found: re.Match[str]) -> float:
    if found[4]:
        return float(found[4])
    bottom_part = int(found[3])
    return int(found[1] or 0) + (int(found[2]) / bottom_part if bottom_part else 0.0)


def _unit(word: str, product: str) -> str | None:
    word = word.removesuffix(" and").strip()
    if word in _OUNCES:
        if _is(product, _DRY) == _is(product, _LIQUID):
            return None
        return "ounce" if _is(product, _DRY) else "floz"
    return _UNITS.get(word)


def _fits(amount: Quantity, product: str) -> bool:
    """Whether a dry product is weighed and a liquid measured: only so its percent means that."""
    dry, liquid = _is(product, _DRY), _is(product, _LIQUID)
    weighed = bool(amount.check("[mass]"))
    return not ((dry and not liquid and not weighed) or (liquid and not dry and weighed))


def _is(product: str, words: tuple[str, ...]) -> bool:
    return any(word in product.lower() for word in words)
