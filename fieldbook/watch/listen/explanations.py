"""Every explanation that may begin at a reading, from what was believed before it."""

from __future__ import annotations

from dataclasses import dataclass
from math import log
from typing import TYPE_CHECKING, NamedTuple

from fieldbook.watch.listen.families import EXPECTED, FAMILIES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.watch.listen.gaussian import Belief
    from fieldbook.watch.listen.scene import Scene, Situation
    from fieldbook.watch.listen.sighting import Sighting

_WRONG_PARTS = (1, 2, 3, 4, 6)
_LEVELS_OFF = (-90.0, -60.0, -35.0, -15.0, 15.0, 35.0, 60.0, 90.0)
_LEAK_MINUTES = (8.0, 25.0, 80.0, 240.0)
_STUCK_TRAVEL = (0.06, 0.6)  # ft over which a stiff and a soft string load up
_SMALL, _LARGE = 0.06, 0.35
"""Shares of the load that a drag or a catch adds: most lie about one or the other."""


class Burst(NamedTuple):
    """What comes and goes with every reading while something catches, of reading, lbf."""

    mean: float = 0.0
    sd: float = 0.0


@dataclass(slots=True)
class Explanation:
    """One explanation as it is after the readings so far.

    Attributes:
        family: Its name in `FAMILIES`.
        detail: What it says beyond that, as "at joint 7".
        condition: What it says of string, water and gauge.
        burst: What it adds at each reading.
        belief: What the readings say of the unknowns if it holds.
        weight: Natural log of how likely it is, up to a constant common to all.
        parent: What held before it began; what it falls back to when it passes.
        began: Number of the reading at which it began.
        misses: Squared misses over their variances, since it began.
        hanging: Length by the count when it began, ft.
        caught: Readings at which it held, of those since it began.
        quiet: Readings since it let go; 0 while it holds.
    """

    family: str
    detail: str
    condition: Situation
    burst: Burst
    belief: Belief
    weight: float
    parent: Explanation | None
    began: int
    misses: tuple[float, ...] = ()
    hanging: float = 0.0
    quiet: int = 0
    caught: int = 1


class Turn(NamedTuple):
    """A change that an explanation brings at one reading.

    Attributes:
        family: Its name.
        detail: More words.
        condition: The condition from now on.
        share: Its share of the family's odds.
        own: Mean and standard deviation of its own unknown.
        burst: What it adds at each reading.
    """

    family: str
    detail: str
    condition: Situation
    share: float = 1.0
    own: tuple[float, float] | None = None
    burst: Burst = Burst()


def odds(turn: Turn, *, first: bool) -> float:
    """Natural log of the odds that the change comes at this reading; minus infinity for never."""
    family = FAMILIES[turn.family]
    share = (family.first if first else family.later) * turn.share
    return log(share) if share > 0.0 else float("-inf")


def turns(
    scene: Scene, sight: Sighting, before: Explanation, last: Sighting | None, load: float
) -> Iterator[Turn]:
    """What may happen between the last reading and this one.

    Args:
        scene: The string and its gauge.
        sight: This reading.
        before: What held until then.
        last: The reading before, if any.
        load: Hook load to expect, lbf, for the scale of what may come on top.
    """
    if before.condition.own in ("dead", "slack") or before.burst.sd:
        return
    yield from _water(scene, sight, before.condition, last)
    yield from _lost(scene, sight, before.condition)
    yield from _held(scene, sight, before.condition, last, load)
    yield from _count(scene, before.condition)
    yield from _gauge(scene, before.condition, last, load)


def _water(scene: Scene, sight: Sighting, base: Situation, last: Sighting | None) -> Iterator[Turn]:
    since = ((last or sight).minutes, (last or sight).raised)
    water = scene.column_load(sight, base)
    if water <= 0.0:
        full = scene.full(base.lost)
        room = scene.column_load(sight, base._replace(column=full))
        if not base.own and room > 0.0 and last is not None and not sight.setting:
            for minutes in _LEAK_MINUTES:
                rate = room / minutes
                filling = base._replace(own="fill", amount=rate, since=since)
                yield Turn("filling slowly", "", filling, 0.25, (0.0, 0.4 * rate))
        return
    yield Turn("drained", "", base._replace(column=()))
    yield from partly(scene, sight, base)
    if not base.own and last is not None:
        for minutes in _LEAK_MINUTES:
            rate = water / minutes
            leaking = base._replace(own="leak", amount=rate, since=since)
            yield Turn("leaking slowly", "", leaking, 0.25, (0.0, 0.4 * rate))


def partly(scene: Scene, sight: Sighting, base: Situation) -> Iterator[Turn]:
    """Drained down to a check valve, or to a hole."""
    low, top = base.column[0]
    hanging = sight.hanging + base.off_count
    wet = max(low, hanging - scene.level - base.level + scene.top - sight.raised)
    for valve in scene.valves:
        if wet < valve < hanging:
            above = f"the water above the check valve at {hanging - valve:z,.0f} ft is held"
            yield Turn("partly drained", above, base._replace(column=((valve, top),)), 0.3)
            below = f"down to the check valve at {hanging - valve:z,.0f} ft"
            yield Turn("partly drained", below, base._replace(column=((low, valve),)), 0.3)
    if base.own or top <= hanging:
        return
    span = hanging - wet
    for part in (0.2, 0.4, 0.6, 0.8):
        hole = base._replace(column=((low, wet + part * span),), own="height")
        words = f"down to a hole at about {(1.0 - part) * span:z,.0f} ft"
        yield Turn("partly drained", words, hole, 0.1, (0.0, 0.1 * span))


