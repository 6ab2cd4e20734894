"""Conductors, voltage drop, windings and unbalance against NEC, ASTM, NEMA and handbook figures."""

from __future__ import annotations

import pytest

from calc.electric.cable import (
    cable_weight,
    copper_weight,
    longest_run,
    smallest_size,
    voltage_drop,
)
from calc.electric.electrical import (
    current_unbalance,
    unbalance_derating,
    voltage_unbalance,
    winding_resistance,
)
from calc.electric.wire import (
    Stranding,
    copper_factor,
    resistance_of,
    wire,
    wire_diameter,
    wire_sizes,
)
from calc.units import Quantity, quantity

AT_75 = quantity(75, "degC")
SOLID, STRANDED = Stranding.SOLID, Stranding.STRANDED


def ohms(size: str, stranding: Stranding, celsius: float = 75) -> Quantity:
    return resistance_of(size, stranding=stranding, temperature=quantity(celsius, "degC"))


@pytest.mark.parametrize(
    ("size", "mils", "solid", "stranded", "inches"),
    # NEC Chapter 9 Table 8 (a full copy, a second page agrees); diameters by ASTM B258.
    [
        ("14", 4110, 3.07, 3.14, 0.0641),
        ("12", 6530, 1.93, 1.98, 0.0808),
        ("10", 10380, 1.21, 1.24, 0.1019),
        ("8", 16510, 0.764, 0.778, 0.1285),
        ("6", 26240, None, 0.491, 0.1620),
        ("4", 41740, None, 0.308, 0.2043),
        ("2", 66360, None, 0.194, 0.2576),
    ],
)
def test_nec_table_8(
    size: str, mils: int, solid: float | None, stranded: float, inches: float
) -> None:
    conductor = wire(size)

    assert conductor.circular_mils == mils
    assert ohms(size, STRANDED).m_as("ohm/kft") == pytest.approx(stranded, rel=1e-9)
    assert (conductor.solid is None) == (solid is None)
    if solid is not None:
        assert ohms(size, SOLID).m_as("ohm/kft") == pytest.approx(solid, rel=1e-9)
    assert wire_diameter(size).m_as("in") == pytest.approx(inches, abs=5e-5)


@pytest.mark.parametrize(
    ("size", "per_kilometre"),
    [("6", 1.611), ("4", 1.010), ("3", 0.804), ("2", 0.636), ("1", 0.505), ("1/0", 0.400),
     ("2/0", 0.317), ("3/0", 0.251), ("4/0", 0.199)],
)  # fmt: skip
def test_nec_table_8_in_the_other_system(size: str, per_kilometre: float) -> None:
    """NEC Chapter 9 Table 8, its metric column; a second page that annotates the table (seen)."""
    assert wire(size).stranded.m_as("ohm/km") == pytest.approx(per_kilometre, abs=0.0006)


@pytest.mark.parametrize("size", wire_sizes())
def test_diameter_and_circular_mils_agree(size: str) -> None:
    """ASTM B258's formula squared against the section NEC prints, to its rounding."""
    mils = 1000 * wire_diameter(size).m_as("in")

    assert mils**2 == pytest.approx(wire(size).circular_mils, rel=1.5e-3)


def test_w6_5_diameter_of_12() -> None:
    """ASTM B258: 0.0808 in."""
    assert wire_diameter("12").m_as("in") == pytest.approx(0.0808, abs=5e-5)


@pytest.mark.parametrize("size", wire_sizes())
def test_k_is_that_of_the_conductor_and_its_temperature(size: str) -> None:
    """Hand calculation on NEC Chapter 9 Table 8: R x cmil / 1000.

    12.84 to 12.93 stranded and 12.56 to 12.62 solid at 75 C, printed as 12.9 and 12.6; 10.4 at 20.
    """
    mils = wire(size).circular_mils / 1000
    conductor = wire(size)

    assert 12.84 <= round(conductor.stranded.m_as("ohm/kft") * mils, 2) <= 12.93
    if conductor.solid is not None:
        assert 12.56 <= round(conductor.solid.m_as("ohm/kft") * mils, 2) <= 12.62
        assert ohms(size, SOLID, 20).m_as("ohm/kft") * mils == pytest.approx(10.4, abs=0.1)


def test_cool_copper() -> None:
    """At 20 C about 82 % of the table; NEC's own note is 1 + 0.00323 (T - 75)."""
    cool = copper_factor(measured_at=AT_75, temperature=quantity(20, "degC"))

    assert cool == pytest.approx(0.82, abs=0.005)
    assert cool == pytest.approx(1 + 0.00323 * (20 - 75), abs=1e-4)


def drop(amperes: float, feet: float, each: Quantity, phases: int) -> float:
    return voltage_drop(
        current=quantity(amperes, "ampere"),
        length=quantity(feet, "ft"),
        resistance_per_length=each,
        phases=phases,
    ).m_as("volt")


def test_w6_3_single_phase_drop() -> None:
    """Hand calculation on NEC Table 8: 10 A, 300 ft one way, 12 AWG solid: 11.58 V."""
    assert drop(10, 300, ohms("12", SOLID), 1) == pytest.approx(11.58, abs=0.005)


def test_w6_4_three_phase_drop() -> None:
    """Hand calculation on NEC Table 8: 12 A, 600 ft, 10 AWG stranded, 1.24 ohm/kft: 15.46 V."""
    assert drop(12, 600, ohms("10", STRANDED), 3) == pytest.approx(15.46, abs=0.01)


