"""Pipe dimensions, weights and pressure ratings against standards, handbooks and `fluids`."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest
from fluids.piping import nearest_pipe

from calc.drop_line.material import a53_grade, a53_mill_test, material, pvc_modulus
from calc.drop_line.pipe import (
    _PVC_DENSITY_LB_IN3,
    _PVC_MEAN_WALL,
    barlow_pressure,
    derated,
    iso_pressure,
    plain_end_weight,
    pvc_derating,
    pvc_pipe,
    sizes,
    steel_pipe,
    threaded_rating,
)
from calc.units import quantity

A53_X22_PLAIN_END = [
    # ASTM A53 Table X2.2, seen in a trade reproduction; printed to 0.01 lb/ft.
    ("2", "40", 3.66),
    ("2", "80", 5.03),
    ("2-1/2", "40", 5.80),
    ("3", "40", 7.58),
    ("3", "80", 10.26),
    # An older schedule sheet (seen) with the 10.68 factor: 1.679, 2.273, 2.718, 3.653,
    # 5.793, 7.576, 10.79; A53's 10.69 prints one hundredth more at NPS 4.
    ("1", "40", 1.68),
    ("1-1/4", "40", 2.27),
    ("1-1/2", "40", 2.72),
    ("4", "40", 10.80),
]


@pytest.mark.parametrize(("nps", "schedule", "printed"), A53_X22_PLAIN_END)
def test_plain_end_weight_is_the_standards(nps: str, schedule: str, printed: float) -> None:
    """ASTM A53 Table X2.2; the first five seen."""
    assert steel_pipe(nps, schedule).weight_per_length.m_as("lb/ft") == pytest.approx(
        printed, abs=0.0051
    )


@pytest.mark.parametrize(("nps", "schedule"), sizes("steel"))
def test_plain_end_weight_follows_the_formula_of_a53(nps: str, schedule: str) -> None:
    """ASTM A53 Table X2.2 note: 10.69 (OD - t) t, rounded to 0.01 lb/ft."""
    size = steel_pipe(nps, schedule)
    outside, wall = size.outside_diameter.m_as("in"), size.wall.m_as("in")

    assert size.weight_per_length.m_as("lb/ft") == pytest.approx(
        10.69 * (outside - wall) * wall, abs=0.0055
    )


@pytest.mark.parametrize(
    ("nps", "printed"),
    # An ASA schedule sheet (seen), plain end by the 10.68 of ASME B36.10M, to four figures.
    [("1", 1.679), ("1-1/4", 2.273), ("1-1/2", 2.718), ("2", 3.653), ("2-1/2", 5.793),
     ("3", 7.576), ("4", 10.79)],
)  # fmt: skip
def test_plain_end_weight_of_any_wall(nps: str, printed: float) -> None:
    """ASME B36.10M: 10.68 (D - t) t lb/ft."""
    size = steel_pipe(nps, "40")
    weight = plain_end_weight(outside_diameter=size.outside_diameter, wall=size.wall)

    assert weight.m_as("lb/ft") == pytest.approx(printed, rel=6e-4)


@pytest.mark.parametrize(
    ("nps", "schedule", "printed"),
    # ASTM A53 Table X2.3: the first two seen in a reproduction, the others from memory. An older
    # B36.10 set prints 3.678, 5.819, 7.616, 10.889; the A53 edition in force is taken.
    [
        ("1", "80", 2.19),
        ("1-1/4", "80", 3.03),
        ("2", "40", 3.68),
        ("2-1/2", "40", 5.85),
        ("3", "40", 7.68),
        ("4", "40", 10.92),
    ],
)
def test_threaded_and_coupled_weight(nps: str, schedule: str, printed: float) -> None:
    """ASTM A53 Table X2.3; two seen, four from memory."""
    coupled = steel_pipe(nps, schedule).threaded_coupled_weight

    assert coupled is not None
    assert coupled.m_as("lb/ft") == pytest.approx(printed, abs=0.005)


FLUIDS_GRID = [("steel", *key) for key in sizes("steel")] + [("PVC", *key) for key in sizes("PVC")]


@pytest.mark.parametrize(("name", "nps", "schedule"), FLUIDS_GRID)
def test_dimensions_agree_with_fluids(name: str, nps: str, schedule: str) -> None:
    """`fluids.piping.nearest_pipe` keeps whole tenths of a millimetre, and hundredths of wall."""
    size = (steel_pipe if name == "steel" else pvc_pipe)(nps, schedule)
    nominal = float(sum(Fraction(part) for part in nps.split("-")))
    key = schedule if name == "steel" else f"{schedule}D1785"
    _, bore, outside, wall = nearest_pipe(
        NPS=nominal,  # type: ignore[arg-type]  # fluids declares int and takes 1.25
        schedule=key,
    )

    assert size.outside_diameter.m_as("m") == pytest.approx(outside, abs=5.1e-5)
    assert size.wall.m_as("m") == pytest.approx(wall, abs=6e-6)
    assert size.inside_diameter.m_as("m") == pytest.approx(bore, abs=6.5e-5)


@pytest.mark.parametrize(
    ("nps", "schedule", "gallons"),
    # US gal/ft computed from the printed ID: pi/4 ID^2 x 12/231.
    [("1", "40", 0.0449), ("2", "40", 0.1743), ("2", "80", 0.1534), ("4", "40", 0.6613)],
)
def test_gallons_per_foot(nps: str, schedule: str, gallons: float) -> None:
    """Hand calculation from the printed bore."""
    area = steel_pipe(nps, schedule).bore_area

    assert area.m_as("gallon/ft") == pytest.approx(gallons, abs=0.00006)


D1785 = [
    # NPS, OD, schedule, wall, plain-end psi, average bore, weight: ASTM D1785 as printed in
    # Machinery's Handbook 31st ed. Table 13 (seen) and a pipe data page (seen).
    ("1", 1.315, "40", 0.133, 450, 1.033, 0.315),
    ("1", 1.315, "80", 0.179, 630, 0.935, 0.402),
    ("1-1/4", 1.660, "40", 0.140, 370, 1.364, 0.426),  # a hobby table prints wall 1.140
    ("1-1/4", 1.660, "80", 0.191, 520, 1.256, 0.554),
    ("1-1/2", 1.900, "40", 0.145, 330, 1.592, 0.509),
    ("1-1/2", 1.900, "80", 0.200, 470, 1.476, 0.673),
    ("2", 2.375, "40", 0.154, 280, 2.049, 0.682),  # 0.720 is printed too
    ("2", 2.375, "80", 0.218, 400, 1.913, 0.932),
]


@pytest.mark.parametrize("row", D1785)
def test_pvc_table(row: tuple[str, float, str, float, int, float, float]) -> None:
    """ASTM D1785 in Machinery's Handbook 31st ed. Table 13 and a pipe data page (both seen)."""
    nps, outside, schedule, wall, rating, bore, weight = row
    size = pvc_pipe(nps, schedule)

    assert size.rating is not None
    assert size.outside_diameter.m_as("in") == pytest.approx(outside, abs=0.0005)
    assert size.wall.m_as("in") == pytest.approx(wall, abs=0.0005)
    assert size.rating.m_as("psi") == rating
    assert size.average_inside_diameter.m_as("in") == pytest.approx(bore, abs=0.0005)
    assert size.weight_per_length.m_as("lb/ft") == pytest.approx(weight, abs=0.0005)


