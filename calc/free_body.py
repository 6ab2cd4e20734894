"""The sums behind a hanging string, in plain floats: ft, lbf and powers of them.

Heights are measured upward from the string's lower end, so nothing moves when pieces come off the
top. The free body is everything below a cut, its bore water included.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from itertools import accumulate
from typing import TYPE_CHECKING, NamedTuple

from calc.units import quantity

if TYPE_CHECKING:
    from calc.piece import Piece
    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Cut:
    """The wall tension at one end of one piece.

    Attributes:
        piece: The piece that is cut.
        end: "upper" or "lower" end of it.
        depth_ft: Depth of the cut below the datum.
        tension_lbf: What the wall carries there; negative is compression.
    """

    piece: Piece
    end: str
    depth_ft: float
    tension_lbf: float

    @property
    def name(self) -> str:
        """Name of the piece that is cut."""
        return self.piece.name

    @property
    def depth(self) -> Quantity:
        """Depth of the cut below the datum."""
        return quantity(self.depth_ft, "ft")

    @property
    def tension(self) -> Quantity:
        """What the wall carries; negative is compression."""
        return quantity(self.tension_lbf, "lbf")

    @property
    def allowable(self) -> Quantity | None:
        """What the piece may carry, or None when no rating is known."""
        return self.piece.allowable

    @property
    def share(self) -> float | None:
        """Tension over the piece's allowable, or None when no rating is known."""
        rated = self.piece.allowable_lbf
        return None if rated is None else self.tension_lbf / rated


class State(NamedTuple):
    """One moment: how much hangs, and where water stands, as heights above the lower end.

    Attributes:
        hanging: Length that hangs.
        bottom: Depth of the lower end below the datum.
        outside: Height of the outside water; minus infinity in a dry well.
        water: Weight of water, lbf/ft3.
        chambers: (closure below, top of the water) of each column in the bore, from the bottom.
    """

    hanging: float
    bottom: float
    outside: float
    water: float
    chambers: list[tuple[float, float]]


class Sums(NamedTuple):
    """Running totals from the lower end up, one more than there are pieces."""

    pieces: list[Piece]
    ends: list[float]
    weight: list[float]
    displaced: list[float]
    bore: list[float]


def add_up(pieces: list[Piece]) -> Sums:
    """Running totals of `pieces`, listed from the bottom up."""
    numbers = [piece.numbers for piece in pieces]
    return Sums(
        pieces,
        list(accumulate((n.length for n in numbers), initial=0.0)),
        list(accumulate((n.weight for n in numbers), initial=0.0)),
        list(accumulate((n.displaced for n in numbers), initial=0.0)),
        list(accumulate((n.bore * n.length for n in numbers), initial=0.0)),
    )


def _below(totals: list[float], ends: list[float], height: float) -> float:
    """The running total at a height, a piece that is crossed counting part-way."""
    if height <= 0.0:
        return 0.0
    if height >= ends[-1]:
        return totals[-1]
    at = bisect_right(ends, height) - 1
    part = (height - ends[at]) / (ends[at + 1] - ends[at])
    return totals[at] + part * (totals[at + 1] - totals[at])


def hook_load(sums: Sums, state: State) -> float:
    """Material, less the water it displaces, plus bore water above the outside level, in lbf."""
    ends, bore, outside = sums.ends, sums.bore, state.outside
    raised_water = sum(
        _below(bore, ends, top) - _below(bore, ends, max(low, outside))
        for low, top in state.chambers
        if top > outside
    )
    displaced = _below(sums.displaced, ends, min(outside, state.hanging))
    return (
        _below(sums.weight, ends, state.hanging) - state.water * displaced
    ) + state.water * raised_water


def wall_tensions(sums: Sums, state: State, surface_pressure: float) -> list[Cut]:
    """Wall tension at both ends of every piece, from the top down.

    Args:
        sums: The string.
        state: The moment.
        surface_pressure: Pressure on top of the columns, lbf/ft2.
    """
    ends = _end_tensions(sums, state, surface_pressure)
    _share_threads(sums, ends)
    cuts: list[Cut] = []
    lowest = state.bottom
    for at in range(len(ends) - 1, -1, -1):
        lower, upper = ends[at]
        piece = sums.pieces[at]
        upper_depth = lowest - min(sums.ends[at + 1], state.hanging)
        cuts.append(Cut(piece, "upper", upper_depth, upper))
        cuts.append(Cut(piece, "lower", lowest - sums.ends[at], lower))
    return cuts


def _end_tensions(sums: Sums, state: State, surface_pressure: float) -> list[list[float]]:
    """[lower, upper] tension of each hanging piece, from the bottom up."""
    hanging, _, outside, water, chambers = state
    tensions: list[list[float]] = []
    carried = 0.0
    column, held = outside, 0.0
    waiting = list(reversed(chambers))
    for at, piece in enumerate(sums.pieces):
        low = sums.ends[at]
        if low >= hanging:
            break
        while waiting and waiting[-1][0] <= low:
            column, held = max(outside, waiting.pop()[1]), surface_pressure
        high = min(sums.ends[at + 1], hanging)
        length, weight, displaced, bore, section = piece.numbers
        wet = min(max(column, low), high) - low
        under = min(max(outside, low), high) - low
        above = (
            carried
            + weight * (high - low) / length
            + water * (bore * (wet - under) - displaced / length * under)
        )
        if bore > 0.0:
            tensions.append(
                [
                    load
                    + (water * max(column - height, 0.0) + held) * bore
                    - water * max(outside - height, 0.0) * section
                    for load, height in ((carried, low), (above, high))
                ]
            )
        else:
            tensions.append([carried, above])
        carried = above
    return tensions


def _share_threads(sums: Sums, tensions: list[list[float]]) -> None:
    """Give a piece without a bore what the hollow piece it screws to carries at their thread."""
    for at in range(len(tensions) - 1):
        below_is_hollow = sums.pieces[at].numbers.bore > 0.0
        above_is_hollow = sums.pieces[at + 1].numbers.bore > 0.0
        if above_is_hollow and not below_is_hollow:
            tensions[at][1] = tensions[at + 1][0]
        elif below_is_hollow and not above_is_hollow:
            tensions[at + 1][0] = tensions[at][1]