def test_drop_by_k() -> None:
    """Hand calculation, 2 K I L / cmil, K 12.9: 12 A, 500 ft, 10 AWG: 14.91 V; 0.3 % of ours."""
    assert drop(12, 500, ohms("10", STRANDED), 1) == pytest.approx(
        2 * 12.9 * 12 * 500 / 10380, rel=3e-3
    )


def test_longest_run() -> None:
    """Hand calculation: 5 % of 230 V is 11.5 V; 2 x 10 A x 1.24e-3 ohm/ft: 463.7 ft."""
    run = longest_run(
        current=quantity(10, "ampere"),
        resistance_per_length=ohms("10", STRANDED),
        allowed_drop=quantity(0.05 * 230, "volt"),
        phases=1,
    )

    assert run.m_as("ft") == pytest.approx(463.7, abs=0.05)


@pytest.mark.parametrize(("feet", "phases", "size"), [(463, 1, "10"), (464, 1, "8"), (740, 1, "6"),
                                                      (464, 3, "10"), (2720, 3, "2")])  # fmt: skip
def test_smallest_size(feet: float, phases: int, size: str) -> None:
    """Hand calculation, 10 A, 11.5 V allowed, stranded at 75 C.

    Longest runs: single-phase 10 AWG 463.7 ft, 8 AWG 739.1; three-phase 10 AWG 535.4, 3 AWG 2,710,
    2 AWG 3,422.
    """
    found = smallest_size(
        current=quantity(10, "ampere"),
        length=quantity(feet, "ft"),
        allowed_drop=quantity(11.5, "volt"),
        phases=phases,
        stranding=STRANDED,
        temperature=AT_75,
    )

    assert found == size


def test_winding_less_cable() -> None:
    """Hand calculation: 400 ft of 12 AWG stranded at 75 C, 0.792 ohm each way.

    5.00 ohm at the surface, 0.2 in the meter's leads: 5.00 - 0.20 - 1.584 = 3.216 ohm.
    """
    winding = winding_resistance(
        measured=quantity(5, "ohm"),
        meter_leads=quantity(0.2, "ohm"),
        cable_length=quantity(400, "ft"),
        resistance_per_length=ohms("12", STRANDED),
    )

    assert winding.m_as("ohm") == pytest.approx(3.216, abs=5e-4)


def percent(*volts: float) -> float:
    return 100 * voltage_unbalance([quantity(each, "volt") for each in volts]).share


def test_w6_1_voltage_unbalance() -> None:
    """NEMA MG 1 14.36 method: 460, 467, 450: average 459, deviation 9, 1.96 %."""
    found = voltage_unbalance([quantity(each, "volt") for each in (460, 467, 450)])

    assert found.average.m_as("volt") == pytest.approx(459)
    assert found.deviation.m_as("volt") == pytest.approx(9)
    assert found.leg == 2
    assert 100 * found.share == pytest.approx(1.96, abs=0.005)


def test_unbalance_is_not_highest_less_lowest() -> None:
    """Hand calculation by NEMA MG 1 14.36: 480, 476, 472 average 476, 4 off: 0.84 %, not 1.68 %."""
    assert percent(480, 476, 472) == pytest.approx(0.84, abs=0.005)


def test_current_unbalance_has_the_same_form() -> None:
    """Hand calculation: 51, 46, 53 A: average 50, deviation 4, 8 %."""
    found = current_unbalance([quantity(each, "ampere") for each in (51, 46, 53)])

    assert 100 * found.share == pytest.approx(8)
    assert found.leg == 1


@pytest.mark.parametrize(
    ("unbalance", "factor"),
    [(0.5, 1.00), (1.5, 0.97), (2, 0.95), (2.5, 0.93), (3, 0.89), (3.5, 0.85), (4, 0.82),
     (4.5, 0.78), (5, 0.76)],
)  # fmt: skip
def test_derating_as_printed(unbalance: float, factor: float) -> None:
    """Engineering ToolBox. NEMA MG 1 has a graph only."""
    assert unbalance_derating(unbalance / 100) == pytest.approx(factor, abs=1e-9)


@pytest.mark.parametrize(
    ("unbalance", "factor"),
    [(1, 1.00), (2, 0.95), (3, 0.88), (4, 0.82), (5, 0.75)],
)
def test_other_readings_of_the_same_graph(unbalance: float, factor: float) -> None:
    """DOE's motor tip sheet on voltage unbalance, from memory: within a hundredth, a line apart."""
    assert unbalance_derating(unbalance / 100) == pytest.approx(factor, abs=0.0151)


@pytest.mark.parametrize(
    ("size", "copper"),
    [("14", 0.04976), ("12", 0.07906), ("10", 0.12568), ("8", 0.1999), ("6", 0.3177),
     ("4", 0.5054), ("2", 0.8035), ("1/0", 1.2786)],
)  # fmt: skip
def test_a_cable_weighs_more_than_its_copper(size: str, copper: float) -> None:
    """Hand calculation: 4 x cmil of NEC Table 8 x pi/4 x 1e-6 in2 x 12 in x 8.89 x 0.036127 lb/in3.

    14 AWG: 4 x 4,110 x 0.7854e-6 x 12 x 0.32117 = 0.04976. The cable's own weight is an estimate.
    """
    alone = copper_weight(size, conductors=4)
    whole = cable_weight(size)

    assert alone.m_as("lb/ft") == pytest.approx(copper, rel=1e-3)
    assert alone < whole.lowest < whole.highest
    assert "ESTIMATE" in whole.source
