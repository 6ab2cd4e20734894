"""The hanging string. Nothing is published for pump strings: these are independent hand
calculations and common practice, each labelled so. Water is 62.4 lbf/ft3 throughout.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import pytest

from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.drop_line.piece import Piece
from calc.units import Quantity, quantity

WATER = quantity(62.4, "lbf/ft**3")
SURFACE = quantity(0, "ft")


def feet(value: float) -> Quantity:
    return quantity(value, "ft")


def steel_2in(name: str, *, valve: bool = False, length: float = 20.0) -> Piece:
    """2 in schedule 40: 3.66 lbf/ft, steel of 490 lbf/ft3, bore 2.067 in, outside 2.375 in."""
    return Piece(
        name,
        "joint",
        length=feet(length),
        weight=quantity(3.66 * length, "lbf"),
        displaced=quantity(3.66 * length / 490, "ft**3"),
        bore_area=quantity(pi / 4 * 2.067**2, "in**2"),
        outside_area=quantity(pi / 4 * 2.375**2, "in**2"),
        holds_water=valve,
        allowable=quantity(4000, "lbf"),
        allowable_of="thread root",
        allowable_source="hand",
    )


def pump(air: float, in_water: float, length: float = 3.0) -> Piece:
    return Piece(
        "pump and motor",
        "pump",
        length=feet(length),
        weight=quantity(air, "lbf"),
        displaced=quantity((air - in_water) / 62.4, "ft**3"),
        bore_area=quantity(0, "in**2"),
        outside_area=quantity(12, "in**2"),
    )


def steel_string(joints: int = 20) -> HangingString:
    pipes = [steel_2in(f"joint {n}", valve=n == joints) for n in range(1, joints + 1)]
    return HangingString([*pipes, pump(120, 103)])


def test_lowest_thread_of_a_full_steel_string() -> None:
    """Hand calculation: 2 in steel, 400 ft, water at 200 ft.

    Pump 103 in water, plus 173.3 psi on 3.356 sq in of bore, less 86.7 psi on 4.430 sq in of
    outside: 103 + 581.7 - 384.0 = 300.7, printed "about 300".
    """
    cuts = steel_string().wall_tensions(
        level=feet(200), top=SURFACE, fill=Fill.FULL, water_weight=WATER
    )
    lowest = next(cut for cut in cuts if (cut.name, cut.end) == ("joint 20", "lower"))

    assert lowest.depth.m_as("ft") == pytest.approx(400)
    assert lowest.tension.m_as("lbf") == pytest.approx(300.7, abs=0.2)
    assert lowest.share == pytest.approx(300.7 / 4000, abs=1e-4)


def test_lowest_thread_when_drained() -> None:
    """Hand calculation: inside and outside both stand at 200 ft, 86.67 psi on the ring of metal.

    103 - 86.67 x (4.430 - 3.356) = 103 - 93.1 = 9.9 lbf.
    """
    cuts = steel_string().wall_tensions(
        level=feet(200), top=SURFACE, fill=Fill.DRAINED, water_weight=WATER
    )

    assert cuts[-3].tension.m_as("lbf") == pytest.approx(9.9, abs=0.1)


def test_dry_well_puts_the_whole_column_on_the_bottom_fitting() -> None:
    """Hand calculation: 1,000 ft of 2.3 in bore in a dry well, 1,800 lbf.

    433.3 psi x 4.155 sq in = 1,800.4. The hose itself hangs above the cut.
    """
    hose = HangingString([riser_hose(1000, valve=True)])
    cuts = hose.wall_tensions(level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER)

    assert cuts[-1].tension.m_as("lbf") == pytest.approx(1800, abs=1)


def riser_hose(length: float, *, valve: bool = False) -> Piece:
    """Common practice: 2 in riser hose, 0.80 lbf/ft, bore swollen 15 % to 2.3 in."""
    return Piece(
        "hose",
        "hose",
        length=feet(length),
        weight=quantity(0.80 * length, "lbf"),
        displaced=quantity(0.80 * length / (1.25 * 62.4), "ft**3"),
        bore_area=quantity(pi / 4 * 2.3**2, "in**2"),
        outside_area=quantity(pi / 4 * 2.6**2, "in**2"),
        holds_water=valve,
        allowable=quantity(3500, "lbf"),
        allowable_of="end fitting",
    )


def test_common_practice_2600_lbf_for_1000_ft_of_full_hose() -> None:
    """Common practice, no published source: 0.80 + 1.80 lbf/ft, about 2,600 against 3,500."""
    hose = HangingString([riser_hose(1000, valve=True)])
    load = hose.hook_load(level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER)
    top = hose.wall_tensions(level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER)[0]

    assert load.m_as("lbf") == pytest.approx(2600, abs=5)
    assert top.tension_lbf == pytest.approx(load.m_as("lbf"))
    assert top.share == pytest.approx(2600 / 3500, abs=0.002)


def test_surface_pressure_pulls_every_wall_by_its_bore() -> None:
    """Hand calculation: 60 psi on a 2.3 in bore is about 250 lbf (249.3)."""
    hose = HangingString([riser_hose(1000, valve=True)])
    rest, service = (
        hose.wall_tensions(
            level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER, surface_pressure=pressure
        )
        for pressure in (None, quantity(60, "psi"))
    )
    added = [b.tension_lbf - a.tension_lbf for a, b in zip(rest, service, strict=True)]

    assert added == pytest.approx([249.3, 249.3], abs=0.1)


def test_service_opens_the_valves_so_the_tail_below_them_carries_the_column_too() -> None:
    """Hand calculation: a 20 ft nipple under the only valve, dry well, 60 psi at the surface.

    At 40 ft: 120 (pump in air) + (40 x 62.4/144 + 60) psi x 3.356 sq in = 120 + 259.5 = 379.5.
    """
    string = HangingString([steel_2in("joint", valve=True), steel_2in("nipple"), pump(120, 103)])
    cuts = string.wall_tensions(
        level=None,
        top=SURFACE,
        fill=Fill.FULL,
        water_weight=WATER,
        surface_pressure=quantity(60, "psi"),
    )
    still = string.wall_tensions(level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER)

    assert cuts[3].tension_lbf == pytest.approx(379.5, abs=0.3)
    assert still[3].tension_lbf == pytest.approx(120.0, abs=1e-9)


@dataclass(frozen=True)
class Example:
    """One example of the trade's load model, worked with its rounded weights per foot."""

    name: str
    joint: float
    joints: int
    water_at: float
    line: tuple[float, float, float]  # in air, in water, water inside, per foot
    cable: float
    pump: float
    full: float
    drained: float
    step: float
    rise: tuple[float, float]

    def string(self) -> HangingString:
        """Cable weighs 0.7 of its air weight in water, pump and motor 0.86."""
        air, wet, inside = self.line
        displaced = air - wet + 0.3 * self.cable
        pieces = [
            Piece(
                f"joint {n}",
                "joint",
                length=feet(self.joint),
                weight=quantity((air + self.cable) * self.joint, "lbf"),
                displaced=quantity(displaced * self.joint / 62.4, "ft**3"),
                bore_area=quantity(inside / 62.4, "ft**2"),
                outside_area=quantity((inside + air - wet) / 62.4, "ft**2"),
                holds_water=n == self.joints,
            )
            for n in range(1, self.joints + 1)
        ]
        return HangingString([*pieces, pump(self.pump, 0.86 * self.pump, length=0.01)])