def _lost(scene: Scene, sight: Sighting, base: Situation) -> Iterator[Turn]:
    if base.lost:
        return
    hanging = sight.hanging + base.off_count
    if 0.0 < scene.pump < hanging:
        gone = base._replace(lost=scene.pump)
        if scene.column_load(sight, base) > 0.0:
            held = scene.full(scene.pump) or base.column
            yield Turn("pump lost, line still full", "", gone._replace(column=held))
        yield Turn("pump lost, line drained", "", gone._replace(column=()))
    if scene.hose and not base.own:
        step = max((hanging - scene.pump) / 12.0, 5.0)
        length = hanging - scene.pump - step
        pieces = max(int(length / step), 1)
        for at in range(pieces):
            gone_ft = scene.pump + step * (at + 1)
            torn = base._replace(lost=gone_ft, column=(), own="break")
            words = f"about {hanging - gone_ft:z,.0f} ft down the hose"
            yield Turn("parted", words, torn, 1.0 / pieces, (0.0, 0.35 * step))
    left = [(number, low) for number, low in scene.joints if scene.pump < low < hanging]
    for number, low in left:
        column = scene.full(low) if base.column else ()
        parted = base._replace(lost=low, column=column)
        yield Turn("parted", f"below joint {number}", parted, 1.0 / len(left))


def _held(
    scene: Scene, sight: Sighting, base: Situation, last: Sighting | None, load: float
) -> Iterator[Turn]:
    shown = max(load * scene.gain, 4.0 * scene.error)
    noise = 2.0 * scene.error
    # Before anything came out, what holds the string is the head: that is breaking out.
    at_head = last is None and sight.hanging >= scene.length
    less = 0.1 if at_head else 1.0
    if sight.setting:
        for share in (0.3, 0.8):
            burst = Burst(-share * shown, 0.25 * shown)
            yield Turn("touching bottom or an obstruction", "", base, 0.5, None, burst)
    else:
        for share in (_SMALL, _LARGE):
            burst = Burst(share * shown, 0.6 * share * shown + noise)
            yield Turn("hung on the lip or roller", "", base, 0.5 * less, None, burst)
            if at_head:
                yield Turn("breaking out", "", base, 0.5, None, burst)
    if not base.own:
        rest = last is not None and last.hanging == sight.hanging
        since = (sight.minutes, last.raised if last is not None and rest else 0.0)
        for share in (_SMALL, _LARGE):
            drag = (share * shown, 0.6 * share * shown)
            dragging = base._replace(own="constant")
            yield Turn("stuck or dragging", "dragging evenly", dragging, 0.25 * less, drag)
            for feet in _STUCK_TRAVEL:
                pull = (share * shown / feet, 0.8 * share * shown / feet)
                stuck = base._replace(own="travel", since=since)
                words = "held: load follows the travel"
                yield Turn("stuck or dragging", words, stuck, 0.125 * less, pull)
    yield Turn("landed or in its hold", "", base._replace(own="slack"))
    yield Turn("none of these", "", base, 1.0, None, Burst(0.0, 0.7 * shown + 5.0 * scene.error))


def _count(scene: Scene, base: Situation) -> Iterator[Turn]:
    if base.off_count or (not scene.hose and not scene.joint_ft):
        return
    if scene.hose:
        if not base.own:
            for off in (-40.0, -20.0, 20.0, 40.0):
                words = f"about {abs(off):.0f} ft {'less' if off > 0 else 'more'} is out"
                moved = base._replace(off_count=off, own="count")
                yield Turn("footage counter off", words, moved, 0.25, (0.0, 8.0))
        return
    joint = scene.joint_ft
    missed, twice = base._replace(off_count=-joint), base._replace(off_count=joint)
    yield Turn("joint missed in the count", "one more is out than counted", missed)
    yield Turn("joint counted twice", "one fewer is out than counted", twice)


def _gauge(scene: Scene, base: Situation, last: Sighting | None, load: float) -> Iterator[Turn]:
    if last is not None and last.reading is not None:
        held = base._replace(own="dead", amount=last.reading)
        yield Turn("gauge dead", f"stands at {last.reading:,.0f} lbf", held)
    if not base.own:
        off = max(8.0 * scene.error, 0.03 * load * scene.gain)
        yield Turn("gauge zero off", "", base._replace(own="constant"), 1.0, (0.0, off))
        if not base.level:
            for level in _LEVELS_OFF:
                words = f"about {abs(level):.0f} ft {'deeper' if level > 0 else 'higher'}"
                other = base._replace(level=level, own="level")
                sd = 12.0 if abs(level) > 20.0 else 6.0
                yield Turn("water level other than recorded", words, other, 0.125, (0.0, sd))
    if base.factor == 1.0:
        # One part is a record like any other: four may be rove where one was written.
        rove = _WRONG_PARTS if scene.on_line else ()
        factors = {scene.parts / parts for parts in rove} | {0.5, 2.0}
        others = sorted(factors - {1.0})
        for factor in others:
            words = f"shows {factor:.2g} times what it should"
            wrong = base._replace(factor=factor)
            yield Turn("gauge read on the wrong parts of line", words, wrong, 1.0 / len(others))


def is_steady(explanation: Explanation) -> bool:
    """Whether a further change may come on top: nothing catches, nothing is still moving."""
    return explanation.family == EXPECTED or not FAMILIES[explanation.family].passing
