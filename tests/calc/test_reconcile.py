"""Depths reconciled, readings that bend: what must hold for any, and what is refused."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.drop_line.hinge import hinge
from calc.drop_line.reconcile import Reconciled, Way, reconcile
from calc.errors import OutOfRange
from calc.units import quantity


def ways(**given_depths: tuple[float, float]) -> list[Way]:
    return [
        Way(name, quantity(depth, "ft"), quantity(sure, "ft"))
        for name, (depth, sure) in given_depths.items()
    ]


def odd_name(found: Reconciled) -> str:
    return found.odd.way.name if found.odd is not None else ""


def test_two_ways_never_say_which_is_wrong() -> None:
    found = reconcile(ways(tally=(356.9, 0.4), tape=(377.8, 0.5)))

    assert not found.agree
    assert found.odd is None


def test_three_ways_of_which_any_may_be_wrong_say_nothing() -> None:
    """Left without tally or without tape the rest agree within the 9 ft of the cable."""
    found = reconcile(ways(tally=(356.9, 0.4), tape=(377.8, 0.5), cable=(368, 9)))

    assert not found.agree
    assert found.odd is None


@pytest.mark.parametrize("count", [0, 12])
def test_there_is_a_rule_for_one_to_eleven(count: int) -> None:
    with pytest.raises(OutOfRange, match="1 to 11"):
        reconcile(ways(**{f"way{n}": (300, 1) for n in range(count)}))


def test_a_way_that_claims_to_be_exact_is_refused() -> None:
    with pytest.raises(OutOfRange, match="uncertainty of tape"):
        reconcile(ways(tally=(300, 1), tape=(300, 0)))


@given(st.lists(st.tuples(st.floats(20, 1500), st.floats(0.1, 50)), min_size=1, max_size=8))
def test_the_mean_lies_among_the_ways_and_no_order_changes_it(
    points: list[tuple[float, float]],
) -> None:
    made = ways(**{f"way{n}": point for n, point in enumerate(points)})
    found, turned = reconcile(made), reconcile(made[::-1])
    depths = [depth for depth, _ in points]

    assert min(depths) - 1e-6 <= found.depth.m_as("ft") <= max(depths) + 1e-6
    assert turned.depth.m_as("ft") == pytest.approx(found.depth.m_as("ft"))
    assert odd_name(turned) == odd_name(found)
    assert sum(w.weight for w in found.ways) == pytest.approx(1)


@given(st.floats(60, 300), st.floats(-6, -0.5), st.floats(0.3, 4))
def test_a_bend_in_clean_readings_is_found(at: float, before: float, bend: float) -> None:
    """Hand made: two lines that meet at `at`; the grid of knots is 2.5 ft apart."""
    points = [(20.0 * n, 2000 + before * 20 * n - bend * max(0, 20 * n - at)) for n in range(19)]
    found = hinge(points)

    assert found.at == pytest.approx(at, abs=max(1.3, found.uncertainty))
    assert found.after - found.before == pytest.approx(-bend, rel=0.2)


def test_readings_without_a_bend_gain_nothing() -> None:
    points = [(20.0 * n, 2000 - 70.0 * n + (3 if n % 2 else -3)) for n in range(18)]

    assert hinge(points).gain < 5


@pytest.mark.parametrize(
    ("points", "words"),
    [
        ([(0.0, 1.0)] * 3, "needs 6"),
        ([(0.0, 1.0)] * 7, "order"),
        ([(float(n), float("nan")) for n in range(7)], "not a number"),
    ],
)
def test_what_cannot_bend_is_refused(points: list[tuple[float, float]], words: str) -> None:
    with pytest.raises(OutOfRange, match=words):
        hinge(points)
