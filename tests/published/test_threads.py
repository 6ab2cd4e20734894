"""NPT threads and the metal under them, against ASME B1.20.1 and the published root forms."""

from __future__ import annotations

import pytest

from calc.drop_line.material import a53_grade
from calc.drop_line.pipe import pvc_pipe, steel_pipe
from calc.drop_line.threads import (
    effective_length,
    makeup_length,
    npt,
    pitch_diameter_at_gauge,
    ring_area,
    root_area,
    root_wall,
    thread_tension,
)
from calc.units import quantity

B1_20_1 = [
    # NPS, D, n, h max, L1, L2, E1, E0 (calc), K0 (calc): ASME B1.20.1 Table 2, seen in two
    # reproductions; E0 and K0 computed by hand. One reproduction prints L1 0.402 for 1-1/2.
    ("1", 1.315, 11.5, 0.06957, 0.400, 0.6828, 1.23863, 1.21363, 1.14407),
    ("1-1/4", 1.660, 11.5, 0.06957, 0.420, 0.7068, 1.58338, 1.55713, 1.48757),
    ("1-1/2", 1.900, 11.5, 0.06957, 0.420, 0.7235, 1.82234, 1.79609, 1.72652),
    ("2", 2.375, 11.5, 0.06957, 0.436, 0.7565, 2.29627, 2.26902, 2.19946),
    ("2-1/2", 2.875, 8, 0.10000, 0.682, 1.1375, 2.76216, 2.71953, 2.61953),
    ("3", 3.500, 8, 0.10000, 0.766, 1.2000, 3.38850, 3.34063, 3.24063),
    ("4", 4.500, 8, 0.10000, 0.844, 1.3000, 4.38712, 4.33437, 4.23438),
]
Row = tuple[str, float, float, float, float, float, float, float, float]


@pytest.mark.parametrize("row", B1_20_1)
def test_npt_table(row: Row) -> None:
    """ASME B1.20.1 Table 2."""
    nps, _, pitch, depth, hand_tight, effective, pitch_diameter, _, _ = row
    thread = npt(nps)

    assert thread.threads_per_inch == pitch
    assert thread.depth.m_as("in") == pytest.approx(depth, abs=5e-6)
    assert thread.hand_tight.m_as("in") == pytest.approx(hand_tight, abs=5e-4)
    assert thread.effective.m_as("in") == pytest.approx(effective, abs=5e-5)
    assert thread.pitch_diameter.m_as("in") == pytest.approx(pitch_diameter, abs=5e-6)


@pytest.mark.parametrize("row", B1_20_1)
def test_npt_formulas_give_the_table(row: Row) -> None:
    """ASME B1.20.1, from memory: E1 = D - (0.05 D + 1.1)/n + L1/16, L2 = (0.80 D + 6.8)/n."""
    _, outside, pitch, depth, hand_tight, effective, pitch_diameter, e0, k0 = row
    diameter = quantity(outside, "in")
    start = pitch_diameter_at_gauge(outside_diameter=diameter, threads_per_inch=pitch).m_as("in")
    length = effective_length(outside_diameter=diameter, threads_per_inch=pitch)

    assert start == pytest.approx(e0, abs=1e-5)
    assert start - depth == pytest.approx(k0, abs=2e-5)
    assert start + hand_tight / 16.0 == pytest.approx(pitch_diameter, abs=1e-5)
    assert length.m_as("in") == pytest.approx(effective, abs=5e-5)


def test_makeup_hand_calculation() -> None:
    """Hand calculation, 2 in: 0.436 + 3/11.5 = 0.6969 in."""
    assert makeup_length("2").m_as("in") == pytest.approx(0.6969, abs=5e-5)


@pytest.mark.parametrize(
    ("outside", "bore", "published"),
    # API Bul 5C2 joint strength of 10-round non-upset tubing, from memory, by the
    # API Bul 5C3 form; printed to 10 lbf. h 0.05560 in, yield 55,000 psi.
    [(2.375, 1.995, 49_450), (2.875, 2.441, 72_580)],
)
def test_oil_field_tubing_joint_strength(outside: float, bore: float, published: float) -> None:
    area = ring_area(root_diameter=quantity(outside - 2 * 0.05560, "in"), bore=quantity(bore, "in"))
    tension = thread_tension(area=area, stress=quantity(55_000, "psi"), design_factor=1.0)

    assert tension.m_as("lbf") == pytest.approx(published, abs=10)


