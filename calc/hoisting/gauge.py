"""The load gauge: what a reading says of the hook load, and which reading a load will give."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum
from math import cos, radians, sqrt
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.hoisting.hoist import PLAIN_BEARING, Motion, Reeving, line_factors, pull_ratio
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity


class GaugePlace(StrEnum):
    """Where the gauge feels the load."""

    HOOK = "hook"
    DEADLINE = "deadline"
    FAST_LINE = "fast line"
    LOAD_PIN = "load pin"
    MAST_BASE = "mast base"


@dataclass(frozen=True, slots=True)
class Gauge:
    """A load gauge as it is rigged.

    Attributes:
        place: Where it sits.
        zero: Its reading with the empty hook and block, before the string is taken up.
        capacity: The most it can show; None when not known.
        error: How far a reading may be off either way, as a force; None when not known.
        wrap: Turn of the line over the sheave whose pin is measured; needed for a load pin, which
            is taken on the first sheave past the tackle, at the crown.
    """

    place: GaugePlace
    zero: Quantity
    capacity: Quantity | None = None
    error: Quantity | None = None
    wrap: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Band:
    """A value known only between two ends.

    Attributes:
        low: The least it can be.
        high: The most it can be.
        missing: What, if known, would narrow or change the band.
        note: How the band was made.
    """

    low: Quantity
    high: Quantity
    missing: tuple[str, ...] = ()
    note: str = ""


def hook_load_from_reading(
    reading: Quantity, *, gauge: Gauge, reeving: Reeving, moving: Motion
) -> Band:
    """The hook load a reading can mean.

    With the sheave factor unknown the band runs from no friction to plain bearings, K 1.09. A
    line at rest may hold whatever friction its last motion left, so it spans both directions.

    Args:
        reading: As shown.
        gauge: Its place, zero and error.
        reeving: How the line is rove; only a gauge on the hook does without.
        moving: Which way the load travels.

    Raises:
        OutOfRange: The reading is above the gauge's capacity, or a load pin's wrap is not known.

    Source: API RP 9B sheave friction; statics for pin and mast.
    """
    shown = magnitude(reading, "lbf", "gauge reading")
    if gauge.capacity is not None:
        most = magnitude(gauge.capacity, "lbf", "capacity of the gauge", above=0.0)
        if shown > most:
            raise OutOfRange(f"the gauge reads {shown:g} lbf; it cannot show over {most:g} lbf")
    net = shown - magnitude(gauge.zero, "lbf", "zero of the gauge")
    error = _error(gauge)
    factors = _factors(gauge, reeving, moving)
    ends = [(net + off) / factor for factor in factors for off in (-error, error)]
    return _band(ends, gauge, reeving)


def reading_for_hook_load(
    load: Quantity, *, gauge: Gauge, reeving: Reeving, moving: Motion
) -> Band:
    """The readings a hook load can give, zero included; its low end is the one never to pass.

    Raises:
        OutOfRange: The load is negative, or a load pin's wrap is not known.

    Source: as `hook_load_from_reading`.
    """
    weight = magnitude(load, "lbf", "hook load", at_least=0.0)
    zero = magnitude(gauge.zero, "lbf", "zero of the gauge")
    error = _error(gauge)
    factors = _factors(gauge, reeving, moving)
    ends = [zero + weight * factor + off for factor in factors for off in (-error, error)]
    band = _band(ends, gauge, reeving)
    if gauge.capacity is None or max(ends) <= magnitude(gauge.capacity, "lbf", "capacity"):
        return band
    return replace(band, note=f"{band.note}; past what the gauge can show".removeprefix("; "))


def _error(gauge: Gauge) -> float:
    if gauge.error is None:
        return 0.0
    return magnitude(gauge.error, "lbf", "error of the gauge", at_least=0.0)


def _band(ends: list[float], gauge: Gauge, reeving: Reeving) -> Band:
    missing: list[str] = []
    note = ""
    if gauge.error is None:
        missing.append("error of the gauge")
    if reeving.sheave_factor is None and gauge.place is not GaugePlace.HOOK:
        missing.append("sheave factor")
        note = f"sheave friction from none to plain bearings, K {PLAIN_BEARING:g}"
    low, high = quantity(min(ends), "lbf"), quantity(max(ends), "lbf")
    return Band(low, high, tuple(missing), note)


def _factors(gauge: Gauge, reeving: Reeving, moving: Motion) -> list[float]:
    """Reading over hook load at both ends of what friction can do."""
    known = reeving.sheave_factor
    friction = [1.0, PLAIN_BEARING] if known is None else [known]
    motions = [Motion.HOISTING, Motion.LOWERING] if moving is Motion.STATIC else [moving]
    return [
        _reading_per_load(gauge, reeving, pull_ratio(factor, motion))
        for factor in friction
        for motion in motions
    ]


def _reading_per_load(gauge: Gauge, reeving: Reeving, ratio: float) -> float:
    dead, fast = line_factors(reeving, ratio)
    match gauge.place:
        case GaugePlace.HOOK:
            return 1.0
        case GaugePlace.DEADLINE:
            return dead
        case GaugePlace.FAST_LINE:
            return fast
        case GaugePlace.MAST_BASE:
            return 1.0 + fast + (dead if reeving.dead_end_at_ground else 0.0)
        case GaugePlace.LOAD_PIN:
            return dead * ratio ** (reeving.parts - 1) * _pin(gauge, ratio)


def _pin(gauge: Gauge, ratio: float) -> float:
    """Load on the pin over the pull on the load's side, the other side pulling `ratio` of it."""
    if gauge.wrap is None:
        raise OutOfRange("the turn of the line over the load pin is not known")
    wrap = magnitude(gauge.wrap, "degree", "turn over the load pin", above=0.0, at_most=180.0)
    return sqrt(1.0 + ratio**2 - 2.0 * ratio * cos(radians(wrap)))