EXAMPLES = [
    Example(
        "A PVC 1-1/4 in, 300 ft, water 100",
        20, 15, 100, (0.54, 0.15, 0.56), 0.15, 45, 216, 160, -5, (20, 9),
    ),
    Example(
        "B steel 2 in, 400 ft, water 200",
        21, 19, 200, (3.65, 3.19, 1.45), 0.35, 120, 1892, 1602, -73, (42, 12),
    ),
    Example(
        "C steel 4 in, 500 ft, water 250",
        21, 24, 250, (10.8, 9.42, 5.52), 1.9, 560, 7779, 6401, -229, (156, 40),
    ),
    # Hose 1.1 lbf/ft of specific gravity 1.25, 3 in swollen 10 %.
    Example(
        "D hose 3 in, 400 ft, water 200",
        20, 20, 200, (1.1, 1.1 * 0.2, 3.71), 0.5, 210, 1357, 617, -12, (94, 20),
    ),
]  # fmt: skip


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda example: example.name)
class TestTradeLoadExamples:
    """Worked by the trade's load model from weights rounded to two digits; common practice.

    Its weights leave out or take in the couplings (under 1 %), are rounded to two digits, and the
    lengths here are whole joints (19 x 21 = 399 for 400 ft): loads and steps agree within 2 %.
    """

    def test_full_and_drained(self, example: Example) -> None:
        """Common practice, no published source: loads full and drained, rounded by it."""
        full, drained = (
            example.string().hook_load(
                level=feet(example.water_at), top=SURFACE, fill=fill, water_weight=WATER
            )
            for fill in (Fill.FULL, Fill.DRAINED)
        )

        assert full.m_as("lbf") == pytest.approx(example.full, rel=0.02)
        assert drained.m_as("lbf") == pytest.approx(example.drained, rel=0.02)

    def test_step_of_a_joint_with_the_pump_under_water(self, example: Example) -> None:
        """Common practice: the step a joint makes, printed in whole pounds."""
        curve = example.string().load_curve(
            level=feet(example.water_at), top=SURFACE, fill=Fill.FULL, water_weight=WATER
        )

        assert curve.values[1] - curve.values[0] == pytest.approx(example.step, abs=1.0, rel=0.02)

    def test_rise_within_a_lift(self, example: Example) -> None:
        """Common practice: what a lift of one joint adds, full and drained."""
        gains = [
            example.string()
            .rise_within_lift(
                level=feet(example.water_at),
                top=SURFACE,
                fill=fill,
                water_weight=WATER,
                rise=feet(example.joint),
            )
            .gain.m_as("lbf")
            for fill in (Fill.FULL, Fill.DRAINED)
        ]

        assert gains == pytest.approx(example.rise, abs=1.0, rel=0.02)


