"""Every mechanical function refuses a wrong dimension, a value that is not finite, a bad range."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from calc.drop_line import hose, material, pipe, stretch, threads
from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.drop_line.piece import Piece
from calc.errors import CalcError, NotFinite, OutOfRange, WrongDimension
from calc.hoisting import gauge, hoist, reel, wire_rope
from calc.hydraulics import pressure
from calc.units import Quantity, quantity, ureg

if TYPE_CHECKING:
    from collections.abc import Callable

FEET = quantity(10, "ft")
INCHES = quantity(1.5, "in")
POUNDS = quantity(100, "lbf")
PSI = quantity(300, "psi")
WATER = quantity(62.4, "lbf/ft**3")
PIPE = pipe.steel_pipe("2", "40")
REEVING = hoist.Reeving(4, 1.09)
HOSE = hose.Hose(
    bore=INCHES,
    weight_per_length=quantity(0.5, "lbf/ft"),
    working_tension=quantity(1000, "lbf"),
    swell=0.1,
    stretch=0.02,
    specific_gravity=1.2,
)
GAUGE = gauge.Gauge(gauge.GaugePlace.HOOK, zero=POUNDS)
SECTIONS = [stretch.Section(quantity(500, "ft"), quantity(3e7, "lbf"))]
PIECE: dict[str, Any] = {
    "name": "joint",
    "kind": "joint",
    "length": FEET,
    "weight": POUNDS,
    "displaced": quantity(0.1, "ft**3"),
    "bore_area": quantity(3, "in**2"),
    "outside_area": quantity(4, "in**2"),
    "allowable": quantity(1000, "lbf"),
}
STRING = HangingString([Piece(**PIECE)])
MOMENT: dict[str, Any] = {"level": FEET, "top": FEET, "fill": Fill.FULL, "water_weight": WATER}
MOVING = hoist.Motion.HOISTING
REEL: dict[str, Any] = {"core": INCHES, "thickness": INCHES, "wraps_per_layer": 2.0}

CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (Piece, PIECE),
    (STRING.hook_load, {**MOMENT, "out": quantity(5, "ft")}),
    (STRING.wall_tensions, {**MOMENT, "out": quantity(5, "ft"), "surface_pressure": PSI}),
    (STRING.load_curve, {**MOMENT, "every": FEET}),
    (STRING.rise_within_lift, {**MOMENT, "rise": FEET}),
    (pipe.barlow_pressure, {"stress": PSI, "wall": INCHES, "outside_diameter": FEET}),
    (pipe.iso_pressure, {"stress": PSI, "wall": INCHES, "outside_diameter": FEET}),
    (pipe.pvc_derating, {"temperature": quantity(90, "degF")}),
    (pipe.derated, {"rating": PSI, "temperature": quantity(90, "degF")}),
    (threads.root_area, {"size": PIPE, "wall": quantity(0.14, "in")}),
    (threads.root_wall, {"size": PIPE, "wall": quantity(0.14, "in")}),
    (threads.ring_area, {"root_diameter": FEET, "bore": INCHES}),
    (threads.thread_tension, {"area": quantity(1, "in**2"), "stress": PSI, "design_factor": 4.0}),
    (threads.pitch_diameter_at_gauge, {"outside_diameter": INCHES, "threads_per_inch": 11.5}),
    (threads.effective_length, {"outside_diameter": INCHES, "threads_per_inch": 11.5}),
    (material.pvc_modulus, {"temperature": quantity(90, "degF")}),
    (hose.water_per_length, {"hose": HOSE, "water_weight": WATER}),
    (hose.material_volume, {"hose": HOSE, "length": FEET, "water_weight": WATER}),
    (hose.stretched, {"hose": HOSE, "length": FEET, "load": POUNDS}),
    (hoist.line_pull, {"load": POUNDS, "reeving": REEVING, "moving": MOVING}),
    (hoist.dead_line_pull, {"load": POUNDS, "reeving": REEVING, "moving": MOVING}),
    (hoist.mast_load, {"load": POUNDS, "reeving": REEVING, "moving": MOVING}),
    (hoist.sheave_load, {"tension": POUNDS, "turn": quantity(90, "degree")}),
    (hoist.navy_line_pull, {"load": POUNDS, "parts": 4, "sheaves": 4}),
    (hoist.picked_up, {"load": POUNDS, "allowance": 0.2}),
    (hoist.jerk_allowance, {"speed": quantity(1, "ft/s"), "distance": FEET}),
    (
        gauge.hook_load_from_reading,
        {"reading": POUNDS, "gauge": GAUGE, "reeving": REEVING, "moving": MOVING},
    ),
    (
        gauge.reading_for_hook_load,
        {"load": POUNDS, "gauge": GAUGE, "reeving": REEVING, "moving": MOVING},
    ),
    (wire_rope.breaking_strength, {"diameter": quantity(0.5, "in"), "construction": "FC IPS"}),
    (wire_rope.rope_allowable, {"breaking": POUNDS, "design_factor": 3.5}),
    (wire_rope.bending_efficiency, {"sheave_diameter": FEET, "rope_diameter": quantity(10, "in")}),
    (wire_rope.rule_of_thumb_load, {"diameter": INCHES}),
    (wire_rope.clips_needed, {"diameter": INCHES}),
    (wire_rope.clip_spacing, {"diameter": INCHES}),
    (reel.length_on_reel, {**REEL, "wraps": 5.0}),
    (reel.wraps_for_length, {**REEL, "length": FEET}),
    (reel.constant_core_error, {**REEL, "length": FEET}),
    (reel.capacity, {"barrel": FEET, "flange_depth": FEET, "width": FEET, "factor": 0.9}),
    (reel.rope_factor, {"diameter": quantity(0.5, "in")}),
    (reel.packed_factor, {"diameter": INCHES}),
    (reel.slip, {"counted": FEET, "true_length": FEET}),
    (reel.time_to_go, {"length": FEET, "speed": quantity(40, "ft/min")}),
    (
        reel.drum_pull_on_layer,
        {"rated": POUNDS, "rated_layer": 1, "core": FEET, "rope_diameter": INCHES, "layer": 3},
    ),
    (
        pressure.standing_pressure,
        {"column": FEET, "water_weight": WATER, "surface_pressure": PSI},
    ),
    (pressure.dead_head, {"shut_off_head": FEET, "submergence": FEET, "water_weight": WATER}),
    (pressure.net_of_annulus, {"gross": PSI, "submergence": FEET, "water_weight": WATER}),
    (pressure.open_water_speed, {"bulk_modulus": PSI, "water_weight": WATER}),
    (
        pressure.wave_speed,
        {
            "open_water": quantity(4720, "ft/s"),
            "bulk_modulus": PSI,
            "diameter": INCHES,
            "wall": INCHES,
            "elastic_modulus": PSI,
        },
    ),
    (
        pressure.surge,
        {
            "wave_speed": quantity(4000, "ft/s"),
            "velocity_change": quantity(5, "ft/s"),
            "water_weight": WATER,
        },
    ),
    (pressure.end_thrust, {"pressure": PSI, "bore_area": quantity(3, "in**2")}),
    (stretch.axial_stiffness, {"area": quantity(1, "in**2"), "modulus": PSI}),
    (stretch.elastic_stretch, {"load": POUNDS, "sections": SECTIONS}),
    (
        stretch.own_weight_stretch,
        {"weight_per_length": quantity(3, "lbf/ft"), "length": FEET, "stiffness": POUNDS},
    ),
    (
        stretch.thermal_stretch,
        {
            "length": FEET,
            "expansion": quantity(3e-5, "1/delta_degF"),
            "before": quantity(70, "degF"),
            "after": quantity(50, "degF"),
        },
    ),
]
CASES = [
    pytest.param(function, arguments, name, id=f"{function.__name__}-{name}")
    for function, arguments in CALLS
    for name, value in arguments.items()
    if isinstance(value, ureg.Quantity)
]


@pytest.mark.parametrize(
    ("function", "arguments"), [pytest.param(*call, id=call[0].__name__) for call in CALLS]
)
def test_the_arguments_as_they_stand_are_good(
    function: Callable[..., object], arguments: dict[str, Any]
) -> None:
    """Else the refusals below would prove nothing."""
    assert function(**arguments) is not None


@pytest.mark.parametrize(("function", "arguments", "name"), CASES)
def test_a_wrong_dimension_is_refused(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    for wrong in (quantity(1, "ampere"), 1.0):
        with pytest.raises(WrongDimension):
            function(**{**arguments, name: wrong})


@pytest.mark.parametrize(("function", "arguments", "name"), CASES)
@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_a_value_that_is_not_finite_is_refused(
    function: Callable[..., object], arguments: dict[str, Any], name: str, value: float
) -> None:
    bad: Quantity = quantity(value, str(arguments[name].units))
    with pytest.raises(NotFinite):
        function(**{**arguments, name: bad})


NEVER_NEGATIVE = [
    case
    for case in CASES
    if case.values[2]
    not in {"level", "top", "rise", "before", "after", "temperature", "reading", "gross", "load"}
    and case.values[2] != "weight_per_length"
]


@pytest.mark.parametrize(("function", "arguments", "name"), NEVER_NEGATIVE)
def test_a_negative_size_is_refused(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    bad: Quantity = quantity(-1.0, str(arguments[name].units))
    with pytest.raises(CalcError):
        function(**{**arguments, name: bad})


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (pipe.steel_pipe, {"nps": "2", "schedule": "160"}),
        (pipe.pvc_pipe, {"nps": "12", "schedule": "40"}),
        (pipe.sizes, {"material": "copper"}),
        (pipe.barlow_pressure, {"stress": PSI, "wall": FEET, "outside_diameter": FEET}),
        (threads.npt, {"nps": "7"}),
        (threads.thread_tension, {"area": INCHES * INCHES, "stress": PSI, "design_factor": 0.9}),
        (threads.effective_length, {"outside_diameter": INCHES, "threads_per_inch": 0.0}),
        (threads.pitch_diameter_at_gauge, {"outside_diameter": INCHES, "threads_per_inch": 0.0}),
        (material.material, {"name": "copper"}),
        (material.a53_grade, {"name": "C"}),
        (
            material.a53_mill_test,
            {"nps": "2", "schedule": "40", "grade": "C", "coupled": False},
        ),
        (hoist.Reeving, {"parts": 0, "sheave_factor": 1.0}),
        (hoist.Reeving, {"parts": 2, "sheave_factor": 0.9}),
        (hoist.Reeving, {"parts": 2, "sheave_factor": float("nan")}),
        (hoist.Reeving, {"parts": 2, "sheave_factor": 1.0, "lead_sheaves": -1}),
        (hoist.navy_line_pull, {"load": POUNDS, "parts": 0, "sheaves": 0}),
        (hoist.picked_up, {"load": POUNDS, "allowance": -0.1}),
        (hoist.sheave_load, {"tension": POUNDS, "turn": quantity(181, "degree")}),
        (
            hoist.redirect_chain,
            {
                "tension": POUNDS,
                "redirects": [hoist.Redirect("tree", quantity(90, "degree"), 0.5)],
            },
        ),
        (wire_rope.breaking_strength, {"diameter": FEET, "construction": "FC IPS"}),
        (wire_rope.breaking_strength, {"diameter": quantity(0.5, "in"), "construction": "FC"}),
        (wire_rope.rope_allowable, {"breaking": POUNDS, "design_factor": 0.5}),
        (wire_rope.rope_allowable, {"breaking": quantity(0, "lbf"), "design_factor": 3.5}),
        (
            wire_rope.bending_efficiency,
            {"sheave_diameter": quantity(41, "in"), "rope_diameter": quantity(1, "in")},
        ),
        (reel.rope_factor, {"diameter": quantity(2, "in")}),
        (reel.capacity, {"barrel": FEET, "flange_depth": FEET, "width": FEET, "factor": 0.0}),
        (reel.length_on_reel, {**REEL, "wraps": -1.0}),
        (reel.length_on_reel, {**REEL, "wraps_per_layer": 0.5, "wraps": 1.0}),
        (reel.corrected_by_marks, {"counter": FEET, "marks": [(FEET, FEET)]}),
        (
            reel.drum_pull_on_layer,
            {"rated": POUNDS, "rated_layer": 0, "core": FEET, "rope_diameter": INCHES, "layer": 1},
        ),
        (stretch.elastic_stretch, {"load": POUNDS, "sections": []}),
        (stretch.hanging_stretch, {"cuts": [], "stiffness": [POUNDS]}),
        (HangingString, {"pieces": []}),
        (STRING.hook_load, {**MOMENT, "out": 2}),
        (STRING.hook_load, {**MOMENT, "out": -1}),
        (STRING.hook_load, {**MOMENT, "out": quantity(10.1, "ft")}),
        (STRING.hook_load, {**MOMENT, "fill": Fill.chambers(True)}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


def test_a_chamber_cannot_hold_less_than_nothing() -> None:
    with pytest.raises(OutOfRange, match="height of water"):
        Fill.chambers(quantity(-1, "ft"))


def test_a_pipe_of_no_known_rating_is_unknown_and_has_no_share() -> None:
    bare = Piece(**{**PIECE, "allowable": None})
    cut = HangingString([bare]).wall_tensions(**MOMENT)[0]

    assert cut.allowable is None
    assert cut.share is None


def test_a_mass_is_taken_as_its_weight() -> None:
    heavy = HangingString([Piece(**{**PIECE, "weight": quantity(100, "lb")})])

    assert heavy.weight == STRING.weight
