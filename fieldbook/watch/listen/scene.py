"""What the gauge would show if an explanation were true, and how that moves with what is unsure."""

from __future__ import annotations

from math import inf
from typing import TYPE_CHECKING, NamedTuple

from calc.drop_line import free_body
from calc.hoisting.gauge import GaugePlace
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.listen.gaussian import Vector
    from fieldbook.watch.listen.sighting import Sighting
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.state.rigging import Rigging

Column = tuple[tuple[float, float], ...]
"""Where water is held above the outside level: heights above the string's lower end, ft."""

# How far life departs from the record, one standard deviation: ours, no published source.
LINE_WEIGHT = 0.03
PUMP_WEIGHT = 0.08
LEVEL_FT = 4.0
PIPE_WATER, HOSE_WATER = 0.02, 0.05
_ZERO_IN_ERRORS = 0.5
DRAG = 0.01  # of the load, pipe rubbing on casing
_LOAD_NOISE = 0.003  # of the load, that comes and goes with every reading
_LEAST_TRAVEL = 0.005  # ft, below which a height is not written
_REPEATS = 0.8  # of its error, that a gauge differs from its own last reading
_STILL_FRICTION = 0.3  # of half the band that sheave friction leaves at rest


class Situation(NamedTuple):
    """What an explanation says of string, water and gauge.

    Attributes:
        column: Water held in the bore.
        lost: Length that is gone from the lower end, ft.
        off_count: Length that hangs beyond what the count says, ft.
        level: Outside level below the recorded one, ft.
        factor: Reading over what it should be, for the parts of line.
        own: What the explanation's own unknown moves: see `Scene.shown`.
        amount: Reading that a dead gauge is stuck at, lbf; load that leaks or fills, lbf a minute.
        since: Minutes, and height raised, when it began.
    """

    column: Column = ()
    lost: float = 0.0
    off_count: float = 0.0
    level: float = 0.0
    factor: float = 1.0
    own: str = ""
    amount: float = 0.0
    since: tuple[float, float] = (0.0, 0.0)


class Shown(NamedTuple):
    """What the gauge would show.

    Attributes:
        nominal: By the recorded figures, lbf.
        slopes: How it moves with each unknown of `Scene.sds`, the explanation's own last.
        noise: Variance of one reading, lbf2.
    """

    nominal: float
    slopes: Vector
    noise: float