@pytest.mark.parametrize(
    ("example", "air_full", "air_drained"),
    # Normal step per joint with the pump in the air, full and drained; same source.
    [(EXAMPLES[0], -25, -14), (EXAMPLES[1], -115, -85), (EXAMPLES[2], -385, -269),
     (EXAMPLES[3], -106, -32)],
)  # fmt: skip
def test_step_of_a_joint_with_the_pump_in_the_air(
    example: Example, air_full: float, air_drained: float
) -> None:
    for fill, step in ((Fill.FULL, air_full), (Fill.DRAINED, air_drained)):
        curve = example.string().load_curve(
            level=feet(example.water_at), top=SURFACE, fill=fill, water_weight=WATER
        )

        assert curve.values[-1] - curve.values[-2] == pytest.approx(step, abs=1.0, rel=0.02)


def test_losing_the_pump_is_a_step_of_its_weight_in_water() -> None:
    """Hand calculation: the same pipe without its pump weighs 103 lbf less under water."""
    whole = steel_string()
    parted = HangingString(whole.pieces[:-1])
    loads = [
        string.hook_load(level=feet(200), top=SURFACE, fill=Fill.DRAINED, water_weight=WATER)
        for string in (whole, parted)
    ]

    assert loads[0].m_as("lbf") - loads[1].m_as("lbf") == pytest.approx(103)


def test_a_piece_crossing_the_level_counts_part_way() -> None:
    """Hand calculation: 20 ft of 2 in steel, drained, 5 ft of it under water.

    20 x 3.66 - 62.4 x 5 x 3.66/490 = 73.2 - 2.331 = 70.87 lbf.
    """
    load = HangingString([steel_2in("joint")]).hook_load(
        level=feet(15), top=SURFACE, fill=Fill.DRAINED, water_weight=WATER
    )

    assert load.m_as("lbf") == pytest.approx(70.87, abs=0.01)


