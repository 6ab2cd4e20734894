"""Rules of thumb for wire rope, which are no ratings: from memory, no published source."""

from __future__ import annotations

import pytest

from calc.hoisting.wire_rope import metric_rule_of_thumb_load, rule_of_thumb_load
from calc.units import quantity


def test_the_metric_rule_of_thumb() -> None:
    """From memory: 8 d^2 kgf, d in mm; 1/2 in is 12.7 mm, 1,290 kgf, 2,845 lbf."""
    half = metric_rule_of_thumb_load(quantity(0.5, "in"))

    assert half.m_as("kgf") == pytest.approx(1290.3, abs=0.1)
    assert half.m_as("lbf") == pytest.approx(2844.7, abs=0.2)


@pytest.mark.parametrize("inches", [0.25, 0.5, 1.0])
def test_the_navys_rule_gives_41_percent_more_than_the_metric_one(inches: float) -> None:
    """16,000 lbf / in2 against 8 kgf / mm2, 11,379 lbf / in2: 1.406 at any diameter."""
    size = quantity(inches, "in")

    assert rule_of_thumb_load(size).m_as("lbf") / metric_rule_of_thumb_load(size).m_as(
        "lbf"
    ) == pytest.approx(1.406, abs=5e-4)
