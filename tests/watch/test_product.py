"""How much of the product at hand a dose is, by the tables that are printed."""

from __future__ import annotations

import pytest

from calc.units import quantity
from fieldbook.watch.watcher import Watcher
from fieldbook.watch.well.chlorine_product import product_words
from tests.watch.jobs import job_of, says


@pytest.mark.parametrize(
    ("gallons", "strength", "product", "told"),
    [
        # 327 IAC 8-3.4-24 Table 24-1: 6 in by 100 ft, 50 mg/L: 1.5 oz dry, 7.8 fl oz of 12 %.
        (146.9, 50, "calcium hypochlorite 65 %", "1.5 oz (43 g) of 65 % dry"),
        (146.9, 50, "liquid, 12 percent", "1.0 cups (0.23 L) of 12 % liquid"),
        # The same table, 36 in: 54 oz, printed in pounds, and 2.2 gal.
        (5287, 50, "65%", "3.4 lb (1,539 g) of 65 % dry"),
        (5287, 50, "12 %", "2.2 gal (8.34 L) of 12 % liquid"),
        # Hand calculation, 6 in by 100 ft at 100 mg/L: 3.02 oz, 4.48 cups.
        (
            146.88,
            100,
            "granules",
            "3.0 oz (86 g) of 65 % dry or 4.5 cups (1.06 L) of 5.25 % liquid",
        ),
        (146.88, 100, "8.25 % bleach or 5.25 %", "3.0 oz (86 g) of 65 % dry or 4.5 cups"),
    ],
)
def test_products(gallons: float, strength: float, product: str, told: str) -> None:
    found = product_words(
        volume=quantity(gallons, "gallon"), target=quantity(strength, "mg/L"), product=product
    )

    assert found.startswith(told)


def test_the_chlorine_check_says_it() -> None:
    """One cup of 5.25 % in 441 gal is 7 mg/L: 50 takes 6.7 cups."""
    job = job_of(
        says("job", job_number="C-1", line="pvc", work="set"),
        says("well", well_depth="400 ft", casing_diameter="6 in"),
        says("level", water_level="100 ft", level_state="static"),
        says("chlorine", chlorine_product="bleach 5.25 %", chlorine_dose=50, chlorine_asked=50),
    )
    check = next(c for c in Watcher(job).look().checks if c.name == "chlorine")

    assert "441 gal" in check.note
    assert "6.7 cups (1.59 L) of 5.25 % liquid" in check.note