def test_footage_out_cuts_the_hose() -> None:
    """Hand calculation: 250 of 1,000 ft out in a dry well leaves 750 x (0.80 + 1.8004)."""
    hose = HangingString([riser_hose(1000, valve=True)])
    load = hose.hook_load(
        level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER, out=feet(250)
    )
    cuts = hose.wall_tensions(
        level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER, out=feet(250)
    )

    assert load.m_as("lbf") == pytest.approx(1950.3, abs=0.3)
    assert [cut.depth_ft for cut in cuts] == pytest.approx([0, 750])
    assert cuts[0].tension_lbf == pytest.approx(load.m_as("lbf"))
    assert hose.remaining(out=feet(250)).m_as("ft") == pytest.approx(750)


def test_raising_the_top_above_the_datum_moves_everything() -> None:
    """Hand calculation: raised 21 ft, 221 of 400 ft hang above water at 200 ft, drained.

    Pipe 3.66 x 400 - 0.4661 x 179 + 103 = 1464 - 83.4 + 103 = 1483.6 lbf.
    """
    load = steel_string().hook_load(
        level=feet(200), top=feet(-21), fill=Fill.DRAINED, water_weight=WATER
    )

    assert load.m_as("lbf") == pytest.approx(1483.6, abs=0.2)


def test_a_flowing_well_buoys_the_whole_string() -> None:
    """Hand calculation: level 10 ft above the datum, full or drained 400 x 3.194 + 103 lbf."""
    for fill in (Fill.FULL, Fill.DRAINED):
        load = steel_string().hook_load(level=feet(-10), top=SURFACE, fill=fill, water_weight=WATER)

        assert load.m_as("lbf") == pytest.approx(1464 - 186.4 + 103, abs=0.2)


def test_a_flowing_well_with_the_string_standing_above_its_level() -> None:
    """Hand calculation: level 4 ft above the datum, top 14 ft above: 10 ft in the air, full.

    1464 - 0.4661 x 390 + 103 + 10 x 1.4541 = 1399.8 lbf.
    """
    load = steel_string().hook_load(
        level=feet(-4), top=feet(-14), fill=Fill.FULL, water_weight=WATER
    )

    assert load.m_as("lbf") == pytest.approx(1399.8, abs=0.2)


def three_valves() -> HangingString:
    """Three 20 ft joints, each with a check valve at its lower end."""
    return HangingString([steel_2in(f"joint {n}", valve=True) for n in (1, 2, 3)])


@pytest.mark.parametrize(
    ("fill", "water_ft"),
    [
        (Fill.FULL, 60),
        (Fill.DRAINED, 0),
        (Fill.chambers(True, True, True), 60),
        (Fill.chambers(True, False, False), 20),
        (Fill.chambers(False, True, quantity(5, "ft")), 25),
        (Fill.chambers(False, False, quantity(99, "ft")), 20),
    ],
)
def test_each_chamber_is_full_or_not_by_itself(fill: Fill, water_ft: float) -> None:
    """Hand calculation, dry well: 60 x 3.66 lbf of pipe and 1.4541 lbf/ft of what is full."""
    load = three_valves().hook_load(level=None, top=SURFACE, fill=fill, water_weight=WATER)

    assert load.m_as("lbf") == pytest.approx(219.6 + 1.4541 * water_ft, abs=0.02)


def test_a_chamber_hangs_on_its_own_valve() -> None:
    """Hand calculation, dry well, only the middle chamber full: 20 ft of water, 29.08 lbf.

    The middle joint's lower end carries the joint below, 73.2, and its own column; the upper
    end of the middle joint the same water and one joint more; below the valve there is none.
    """
    cuts = three_valves().wall_tensions(
        level=None, top=SURFACE, fill=Fill.chambers(False, True, False), water_weight=WATER
    )

    assert [cut.tension_lbf for cut in cuts] == pytest.approx(
        [248.68, 175.48, 175.48, 102.28, 73.2, 0.0], abs=0.02
    )


def test_one_continuous_column_loads_the_lowest_wall_most() -> None:
    """Hand calculation, dry well: 60 ft on the lowest valve, 87.25 lbf; three valves hold 29.08."""
    full, chambered = (
        three_valves().wall_tensions(level=None, top=SURFACE, fill=fill, water_weight=WATER)[-1]
        for fill in (Fill.FULL, Fill.chambers(True, True, True))
    )

    assert full.tension_lbf == pytest.approx(87.25, abs=0.02)
    assert chambered.tension_lbf == pytest.approx(29.08, abs=0.02)


