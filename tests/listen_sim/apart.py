"""How far a fault stands from the next best explanation, in standard deviations.

Gauge and model together: the distance of what the fault shows from what another explanation
predicts, over the good readings and the three after it began, divided by what gauge error, unsure
weights, level, swell, sheaves and zero, and whatever that explanation leaves free, allow between
them (Mahalanobis' distance). All of it by the simulator's own statics.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import inf

import numpy as np
from numpy.typing import NDArray

from tests.listen_sim.drawing import travel
from tests.listen_sim.faults import CLEAN, Fault, Place, in_air, load_at, reading
from tests.listen_sim.pulls import AFTER, Pull
from tests.listen_sim.strings import Line, World

Array = NDArray[np.float64]


def spreads(line: Line) -> dict[str, float]:
    """Standard deviations as the book states its model's error; what is drawn lies within."""
    return {
        "weight": 0.03, "pump": 0.08, "level": 4.0, "water": 0.05 if line.hose else 0.02,
        "zero": 0.5 * line.error, "sheave": 1.0, "drag": 0.01,
    }  # fmt: skip


def distance(pull: Pull) -> tuple[float, str]:
    """(standard deviations to the nearest other explanation, its name)."""
    line, begins = pull.line, pull.begins
    assert begins is not None
    places = pull.places[: begins + AFTER]
    good, bad = places[:begins], places[begins:]
    true = _true_means(pull, good, bad)
    before = _moments(line, good, CLEAN)
    best = (inf, "")
    for other in others(line, pull, bad):
        if other.name == pull.fault.name:
            continue
        after = _moments(line, bad, other)
        if other.passes:
            free = _moments(line, bad, CLEAN)
            after = tuple(  # type: ignore[assignment]
                np.concatenate([a[: other.passes], b[other.passes :]])
                for a, b in zip(after, free, strict=True)
            )
        mean = np.concatenate([before[0], after[0]])
        slopes = np.vstack([before[1], after[1]])
        spread = slopes @ slopes.T + np.diag(np.concatenate([before[2], after[2]]))
        if other.own is not None:
            by_own = _by_own(line, bad, other)
            if other.passes:
                by_own[other.passes :] = 0.0
            own = np.concatenate([np.zeros(len(good)), by_own])
            spread += np.outer(own, own)
        miss = true - mean
        away = float(np.sqrt(max(miss @ np.linalg.solve(spread, miss), 0.0)))
        best = min(best, (away, other.name))
    return best


def _true_means(pull: Pull, good: list[Place], bad: list[Place]) -> Array:
    """What the fault shows in a world as recorded; what comes and goes as it came and went."""
    fault = pull.fault
    if fault.frozen is not None:
        fault = fault._replace(frozen=reading(pull.line, World(), good[-1], CLEAN))
    found = [reading(pull.line, World(), place, CLEAN) for place in good]
    caught = pull.caught[len(good) :]
    for place, extra in zip(bad, caught, strict=False):
        found.append(reading(pull.line, World(), place, fault._replace(white=(extra, 0.0))))
    return np.array(found)


def _moments(line: Line, places: list[Place], fault: Fault) -> tuple[Array, Array, Array]:
    """Means, slopes in standard deviations, and variances of single readings."""
    base = World()
    worlds = [
        replace(base, **{name: getattr(base, name) + sd}) for name, sd in spreads(line).items()
    ]
    means, slopes, noise = [], [], []
    for place in places:
        mean = reading(line, base, place, fault)
        means.append(mean)
        slopes.append([reading(line, moved, place, fault) - mean for moved in worlds])
        still = 0.15 * line.friction * (mean - line.zero)
        noise.append(line.error**2 + still**2 + fault.white[1] ** 2)
    return np.array(means), np.array(slopes).reshape(-1, len(worlds)), np.array(noise)


def _by_own(line: Line, places: list[Place], fault: Fault) -> Array:
    """How readings move with what the explanation leaves free, one standard deviation of it."""
    assert fault.own is not None
    name, sd = fault.own
    if name == "hole":
        assert fault.columns is not None
        top, low = fault.columns[0]
        moved = fault._replace(columns=((top + sd, low),))
    else:
        moved = fault._replace(**{name: getattr(fault, name) + sd})
    return np.array(
        [reading(line, World(), p, moved) - reading(line, World(), p, fault) for p in places]
    )


