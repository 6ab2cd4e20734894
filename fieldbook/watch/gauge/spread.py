"""How far a string's load may lie from the one that its figures give, and the band it makes.

Nominal weights, the pump's weight, the level, the bore and the rub on the casing are all good to
so much; the gauge and the sheaves add theirs. A reading inside the band of all of them is as
expected.
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.units import magnitude, quantity
from fieldbook.watch.listen.scene import (
    DRAG,
    HOSE_WATER,
    LEVEL_FT,
    LINE_WEIGHT,
    PIPE_WATER,
    PUMP_WEIGHT,
)

if TYPE_CHECKING:
    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.state.position import Moment

ESTIMATE, ESTIMATED_LEVEL_FT = 0.2, 20.0
"""One standard deviation of what was estimated: share of a weight, feet of a level: ours, no
published source."""

SURE = 2.0
"""Standard deviations that a band takes in, beside the gauge's error: ours, no published source."""


def _load_and_spread(
    now: Moment, level: Quantity, fill: Fill, raised: Quantity | None
) -> tuple[float, float]:
    """The hook load, and one standard deviation of it from what its figures are good to, in lbf."""

    def load_at(water: Quantity, held: Fill) -> float:
        return magnitude(now.load(water, held, raised=raised), "lbf", "hook load")

    load = load_at(level, fill)
    dry = load if fill is Fill.DRAINED else load_at(level, Fill.DRAINED)
    off_ft = ESTIMATED_LEVEL_FT if "level" in now.estimated else LEVEL_FT
    deeper = load_at(level + quantity(off_ft, "ft"), fill)
    last = now.record.pieces[-1]
    pump = last.numbers.weight if last.kind == "pump" else 0.0
    water = HOSE_WATER if now.record.hose_ft else PIPE_WATER
    guessed = now.estimated
    return load, hypot(
        (ESTIMATE if guessed & {"piece", "cable"} else LINE_WEIGHT) * (dry - pump),
        (ESTIMATE if "pump" in guessed else PUMP_WEIGHT) * pump,
        deeper - load,
        water * (load - dry),
        DRAG * load,
    )


def _guessed_couplings(now: Moment) -> float:
    """Weight of the couplings that nobody typed, lbf: counted at their heaviest, they may be less.

    More than is there widens the band, where a run is weighed whole.
    """
    off = now.joints_out
    names = (f"joint {number}" for number in range(off + 1, len(now.record.joint_ends) + 1))
    return sum(now.record.lines[name].coupling for name in names if name in now.record.lines)


def expected_band(
    tool: Instrument, now: Moment, level: Quantity, fill: Fill, *, raised: Quantity | None = None
) -> Band:
    """The readings to expect of a string at rest, with all that its figures leave open."""
    load, sd = _load_and_spread(now, level, fill, raised)
    under = SURE * sd + _guessed_couplings(now)
    least, most = (tool.expect(quantity(load + off, "lbf")) for off in (-under, SURE * sd))
    return replace(most, low=least.low)