ROOT_AREAS = [
    # NPS, schedule, D - 2h root diameter, its area, at yield A, at E1 - h, at K0; computed on the
    # nominal wall.
    ("1", "40", 1.1759, 0.2217, 6_651, 0.2092, 0.1637),
    ("1-1/4", "40", 1.5209, 0.3209, 9_628, 0.3041, 0.2423),
    ("1-1/2", "40", 1.7609, 0.3994, 11_983, 0.3771, 0.3053),
    ("2", "40", 2.2359, 0.5707, 17_121, 0.5386, 0.4438),
    ("2-1/2", "40", 2.6750, 0.8323, 24_968, 0.7784, 0.6016),
    ("3", "40", 3.3000, 1.1603, 34_810, 1.1008, 0.8553),
    ("4", "40", 4.3000, 1.7917, 53_752, 1.7049, 1.3519),
    ("1", "80", 1.1759, 0.3666, 10_999, 0.3541, 0.3087),
    ("1-1/4", "80", 1.5209, 0.5339, 16_016, 0.5171, 0.4552),
    ("1-1/2", "80", 1.7609, 0.6681, 20_043, 0.6458, 0.5740),
    ("2", "80", 2.2359, 0.9734, 29_202, 0.9413, 0.8466),
    ("3", "80", 3.3000, 1.9478, 58_434, 1.8883, 1.6428),
    ("4", "80", 4.3000, 3.0251, 90_754, 2.9383, 2.5853),
]
Root = tuple[str, str, float, float, float, float, float]


@pytest.mark.parametrize("row", ROOT_AREAS)
def test_root_area_on_the_nominal_wall(row: Root) -> None:
    """Hand calculation on ASME B1.20.1: the three planes in circulation, one ring of metal."""
    nps, schedule, diameter, area, at_yield, at_e1, at_k0 = row
    thread, bore = npt(nps), steel_pipe(nps, schedule).inside_diameter
    depth = thread.depth.m_as("in")
    e1_root = thread.pitch_diameter.m_as("in") - depth
    k0_root = e1_root - thread.hand_tight.m_as("in") / 16.0
    by_depth, by_e1, by_k0 = (
        ring_area(root_diameter=quantity(root, "in"), bore=bore)
        for root in (
            steel_pipe(nps, schedule).outside_diameter.m_as("in") - 2 * depth,
            e1_root,
            k0_root,
        )
    )
    strength = thread_tension(
        area=by_depth, stress=a53_grade("A").yield_strength, design_factor=1.0
    )

    assert diameter == pytest.approx(
        steel_pipe(nps, schedule).outside_diameter.m_as("in") - 2 * depth, abs=6e-5
    )
    assert by_depth.m_as("in**2") == pytest.approx(area, abs=6e-5)
    assert strength.m_as("lbf") == pytest.approx(at_yield, abs=2)
    assert by_e1.m_as("in**2") == pytest.approx(at_e1, abs=1e-4)
    assert by_k0.m_as("in**2") == pytest.approx(at_k0, abs=1e-4)


def test_root_area_hand_calculation() -> None:
    """Hand calculation, 2 in schedule 40 at the least wall A53 allows.

    Wall 0.875 x 0.154 = 0.13475, bore 2.1055; root 2.29627 - 0.06957 = 2.2267;
    pi/4 (2.2267^2 - 2.1055^2) = 0.4124 in2; wall under the thread 0.0606 in.
    """
    size = steel_pipe("2", "40")

    assert root_area(size).m_as("in**2") == pytest.approx(0.4124, abs=1e-4)
    assert root_wall(size).m_as("in") == pytest.approx(0.0606, abs=1e-4)


def test_a_thinner_measured_wall_rules_and_a_thicker_one_does_not() -> None:
    """Hand calculation, measured 0.110 in: bore 2.155; pi/4 (2.2267^2 - 2.155^2) = 0.2467 in2."""
    size = steel_pipe("2", "40")

    assert root_area(size, wall=quantity(0.110, "in")).m_as("in**2") == pytest.approx(
        0.2467, abs=1e-4
    )
    assert root_area(size, wall=quantity(0.154, "in")) == root_area(size)


def test_pvc_wall_is_already_the_minimum() -> None:
    """Hand calculation, 1 in schedule 80: root 1.16906, bore 0.957; 0.3541 in2."""
    assert root_area(pvc_pipe("1", "80")).m_as("in**2") == pytest.approx(0.3541, abs=1e-4)


@pytest.mark.parametrize(
    ("nps", "pounds"),
    # An assumption and no rating: 2000 psi on the D - 2h root of schedule 80.
    [("1", 733), ("1-1/4", 1_068), ("1-1/2", 1_336), ("2", 1_947)],
)
def test_pvc_screen_at_design_stress(nps: str, pounds: float) -> None:
    """Hand calculation on the design stress of ASTM D1785: an assumption and no rating."""
    size = pvc_pipe(nps, "80")
    root = quantity(size.outside_diameter.m_as("in") - 2 * npt(nps).depth.m_as("in"), "in")
    area = ring_area(root_diameter=root, bore=size.inside_diameter)
    tension = thread_tension(area=area, stress=quantity(2000, "psi"), design_factor=1.0)

    assert tension.m_as("lbf") == pytest.approx(pounds, abs=1.0)


def test_the_design_factor_divides() -> None:
    """Hand calculation: 0.5 in2 x 30,000 psi / 4 = 3,750 lbf."""
    value = thread_tension(
        area=quantity(0.5, "in**2"), stress=quantity(30_000, "psi"), design_factor=4.0
    )

    assert value.m_as("lbf") == pytest.approx(3750)
