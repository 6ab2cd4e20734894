"""Draws what is true of a pull, and what goes wrong in it."""

from __future__ import annotations

import random
from collections.abc import Callable
from math import inf
from typing import NamedTuple

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
    case = _Case(Fault(name, start=last), line, true, last, shown, draw, draw.choice((-1.0, 1.0)))
    return _DRAWN[name](case)


class _Case(NamedTuple):
    """What a fault is drawn from."""

    base: Fault
    line: Line
    true: World
    last: Place
    shown: float | None
    draw: random.Random
    sign: float

    @property
    def reads(self) -> float:
        """What the string shows above zero, lbf of reading."""
        return load_at(self.line, self.true, self.last, Fault("")) * self.line.gain


def _rate(case: _Case) -> float:
    full = load_at(case.line, case.true, case.last._replace(drained=False), case.base)
    drained = load_at(case.line, case.true, case.last._replace(drained=True), case.base)
    return (full - drained) / case.draw.uniform(6.0, 60.0)


def _stuck(case: _Case) -> Fault:
    if case.draw.random() < 0.5:
        return case.base._replace(const=case.draw.uniform(0.04, 0.4) * case.reads)
    slope = case.draw.uniform(0.1, 0.6) * case.reads / (3.0 * travel(case.line))
    return case.base._replace(slope=slope)


def _caught(case: _Case) -> Fault:
    share = case.draw.uniform(0.08, 0.6)
    return case.base._replace(white=(share * case.reads, 0.5 * share * case.reads))


def _touching(case: _Case) -> Fault:
    share = case.draw.uniform(0.2, 0.8)
    return case.base._replace(white=(-share * case.reads, 0.3 * share * case.reads))


def _parts(case: _Case) -> Fault:
    parts = {"B": 2, "C": 4}.get(case.line.key, 1)
    if parts == 1:
        return case.base._replace(factor=case.draw.choice((0.5, 2.0)))
    others = [other for other in (1, 2, 4) if other != parts]
    return case.base._replace(factor=parts / case.draw.choice(others))


_DRAWN: dict[str, Callable[[_Case], Fault]] = {
    "drained": lambda c: c.base._replace(columns=()),
    "partly drained": lambda c: c.base._replace(columns=_part(c.line, c.true, c.last, c.draw)),
    "leaking slowly": lambda c: c.base._replace(rate=_rate(c)),
    "filling slowly": lambda c: c.base._replace(rate=-_rate(c)),
    "not drained": lambda c: c.base._replace(columns=c.line.columns(inf)),
    "pump lost, line still full": lambda c: c.base._replace(end=in_air(c.line)),
    "pump lost, line drained": lambda c: c.base._replace(end=in_air(c.line), columns=()),
    "parted": lambda c: _parted(c.line, c.last, c.base, c.draw),
    "stuck or dragging": _stuck,
    "hung on the lip or roller": _caught,
    "breaking out": _caught,
    "joint missed in the count": lambda c: c.base._replace(off=-c.line.joint_ft),
    "joint counted twice": lambda c: c.base._replace(off=c.line.joint_ft),
    "footage counter off": lambda c: c.base._replace(off=c.sign * c.draw.uniform(10.0, 50.0)),
    "gauge dead": lambda c: c.base._replace(frozen=c.shown),
    "gauge zero off": lambda c: c.base._replace(
        const=c.sign * c.draw.uniform(2.0, 15.0) * c.line.error
    ),
    "gauge read on the wrong parts of line": _parts,
    "water level other than recorded": lambda c: c.base._replace(
        level=c.sign * c.draw.uniform(10.0, 90.0)
    ),
    "touching bottom or an obstruction": _touching,
    "landed or in its hold": lambda c: c.base._replace(slack=True),
}


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
