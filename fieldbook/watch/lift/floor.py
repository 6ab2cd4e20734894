"""The least that certainly hangs, where not all of the string is known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.units import magnitude

if TYPE_CHECKING:
    from fieldbook.watch.state.position import Moment


def floor_lbf(now: Moment) -> float:
    """Hook load of the pieces that are known, empty and wholly under water, in lbf.

    What is not known adds to it: a missing pump, the cable, the water in the line, the length above
    the water. 0 where nobody can say which of the pieces still hang.

    Source: statics (Archimedes).
    """
    record = now.record
    known = [piece for piece in record.pieces if piece.kind != "pump"]
    moved = now.joints_out > 0 or now.footage_out is not None or bool(now.beyond)
    if not record.pieces or (moved and (record.unmeasured or len(known) < len(record.stretches))):
        return 0.0
    load = HangingString(record.pieces).hook_load(
        level=now.top,
        top=now.top,
        fill=Fill.DRAINED,
        water_weight=now.water_weight,
        out=0 if now.beyond else now.out,
    )
    return max(magnitude(load, "lbf", "hook load"), 0.0)
