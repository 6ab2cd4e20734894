"""Depths reconciled: the table of chi-square against a library, the rest by hand calculation."""

from __future__ import annotations

from math import sqrt

import pytest
from scipy.stats import chi2  # type: ignore[import-untyped]

from calc.drop_line.reconcile import (
    _CHI_SQUARE_95,
    Cause,
    Reconciled,
    Way,
    fitting_causes,
    reconcile,
)
from calc.units import quantity


def ways(**given_depths: tuple[float, float]) -> list[Way]:
    return [
        Way(name, quantity(depth, "ft"), quantity(sure, "ft"))
        for name, (depth, sure) in given_depths.items()
    ]


def odd_name(found: Reconciled) -> str:
    return found.odd.way.name if found.odd is not None else ""


def test_chi_square_is_that_of_the_library() -> None:
    """NIST/SEMATECH e-Handbook 1.3.6.7.4, by `scipy`."""
    for freedom, allowed in enumerate(_CHI_SQUARE_95, 1):
        assert allowed == pytest.approx(chi2.ppf(0.95, freedom), abs=5e-4)


def test_the_mean_by_hand() -> None:
    """Hand calculation: weights 4, 1, 1 of 6: (4 x 100 + 102 + 98) / 6 = 100."""
    found = reconcile(ways(tally=(100, 0.5), cable=(102, 1), tape=(98, 1)))

    assert found.depth.m_as("ft") == pytest.approx(100)
    assert found.chi_square == pytest.approx(8)
    assert [w.weight for w in found.ways] == pytest.approx([4 / 6, 1 / 6, 1 / 6])


def test_uncertainty_grows_where_the_ways_differ_more_than_they_should() -> None:
    """Hand calculation: two ways of 1 ft, 4 ft apart: chi-square 8; sqrt(1/2 x 8) = 2."""
    found = reconcile(ways(tally=(100, 1), tape=(104, 1)))

    assert not found.agree
    assert found.uncertainty.m_as("ft") == pytest.approx(2)
    assert reconcile(ways(tally=(100, 1), tape=(100, 1))).uncertainty.m_as("ft") == pytest.approx(
        1 / sqrt(2)
    )


def test_one_joint_missed_is_told_from_three_others() -> None:
    """Hand calculation: weights 4, 0.0625 and 4 of rack, cable and tape: 377.76; 20.86 off."""
    found = reconcile(
        ways(tally=(356.9, 0.4), rack=(377.8, 0.5), cable=(379, 4), tape=(377.7, 0.5))
    )

    assert odd_name(found) == "tally"
    assert found.depth.m_as("ft") == pytest.approx(377.75, abs=0.1)
    assert found.odd is not None
    assert found.odd.difference.m_as("ft") == pytest.approx(-20.85, abs=0.1)
    assert found.odd.weight == 0
    assert sum(each.weight for each in found.ways) == pytest.approx(1)


@pytest.mark.parametrize("culprit", ["tally", "rack", "tape", "counter"])
def test_whichever_is_off_is_named(culprit: str) -> None:
    """Hand calculation: three ways say 300, the fourth weighs nothing."""
    depths = dict.fromkeys(("tally", "rack", "tape", "counter"), (300.0, 0.5))
    found = reconcile(ways(**(depths | {culprit: (321.0, 0.5)})))

    assert odd_name(found) == culprit
    assert found.depth.m_as("ft") == pytest.approx(300)


def test_a_single_way_agrees_with_itself_and_is_no_surer_for_it() -> None:
    """Hand calculation: the only way keeps its own 0.5 ft."""
    found = reconcile(ways(tally=(300, 0.5)))

    assert found.agree
    assert found.uncertainty.m_as("ft") == pytest.approx(0.5)


def test_causes_are_those_of_the_size_best_first() -> None:
    """Hand calculation: 356.9 against 377.8 is 20.9 short: 20.94 lies nearest, then 20."""
    found = reconcile(ways(tally=(356.9, 0.4), rack=(377.8, 0.5), tape=(377.8, 0.5)))
    assert found.odd is not None
    causes = [
        Cause("make-up", quantity(1.1, "ft")),
        Cause("20 ft joint", quantity(-20, "ft")),
        Cause("joint missed", quantity(-20.94, "ft")),
        Cause("joint twice", quantity(20.94, "ft")),
    ]

    assert [c.words for c in fitting_causes(found.odd, causes)] == ["joint missed", "20 ft joint"]
