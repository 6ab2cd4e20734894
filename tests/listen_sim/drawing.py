"""Draws what is true of a pull, and what goes wrong in it."""

from __future__ import annotations

import random
from math import inf

from tests.listen_sim.faults import Fault, Place, held, in_air, load_at
from tests.listen_sim.strings import Line, World

FROM_THE_START = ("gauge read on the wrong parts of line", "water level other than recorded",
                  "breaking out")  # fmt: skip
WHEN_SETTING = ("touching bottom or an obstruction",)
NAMES = (
    "drained", "partly drained", "leaking slowly", "filling slowly", "not drained",
    "pump lost, line still full", "pump lost, line drained", "parted", "stuck or dragging",
    "hung on the lip or roller", "breaking out", "joint missed in the count",
    "joint counted twice", "footage counter off", "gauge dead", "gauge zero off",
    "gauge read on the wrong parts of line", "water level other than recorded",
    "touching bottom or an obstruction", "landed or in its hold",
)  # fmt: skip


def names_for(line: Line) -> tuple[str, ...]:
    """The faults that a line can have."""
    never = ("joint missed in the count", "joint counted twice") if line.hose else (
        "footage counter off",
    )  # fmt: skip
    return tuple(name for name in NAMES if name not in never)


def needs_drained(name: str, draw: random.Random) -> bool:
    """Whether the crew has drained the line before the fault begins."""
    if name in ("filling slowly", "not drained"):
        return True
    if name in ("drained", "partly drained", "leaking slowly", "pump lost, line still full"):
        return False
    return draw.random() < 0.4


def world(line: Line, draw: random.Random) -> World:
    """Weights, level, swell, sheaves, drag and zero off what was recorded, as life has them."""

    def off(sd: float) -> float:
        return min(max(draw.gauss(0.0, sd), -3.0 * sd), 3.0 * sd)

    return World(
        weight=1.0 + off(0.02),
        pump=1.0 + off(0.06),
        level=off(3.0),
        water=1.0 + off(0.04 if line.hose else 0.015),
        zero=off(0.4 * line.error),
        sheave=min(max(draw.gauss(0.4, 0.4), -1.0), 1.0),
        drag=abs(off(0.007)),
    )


def fault(
    name: str, line: Line, true: World, last: Place, shown: float | None, draw: random.Random
) -> Fault:
    """A fault of that name, beginning after the place `last`, where the gauge showed `shown`."""
    weight = load_at(line, true, last, Fault(""))
    weigh = weight * line.gain
    base = Fault(name, start=last)
    sign = draw.choice((-1.0, 1.0))
    match name:
        case "drained":
            return base._replace(columns=())
        case "partly drained":
            return base._replace(columns=_part(line, true, last, draw))
        case "leaking slowly" | "filling slowly":
            full = load_at(line, true, last._replace(drained=False), base)
            column = full - load_at(line, true, last._replace(drained=True), base)
            rate = column / draw.uniform(6.0, 60.0)
            return base._replace(rate=rate if name.startswith("leak") else -rate)
        case "not drained":
            return base._replace(columns=line.columns(inf))
        case "pump lost, line still full":
            return base._replace(end=in_air(line))
        case "pump lost, line drained":
            return base._replace(end=in_air(line), columns=())
        case "parted":
            return _parted(line, last, base, draw)
        case "stuck or dragging":
            if draw.random() < 0.5:
                return base._replace(const=draw.uniform(0.04, 0.4) * weigh)
            return base._replace(slope=draw.uniform(0.1, 0.6) * weigh / (3.0 * travel(line)))
        case "hung on the lip or roller" | "breaking out":
            share = draw.uniform(0.08, 0.6)
            return base._replace(white=(share * weigh, 0.5 * share * weigh))
        case "joint missed in the count":
            return base._replace(off=-line.joint_ft)
        case "joint counted twice":
            return base._replace(off=line.joint_ft)
        case "footage counter off":
            return base._replace(off=sign * draw.uniform(10.0, 50.0))
        case "gauge dead":
            return base._replace(frozen=shown)
        case "gauge zero off":
            return base._replace(const=sign * draw.uniform(2.0, 15.0) * line.error)
        case "gauge read on the wrong parts of line":
            parts = {"B": 2, "C": 4}.get(line.key, 1)
            if parts == 1:
                return base._replace(factor=draw.choice((0.5, 2.0)))
            return base._replace(factor=parts / draw.choice([n for n in (1, 2, 4) if n != parts]))
        case "water level other than recorded":
            return base._replace(level=sign * draw.uniform(10.0, 90.0))
        case "touching bottom or an obstruction":
            share = draw.uniform(0.2, 0.8)
            return base._replace(white=(-share * weigh, 0.3 * share * weigh))
        case _:
            return base._replace(slack=True)


def travel(line: Line) -> float:
    """How far the string is pulled between two readings while it is held, ft."""
    return {"steel": 0.03, "pvc": 0.25, "hose": 0.6}[line.kind]


def _part(line: Line, true: World, last: Place, draw: random.Random) -> tuple[
    tuple[float, float], ...
]:  # fmt: skip
    low = line.valves[-1]
    dry = line.level + true.level
    if len(line.valves) > 1 and line.valves[0] > last.out + 10.0 and draw.random() < 0.67:
        upper = line.valves[0]
        return ((-inf, upper),) if draw.random() < 0.5 else ((upper, low),)
    return ((last.out + draw.uniform(0.15, 0.85) * dry, low),)


def _parted(line: Line, last: Place, base: Fault, draw: random.Random) -> Fault:
    if line.hose:
        end = draw.uniform(last.out + 60.0, in_air(line) - 15.0)
    else:
        first = int(last.out / line.joint_ft) + 3
        end = line.end_of_joint(draw.randint(first, line.joints - 1))
    lower = base._replace(end=end)
    return lower._replace(columns=() if not held(line, last, Fault("")) else line.columns(end))