@pytest.mark.parametrize("row", D1785)
def test_the_estimates_for_unprinted_sizes_fit_the_printed_ones(
    row: tuple[str, float, str, float, int, float, float],
) -> None:
    """ASTM D1785 as printed: our mean wall gives the bore to 0.006 in, the weight to 2 %."""
    _, outside, _, wall, _, bore, weight = row
    mean = _PVC_MEAN_WALL * wall
    estimate = 12.0 * pi * (outside - mean) * mean * _PVC_DENSITY_LB_IN3

    assert outside - 2.0 * mean == pytest.approx(bore, abs=0.006)
    assert estimate == pytest.approx(weight, rel=0.02)


def test_an_unprinted_weight_is_marked_computed() -> None:
    """Hand calculation, 3 in schedule 80: mean wall 1.06 x 0.300 = 0.318 in, 3.1789 in2.

    3.1789 x 12 x 1.40 x 62.4 / 1728 = 1.9285 lb/ft.
    """
    size = pvc_pipe("3", "80")

    assert size.weight_source.startswith("computed")
    assert size.weight_per_length.m_as("lb/ft") == pytest.approx(1.9285, abs=5e-4)


@pytest.mark.parametrize(("nps", "schedule"), sizes("PVC"))
def test_every_pvc_rating_is_the_iso_equation_to_ten_psi(nps: str, schedule: str) -> None:
    """ASTM D1785 Appendix X1 with S 2000 psi.

    The tolerance is half of 10 psi: note that NPS 3 schedule 80 is 375.0 and prints 370.
    """
    size = pvc_pipe(nps, schedule)
    computed = iso_pressure(
        stress=quantity(2000, "psi"), wall=size.wall, outside_diameter=size.outside_diameter
    )

    assert size.rating is not None
    assert computed.m_as("psi") == pytest.approx(size.rating.m_as("psi"), abs=5.01)


@pytest.mark.parametrize(
    ("nps", "schedule", "printed"),
    # Half of plain end; two pipe-trade technical pages (seen).
    [("1", "80", 315), ("2", "80", 200), ("3", "80", 185), ("2", "120", 235), ("4", "120", 215)],
)
def test_threaded_pvc_is_half(nps: str, schedule: str, printed: int) -> None:
    """ASTM D1785 Appendix X1 (from memory): half of plain end; two technical pages (seen)."""
    assert threaded_rating(pvc_pipe(nps, schedule)).m_as("psi") == printed