def others(line: Line, pull: Pull, bad: list[Place]) -> Iterator[Fault]:
    """Every explanation of the readings `bad`, with what it leaves free."""
    begins = pull.begins
    assert begins is not None
    first = begins == 0
    start = pull.places[begins - 1] if not first else bad[0]
    base = Fault("", start=start)
    weigh = load_at(line, World(), start, CLEAN) * line.gain
    yield CLEAN
    yield from _of_water(line, base, start)
    yield from _of_string(line, base, start)
    hung = "hung on the lip or roller"
    if pull.setting:
        yield base._replace(
            name="touching bottom or an obstruction", white=(-0.5 * weigh, 0.25 * weigh)
        )
    else:
        yield base._replace(name=hung, white=(0.3 * weigh, 0.2 * weigh))
        if first:
            yield base._replace(name="breaking out", white=(0.3 * weigh, 0.2 * weigh))
    stuck = base._replace(name="stuck or dragging")
    for passes in (0, 1, 2):
        drag = stuck._replace(const=0.25 * weigh, passes=passes)
        yield drag._replace(own=("const", 0.25 * weigh))
    pull_ft = 0.35 * weigh / (3.0 * travel(line))
    yield stuck._replace(slope=pull_ft, own=("slope", 0.5 * pull_ft))
    for passes in (0, 1, 2):
        yield base._replace(name="landed or in its hold", slack=True, passes=passes)
    if not first:
        yield base._replace(name="gauge dead", frozen=reading(line, World(), start, CLEAN))
    yield base._replace(name="gauge zero off", own=("const", 9.0 * line.error))
    for factor in (0.25, 0.5, 2.0, 4.0):
        yield base._replace(name="gauge read on the wrong parts of line", factor=factor)
    for level in (-75.0, -45.0, -20.0, 20.0, 45.0, 75.0):
        name = "water level other than recorded"
        yield base._replace(name=name, level=level, own=("level", 12.0))
    if line.hose:
        for off in (-30.0, 30.0):
            yield base._replace(name="footage counter off", off=off, own=("off", 12.0))
    else:
        yield base._replace(name="joint missed in the count", off=-line.joint_ft)
        yield base._replace(name="joint counted twice", off=line.joint_ft)


def _of_water(line: Line, base: Fault, start: Place) -> Iterator[Fault]:
    low = line.valves[-1]
    column = load_at(line, World(), start._replace(drained=False), CLEAN) - load_at(
        line, World(), start._replace(drained=True), CLEAN
    )
    if start.drained or start.setting:
        yield base._replace(name="not drained", columns=line.columns(inf))
        for minutes in (8.0, 15.0, 30.0, 60.0):
            rate = -column / minutes
            yield base._replace(name="filling slowly", rate=rate, own=("rate", 0.25 * rate))
        return
    yield base._replace(name="drained", columns=())
    for minutes in (8.0, 15.0, 30.0, 60.0):
        rate = column / minutes
        yield base._replace(name="leaking slowly", rate=rate, own=("rate", 0.25 * rate))
    part = base._replace(name="partly drained")
    if len(line.valves) > 1 and line.valves[0] > start.out:
        yield part._replace(columns=((-inf, line.valves[0]),))
        yield part._replace(columns=((line.valves[0], low),))
    for share in (0.3, 0.5, 0.7):
        hole = start.out + share * line.level
        yield part._replace(columns=((hole, low),), own=("hole", 0.1 * line.level))


def _of_string(line: Line, base: Fault, start: Place) -> Iterator[Fault]:
    air = in_air(line)
    wet = not (start.drained or start.setting)
    if wet:
        yield base._replace(name="pump lost, line still full", end=air)
    yield base._replace(name="pump lost, line drained", end=air, columns=())
    parted = base._replace(name="parted")
    if line.hose:
        for end in np.arange(start.out + 40.0, air, 20.0):
            yield parted._replace(end=float(end), columns=(), own=("end", 8.0))
        return
    for number in range(int(start.out / line.joint_ft) + 2, line.joints):
        end = line.end_of_joint(number)
        yield parted._replace(end=end, columns=line.columns(end) if wet else ())
