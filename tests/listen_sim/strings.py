"""The four strings of the trade notes, with statics of their own: plain numbers, nothing of calc.

Weights a foot (air, in water, water inside) are those of the trade notes, not the tables that the
book uses, so that string and record differ as they do in life.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import inf
from typing import Any

PUMP_FT = 4.0
VALVE_FT = 0.6
_CABLE_WET = 0.70
_PUMP_WET = 0.86
_VALVE_WET = 0.88


@dataclass(frozen=True)
class Line:
    """One drop line with its well and gauge.

    Lengths in ft, weights in lbf; `gain` is reading over hook load without friction, `friction`
    the share by which sheaves move it when they hoist.
    """

    key: str
    name: str
    kind: str
    joints: int
    joint_ft: float
    air: float
    wet: float
    water: float
    cable: float
    pump: float
    level: float
    valve: float
    upper_valve: int
    gauge: dict[str, Any]
    rig: tuple[dict[str, Any], ...]
    pipe: dict[str, Any]
    gain: float
    friction: float
    error: float
    zero: float
    shows: float

    @property
    def hose(self) -> bool:
        return self.kind == "hose"

    @cached_property
    def pieces(self) -> tuple[tuple[float, float, str], ...]:
        """(upper end, lower end, what) of each piece, from the string's top down."""
        found = []
        at = 0.0
        for number in range(1, self.joints + 1):
            found.append((at, at + self.joint_ft, "pipe"))
            at += self.joint_ft
            if number in (self.upper_valve, self.joints):
                found.append((at, at + VALVE_FT, "valve"))
                at += VALVE_FT
        found.append((at, at + PUMP_FT, "pump"))
        return tuple(found)

    @cached_property
    def others(self) -> tuple[tuple[float, float, str], ...]:
        """The pieces that are not drop line."""
        return tuple(piece for piece in self.pieces if piece[2] != "pipe")

    @cached_property
    def length(self) -> float:
        return self.pieces[-1][1]

    @cached_property
    def valves(self) -> tuple[float, ...]:
        """Where each check valve closes, from the top."""
        return tuple(low for _, low, what in self.pieces if what == "valve")

    def end_of_joint(self, number: int) -> float:
        """Where joint `number` ends, with the valve on it."""
        return self.joint_ft * number + (VALVE_FT if 0 < self.upper_valve <= number else 0.0)

    def columns(self, end: float) -> tuple[tuple[float, float], ...]:
        """The full column on the lowest check valve above `end`."""
        held = [valve for valve in self.valves if valve <= end]
        return ((-inf, held[-1]),) if held else ()


@dataclass(frozen=True)
class World:
    """What is true of one pull: shares and offsets from the record."""

    weight: float = 1.0
    pump: float = 1.0
    level: float = 0.0
    water: float = 1.0
    zero: float = 0.0
    sheave: float = 0.0
    drag: float = 0.0


def hook_load(
    line: Line,
    world: World,
    *,
    out: float,
    raised: float,
    level: float,
    columns: tuple[tuple[float, float], ...],
    end: float,
) -> float:
    """Weight of all that hangs, less buoyancy below the water, plus bore water held above it."""
    water = out + raised + level  # where the outside water stands, from the string's top
    low = min(end, line.length)
    dry, sunk = _spans(out, min(low, water)), _spans(max(out, water), low)
    pipe_dry, pipe_sunk = dry, sunk
    total = 0.0
    for upper, lower, what in line.others:
        top, bottom = max(upper, out), min(lower, low)
        over, under = _spans(top, min(bottom, water)), _spans(max(top, water), bottom)
        pipe_dry, pipe_sunk = pipe_dry - over, pipe_sunk - under
        if what == "pump":
            total += world.pump * line.pump / PUMP_FT * (over + _PUMP_WET * under)
            dry, sunk = dry - over, sunk - under  # the cable ends at the pump
        else:
            total += world.weight * line.valve / VALVE_FT * (over + _VALVE_WET * under)
    total += world.weight * (line.air * pipe_dry + line.wet * pipe_sunk)
    total += line.cable * (dry + _CABLE_WET * sunk)
    for top, bottom in columns:
        total += line.water * world.water * _spans(max(top, out), min(bottom, low, water))
    return total


def _spans(upper: float, lower: float) -> float:
    return max(lower - upper, 0.0)


_BLOCK = {"hoist": "block and line", "block_weight": 90}

LINES = {
    line.key: line
    for line in (
        Line(
            "A", "PVC 1-1/4 in, 300 ft", "pvc", 15, 20.0, 0.54, 0.15, 0.56, 0.15, 45.0, 100.0,
            2.0, 0, {"gauge_place": "hook", "gauge_zero": 0, "gauge_error": 4},
            ({"kind": "rig", "parts_of_line": 1, "sheave_factor": 1.04, **_BLOCK},),
            {"nps": "1-1/4", "schedule": "80"}, 1.0, 0.0, 4.0, 0.0, 1.0,
        ),
        Line(
            "B", "steel 2 in, 400 ft", "steel", 19, 21.0, 3.65, 3.19, 1.45, 0.35, 120.0, 200.0,
            5.0, 5, {"gauge_place": "deadline", "gauge_zero": 46, "gauge_error": 12},
            ({"kind": "rig", "parts_of_line": 2, "sheave_factor": 1.06, **_BLOCK},),
            {"nps": "2", "schedule": "40"}, 0.5, -0.029, 12.0, 46.0, 5.0,
        ),
        Line(
            "C", "steel 4 in, 500 ft", "steel", 24, 21.0, 10.8, 9.42, 5.52, 1.9, 560.0, 250.0,
            24.0, 6, {"gauge_place": "deadline", "gauge_zero": 25, "gauge_error": 20},
            ({"kind": "rig", "parts_of_line": 4, "sheave_factor": 1.04, **_BLOCK},),
            {"nps": "4", "schedule": "40"}, 0.25, -0.058, 20.0, 25.0, 5.0,
        ),
        Line(
            "D", "hose 3 in, 400 ft", "hose", 20, 20.0, 1.1, 0.22, 3.71, 0.5, 210.0, 200.0,
            12.0, 0, {"gauge_place": "pulley pin", "turn_angle": 90, "gauge_zero": 30,
                      "gauge_error": 15},
            ({"kind": "rig", "hoist": "hose reel"},
             {"kind": "redirect", "place": 1, "part": "head roller", "turn_angle": 90,
              "sheave_factor": 1.05}),
            {"hose_bore": 3, "hose_swell": "10 %", "line_weight": 1.1, "hose_density": 1.25},
            2**0.5, 0.025, 15.0, 30.0, 5.0,
        ),
    )
}  # fmt: skip