@pytest.mark.parametrize(
    ("fahrenheit", "factor"),
    # Machinery's Handbook 31st ed. Table 14 (seen). Conflict: some pages print 0.51 at 110 F and
    # 0.31 at 130 F, one 0.63 at 110 F; the handbook is taken.
    [
        (73, 1.00),
        (80, 0.88),
        (90, 0.75),
        (100, 0.62),
        (110, 0.50),
        (120, 0.40),
        (130, 0.30),
        (140, 0.22),
        (50, 1.00),
    ],
)
def test_pvc_derating(fahrenheit: float, factor: float) -> None:
    """Machinery's Handbook 31st ed. Table 14."""
    assert pvc_derating(quantity(fahrenheit, "degF")) == pytest.approx(factor, abs=1e-12)


def test_derated_worked_line() -> None:
    """Hand calculation, as a PVC data page prints (seen): 450 psi x 0.62 at 100 F is 279."""
    value = derated(rating=quantity(450, "psi"), temperature=quantity(100, "degF"))

    assert value.m_as("psi") == pytest.approx(279, abs=0.5)


@pytest.mark.parametrize(("fahrenheit", "stress"), [(73, 2000), (100, 1240), (140, 440)])
def test_derated_design_stress(fahrenheit: float, stress: float) -> None:
    """Allowable working stress of PVC by temperature, Engineering ToolBox (seen)."""
    value = derated(rating=quantity(2000, "psi"), temperature=quantity(fahrenheit, "degF"))

    assert value.m_as("psi") == pytest.approx(stress, abs=0.5)


def test_barlow_worked_example() -> None:
    """D 8.625, t 0.5, S 30,000 gives 3478 psi; Engineering ToolBox, printed to 1 psi."""
    value = barlow_pressure(
        stress=quantity(30_000, "psi"),
        wall=quantity(0.5, "in"),
        outside_diameter=quantity(8.625, "in"),
    )

    assert value.m_as("psi") == pytest.approx(3478, abs=0.5)


@pytest.mark.parametrize(
    ("nps", "schedule", "grade"),
    [(nps, "40", grade) for nps in ("2", "2-1/2", "3", "4") for grade in ("A", "B")]
    + [(nps, "80", grade) for nps in ("2", "2-1/2", "3") for grade in ("A", "B")],
)
def test_mill_test_table_follows_barlow(nps: str, schedule: str, grade: str) -> None:
    """ASTM A53 Table X2.2: 60 % of yield, at most 2500 psi to NPS 3 and 2800 above, to 10 psi.

    The one printed entry off the rule is NPS 2 schedule 40 Grade A, 2300 for 2330.
    """
    size = steel_pipe(nps, schedule)
    strength = a53_grade(grade).yield_strength
    rule = barlow_pressure(
        stress=quantity(0.6 * strength.m_as("psi"), "psi"),
        wall=size.wall,
        outside_diameter=size.outside_diameter,
    ).m_as("psi")
    printed = a53_mill_test(nps=nps, schedule=schedule, grade=grade, coupled=False).m_as("psi")
    off_the_rule = (nps, schedule, grade) == ("2", "40", "A")

    assert printed == pytest.approx(
        min(rule, 2800 if nps == "4" else 2500), abs=35 if off_the_rule else 5.01
    )
    assert not off_the_rule or printed == 2300


def test_coupled_mill_test_is_the_tables() -> None:
    """ASTM A53 Table X2.3, from memory: NPS 3 schedule 40 Grade A prints 2200."""
    value = a53_mill_test(nps="3", schedule="40", grade="A", coupled=True)

    assert value.m_as("psi") == 2200


@pytest.mark.parametrize(("grade", "tensile", "yields"), [("A", 48, 30), ("B", 60, 35)])
def test_a53_strength(grade: str, tensile: float, yields: float) -> None:
    """ASTM A53, four trade summaries that agree (seen), in ksi."""
    assert a53_grade(grade).tensile_strength.m_as("ksi") == pytest.approx(tensile)
    assert a53_grade(grade).yield_strength.m_as("ksi") == pytest.approx(yields)


def test_pvc_modulus_and_expansion_are_the_cell_class_figures() -> None:
    """ASTM D1784 minimum 400,000 psi (memory); Engineering ToolBox 352,000 at 100 F (seen).

    Expansion 2.8, 2.9, 3.38 and 6.1e-5 are also printed; 3.0e-5 is the pipe pages' figure.
    """
    assert material("PVC").modulus.m_as("psi") == 400_000
    assert pvc_modulus(quantity(100, "degF")).m_as("psi") == 352_000
    assert material("PVC").expansion.m_as("1/delta_degF") == pytest.approx(3.0e-5)


def test_steel_buoyancy_factor() -> None:
    """(65.5 - 8.34)/65.5 = 0.8727, oil-field form, from memory; hand form gives 0.8725."""
    density = material("steel").density.m_as("lb/ft**3")

    assert 1.0 - 62.4 / density == pytest.approx(0.8727, abs=0.0005)