def test_chambers_taken_off_the_top_are_forgotten() -> None:
    """Hand calculation: with the top joint out, 40 ft of pipe and 5 ft of water remain."""
    load = three_valves().hook_load(
        level=None,
        top=SURFACE,
        fill=Fill.chambers(True, False, quantity(5, "ft")),
        water_weight=WATER,
        out=1,
    )

    assert load.m_as("lbf") == pytest.approx(146.4 + 5 * 1.4541, abs=0.02)


def test_a_tapered_string_is_cut_on_each_side_of_the_step() -> None:
    """Hand calculation, dry well, full: 20 ft of 3 in bore 3 in over 20 ft of 2 in bore.

    Weights 100 over 50 lbf; areas 7.069 and 3.142 sq in. At 20 ft, 8.667 psi: below the step
    50 + 27.23 + 8.667 x 3.142 = 104.46, above it 77.23 + 8.667 x 7.069 = 138.49 lbf.
    """

    def piece(name: str, weight: float, bore: float, *, valve: bool) -> Piece:
        return Piece(
            name, "joint", feet(20), quantity(weight, "lbf"), quantity(0.1, "ft**3"),
            quantity(pi / 4 * bore**2, "in**2"), quantity(pi / 4 * (bore + 0.4) ** 2, "in**2"),
            holds_water=valve,
        )  # fmt: skip

    string = HangingString(
        [piece("upper", 100, 3.0, valve=False), piece("lower", 50, 2.0, valve=True)]
    )
    cuts = string.wall_tensions(level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER)

    assert [cut.tension_lbf for cut in cuts[1:3]] == pytest.approx([138.49, 104.46], abs=0.02)
    assert cuts[0].tension_lbf == pytest.approx(150 + 62.4 * 20 * (7.069 + 3.142) / 144, abs=0.1)


def test_a_solid_sub_carries_what_its_threads_carry() -> None:
    """Hand calculation, dry well, empty: a joint, a solid sub of 10 lbf, a joint, 73.2 lbf each."""
    sub = Piece(
        "sub", "sub", feet(0.5), quantity(10, "lbf"), quantity(0.02, "ft**3"),
        quantity(0, "in**2"), quantity(4.43, "in**2"),
    )  # fmt: skip
    string = HangingString([steel_2in("upper"), sub, steel_2in("lower", valve=True)])
    cuts = string.wall_tensions(level=None, top=feet(0), fill=Fill.DRAINED, water_weight=WATER)

    assert [cut.tension_lbf for cut in cuts] == pytest.approx(
        [156.4, 83.2, 83.2, 73.2, 73.2, 0.0], abs=1e-6
    )


def test_totals_of_a_string() -> None:
    """Hand calculation: 20 joints of 73.2 lbf and 120; 400 ft x 3.3556 sq in; 403 ft."""
    string = steel_string()

    assert string.length.m_as("ft") == pytest.approx(403)
    assert string.weight.m_as("lbf") == pytest.approx(1584)
    assert string.bore_volume.m_as("ft**3") == pytest.approx(400 * 3.3556 / 144, abs=1e-3)
    assert string.displaced.m_as("ft**3") == pytest.approx(1464 / 490 + 17 / 62.4, abs=1e-6)
    assert string.remaining(out=3).m_as("ft") == pytest.approx(343)


def test_a_hose_curve_by_footage() -> None:
    """Hand calculation, dry well, full: 2.6004 lbf for each foot that hangs, every 400 ft."""
    curve = HangingString([riser_hose(1000, valve=True)]).load_curve(
        level=None, top=SURFACE, fill=Fill.FULL, water_weight=WATER, every=feet(400)
    )

    assert list(curve.values) == pytest.approx([2600.4, 1560.2, 520.1], abs=0.2)
    assert [load.m_as("lbf") for load in curve] == list(curve.values)
    assert len(curve) == 3
