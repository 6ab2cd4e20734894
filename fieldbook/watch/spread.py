"""How far a string's load may lie from the one that its figures give, and the band it makes.

Nominal weights, the pump's weight, the level, the bore and the rub on the casing are all good to
so much; the gauge and the sheaves add theirs. A reading inside the band of all of them is as
expected.
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot
from typing import TYPE_CHECKING

from calc.fill import Fill
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
    from calc.gauge import Band
    from calc.units import Quantity
    from fieldbook.watch.moment import Moment
    from fieldbook.watch.readings import Instrument

SURE = 2.0
"""Standard deviations that a band takes in, beside the gauge's error: ours, no published source."""


def spread(now: Moment, level: Quantity, fill: Fill, *, raised: Quantity | None = None) -> Quantity:
    """One standard deviation of the hook load, from what the figures of the string are good to.

    Args:
        now: The moment; its string is known.
        level: Outside level.
        fill: What stands in the bore.
        raised: How far the string stands above its hang.
    """
    assert now.record.string is not None
    load, dry, deeper = (
        magnitude(now.load(at, held, raised=raised), "lbf", "hook load")
        for at, held in (
            (level, fill),
            (level, Fill.DRAINED),
            (level + quantity(LEVEL_FT, "ft"), fill),
        )
    )
    last = now.record.pieces[-1]
    pump = last.numbers.weight if last.kind == "pump" else 0.0
    water = HOSE_WATER if now.record.hose_ft else PIPE_WATER
    return quantity(
        hypot(
            LINE_WEIGHT * (dry - pump),
            PUMP_WEIGHT * pump,
            deeper - load,
            water * (load - dry),
            DRAG * load,
        ),
        "lbf",
    )


def expected_band(
    tool: Instrument, now: Moment, level: Quantity, fill: Fill, *, raised: Quantity | None = None
) -> Band:
    """The readings to expect of a string at rest, with all that its figures leave open."""
    load = now.load(level, fill, raised=raised)
    wide = spread(now, level, fill, raised=raised) * SURE
    least, most = tool.expect(load - wide), tool.expect(load + wide)
    return replace(most, low=least.low)
