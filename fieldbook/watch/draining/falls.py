"""What lets the hook load fall: draining, a lost pump or a parted line, each by how much."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.units import magnitude, quantity
from fieldbook.watch.gauge.spread import expected_band
from fieldbook.watch.state.position import Moment, pieces_off

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.hoisting.gauge import Band
    from calc.units import Quantity
    from fieldbook.watch.gauge.instrument import Instrument


@dataclass(frozen=True, slots=True)
class Falls:
    """What may lower the reading at one moment, the line being full before it.

    Attributes:
        column: Hook load of the water above the outside level: what draining takes off.
        pump: Hook load of the pump and motor: what losing them takes off.
        parted: (least, most) hook load that a line parted below an upper check valve takes off
            while the water above that valve stays; one pair for each such valve.
        full: The readings of a full line.
        drained: The readings of a drained line.
    """

    column: Quantity
    pump: Quantity
    parted: tuple[tuple[Quantity, Quantity], ...]
    full: Band
    drained: Band


def falls(now: Moment, level: Quantity, tool: Instrument) -> Falls:
    """What may lower the reading at a moment.

    Args:
        now: The moment; its string is known.
        level: Outside level.
        tool: The gauge as rigged.

    Source: statics, as `HangingString.hook_load`.
    """
    return Falls(
        column=now.column_load(level),
        pump=_pump(now, level),
        parted=tuple(_parted(now, level)),
        full=expected_band(tool, now, level, Fill.FULL),
        drained=expected_band(tool, now, level, Fill.DRAINED),
    )


def _pump(now: Moment, level: Quantity) -> Quantity:
    pieces = now.record.pieces
    last = len(pieces) - 1
    if pieces[last].kind != "pump" or _off(now) >= last:
        return quantity(0.0, "lbf")
    return _less(now, level, last)


def _parted(now: Moment, level: Quantity) -> Iterator[tuple[Quantity, Quantity]]:
    """For each check valve but the lowest: broken just above the next one, or just below it."""
    pieces, off = now.record.pieces, _off(now)
    valves = [at for at, piece in enumerate(pieces) if piece.holds_water and at >= off]
    for upper, lower in pairwise(valves):
        yield _less(now, level, lower), _less(now, level, upper + 1)


def _less(now: Moment, level: Quantity, kept: int) -> Quantity:
    """What the hook loses when only the uppermost `kept` pieces are left, full on their valve."""
    whole = magnitude(now.load(level, Fill.FULL), "lbf", "hook load")
    left = replace(now.record, string=HangingString(now.record.pieces[:kept]))
    still = replace(now, record=left).load(level, Fill.FULL)
    return quantity(whole - magnitude(still, "lbf", "hook load"), "lbf")


def _off(now: Moment) -> int:
    """Pieces off the top, of a hose those that are out whole."""
    if isinstance(now.out, int):
        return now.out
    return pieces_off(now.record, now.joints_out)