class Scene:
    """String, water and gauge as recorded, in plain numbers."""

    def __init__(self, now: Moment, tool: Instrument, rig: Rigging) -> None:
        """Take the figures of a job whose string, level and gauge are known."""
        record = now.record
        assert now.level is not None
        self._sums = free_body.add_up(list(reversed(record.pieces)))
        numbers = [piece.numbers for piece in reversed(record.pieces)]
        ends = self._sums.ends
        self.length = ends[-1]
        self.pump = ends[1] if record.pieces[-1].kind == "pump" else 0.0
        self.hose = record.hose_ft > 0.0
        self.valves = [
            end for end, piece in zip(ends, reversed(record.pieces), strict=False)
            if piece.holds_water
        ]  # fmt: skip
        self._floor = next((e for e, n in zip(ends, numbers, strict=False) if n.bore > 0.0), 0.0)
        self.joints = [
            (now.joint_number(number), ends[len(record.pieces) - end])
            for number, end in enumerate(record.joint_ends, 1)
        ]
        self.top = magnitude(now.top, "ft", "top")
        self.level = magnitude(now.level, "ft", "level")
        self._water = magnitude(now.water_weight, "lbf/ft**3", "water")
        self.gain = 1.0 / tool.load_per_reading
        self.zero = magnitude(tool.gauge.zero, "lbf", "zero")
        error = tool.gauge.error
        # A gauge said to be without error still shows whole pounds.
        self.error = max(magnitude(error, "lbf", "error") if error is not None else 0.0, 1.0)
        band = tool.expect(quantity(1000.0, "lbf"))
        wide = magnitude(band.high, "lbf", "band") - magnitude(band.low, "lbf", "band")
        self.friction = max(wide - 2.0 * self.error, 0.0) / 2000.0 / self.gain
        self.on_line = tool.gauge.place is not GaugePlace.HOOK and not rig.is_reel
        self.parts = tool.reeving.parts if self.on_line else 1
        lengths = [piece.numbers.length for piece in record.pieces if piece.kind == "joint"]
        self.joint_ft = sum(lengths) / len(lengths) if lengths else 0.0
        self._loads: dict[tuple[float, float, Column, float], float] = {}

    def full(self, lost: float = 0.0) -> Column:
        """The column on the lowest check valve that is left; none where the end is open."""
        if not lost:
            return ((self.valves[0] if self.valves else self._floor, inf),)
        left = [valve for valve in self.valves if valve >= lost]
        return ((left[0], inf),) if left else ()

    def sds(self, load: float) -> Vector:
        """Standard deviations of the unknowns: weights, level, constant, water, gain, own."""
        constant = (_ZERO_IN_ERRORS * self.error, DRAG * load * self.gain)
        return (
            LINE_WEIGHT,
            PUMP_WEIGHT,
            LEVEL_FT,
            (constant[0] ** 2 + constant[1] ** 2) ** 0.5,
            HOSE_WATER if self.hose else PIPE_WATER,
            self.friction,
            0.0,
        )

    def load(
        self, hanging: float, raised: float, level: float, column: Column, lost: float = 0.0
    ) -> float:
        """Hook load in lbf; what is lost from the lower end is taken off."""
        key = (hanging, raised + level, column, lost)
        known = self._loads.get(key)
        if known is None:
            known = self._load(hanging, self.level + level + raised, column, lost)
            self._loads[key] = known
        return known

    def _load(self, hanging: float, dry: float, column: Column, lost: float) -> float:
        hanging = min(max(hanging, lost), self.length)
        bottom = self.top + hanging
        outside = bottom - dry
        held = [(low, min(top, hanging)) for low, top in column if lost <= low < hanging]
        whole = free_body.State(hanging, bottom, outside, self._water, held)
        load = free_body.hook_load(self._sums, whole)
        if lost <= 0.0:
            return load
        gone = free_body.State(lost, bottom, outside, self._water, [])
        return load - free_body.hook_load(self._sums, gone)

    def column_load(self, sight: Sighting, condition: Situation) -> float:
        """What the water held above the outside level weighs, lbf."""
        hanging = sight.hanging + condition.off_count
        at = (hanging, sight.raised, condition.level)
        return self.load(*at, condition.column, condition.lost) - self.load(*at, (), condition.lost)

    def shown(self, sight: Sighting, condition: Situation) -> Shown:
        """The reading to expect under a condition.

        Its own unknown is, by `own`: "constant" lbf of reading; "travel" lbf a foot raised since
        it began; "leak" and "fill" lbf a minute since then; "level", "count", "break" and
        "height" a length in ft beside the stated one; "slack" and "dead" have none.
        """
        hanging = sight.hanging + condition.off_count
        raised, level, column, lost = (
            sight.raised,
            condition.level,
            condition.column,
            condition.lost,
        )
        gain = self.gain * condition.factor
        still = self.error**2
        if condition.own == "dead":
            return Shown(condition.amount, (0.0,) * 7, (_REPEATS * self.error) ** 2)
        if condition.own == "slack":
            return Shown(self.zero, (0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0), still)
        dry = self.load(hanging, raised, level, (), lost)
        water = self.load(hanging, raised, level, column, lost) - dry
        pump = self.load(self.pump, raised - (hanging - self.pump), level, ()) if not lost else 0.0
        by_level = (
            self.load(hanging, raised, level + 1.0, column, lost)
            - self.load(hanging, raised, level - 1.0, column, lost)
        ) / 2.0
        load = dry + water
        own, excess = self._own(sight, condition, water)
        load += excess
        noise = (
            still + (_LOAD_NOISE**2 + (_STILL_FRICTION * self.friction) ** 2) * (load * gain) ** 2
        )
        slopes = (
            gain * (dry - pump), gain * pump, gain * by_level, 1.0, gain * water, gain * load, own,
        )  # fmt: skip
        return Shown(self.zero + gain * load, slopes, noise)

    def _room(self, sight: Sighting, condition: Situation, water: float) -> float:
        """Load that the bore could still take in, lbf."""
        full = condition._replace(column=self.full(condition.lost))
        return self.column_load(sight, full) - water

    def _own(self, sight: Sighting, condition: Situation, water: float) -> tuple[float, float]:
        """Slope of the reading with the explanation's own unknown, and load that it brings."""
        gain = self.gain * condition.factor
        minutes = sight.minutes - condition.since[0]
        match condition.own:
            case "constant":
                return 1.0, 0.0
            case "travel":
                return max(sight.raised - condition.since[1], _LEAST_TRAVEL), 0.0
            case "leak" | "fill":
                room = water if condition.own == "leak" else self._room(sight, condition, water)
                sign = -1.0 if condition.own == "leak" else 1.0
                moved = condition.amount * minutes
                return (sign * gain * minutes if moved < room else 0.0), sign * min(moved, room)
            case "":
                return 0.0, 0.0
            case _:
                return gain * self._by_length(sight, condition), 0.0

    def _by_length(self, sight: Sighting, condition: Situation) -> float:
        """How the hook load moves with the length that is the explanation's own, lbf a foot."""

        def moved(feet: float) -> float:
            level, column, lost = condition.level, condition.column, condition.lost
            hanging = sight.hanging + condition.off_count
            match condition.own:
                case "level":
                    level += feet
                case "count":
                    hanging += feet
                case "break":
                    lost = max(lost + feet, 0.0)
                case "height" if column:
                    column = ((column[0][0], column[0][1] + feet), *column[1:])
            return self.load(hanging, sight.raised, level, column, lost)

        return (moved(2.0) - moved(-2.0)) / 4.0
