"""The least that hangs in the worst case, where not all of the string is known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.units import magnitude

if TYPE_CHECKING:
    from fieldbook.watch.state.position import Moment

_SQ_IN_PER_SQ_FT = 144.0


def floor_lbf(now: Moment, fill: Fill) -> float:
    """Hook load of what is known of the string, in lbf: the worst case is at least that.

    The pieces that are known hang empty, under water unless no level says how deep the well may
    be drawn down, and a full line holds its water above that level. What is not known adds to it:
    a missing pump, the cable, a hose whose weight nobody wrote. 0 where nobody can say which of
    the pieces still hang.

    Source: statics (Archimedes).

    Args:
        now: Where the string hangs.
        fill: What is in the bore.
    """
    return _material_lbf(now) + (_water_lbf(now) if fill is Fill.FULL else 0.0)


def _material_lbf(now: Moment) -> float:
    record = now.record
    known = [piece for piece in record.pieces if piece.kind != "pump"]
    whole = len(known) == len(record.stretches) and not record.unmeasured
    if not record.pieces or (_moved(now) and not whole):
        return 0.0
    load = HangingString(record.pieces).hook_load(
        level=now.top if now.deepest is not None else None,
        top=now.top,
        fill=Fill.DRAINED,
        water_weight=now.water_weight,
        out=0 if now.beyond else now.out,
    )
    return max(magnitude(load, "lbf", "hook load"), 0.0)


def _water_lbf(now: Moment) -> float:
    """The water above the deepest level, in the narrowest of the lengths that are known."""
    record, out = now.record, 0.0
    if now.beyond or (now.joints_out > 0 and len(record.bores) < len(record.stretches)):
        return 0.0
    if now.footage_out is not None:
        out = max(magnitude(now.footage_out, "ft", "hose out"), 0.0)
    elif now.joints_out > 0:
        out = sum(feet for feet, _ in record.bores[: now.joints_out])
    left = sum(feet for feet, _ in record.bores) - out
    if now.deepest is not None:
        left = min(left, magnitude(now.deepest - now.top, "ft", "level"))
    weight = magnitude(now.water_weight, "lbf/ft**3", "water")
    load = 0.0
    for feet, bore in sorted(record.bores, key=lambda length: length[1]):
        held = max(min(feet, left), 0.0)
        load += held * bore / _SQ_IN_PER_SQ_FT * weight
        left -= held
    return load


def _moved(now: Moment) -> bool:
    out = now.footage_out
    hose_out = out is not None and magnitude(out, "ft", "hose out") > 0.0
    return now.joints_out > 0 or hose_out or bool(now.beyond)
