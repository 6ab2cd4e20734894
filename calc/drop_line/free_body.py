"""The sums behind a hanging string, in plain floats: ft, lbf and powers of them.

Heights are measured upward from the string's lower end, so nothing moves when pieces come off the
top. The free body is everything below a cut, its bore water included.
"""

from __future__ import annotations

from bisect import bisect_right
from itertools import accumulate
from math import ceil, inf
from typing import TYPE_CHECKING, NamedTuple

from calc.units import quantity

if TYPE_CHECKING:
    from calc.drop_line.piece import Piece
    from calc.units import Quantity


class Cut(NamedTuple):
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
        """Tension over the piece's allowable, or None when no rating is known.

        Any pull is endlessly more than a piece without metal may carry.
        """
        rated = self.piece.allowable_lbf
        if not rated:
            return None if rated is None else inf if self.tension_lbf > 0.0 else 0.0
        return self.tension_lbf / rated


class State(NamedTuple):
    """One moment: how much hangs, and where water is, as heights above the lower end.

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
    """Running totals of `pieces`, listed from the bottom up.

    Source: statics of the free body below.
    """
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


def columns(sums: Sums, chambers: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The chambers by how much bore lies below their closure and below their water's top, in ft3.

    Bore volume never falls with height, so it tells which of two points is higher as well as the
    height does, and needs no search.

    Source: hydrostatics.
    """
    return [
        (_below(sums.bore, sums.ends, low), _below(sums.bore, sums.ends, top))
        for low, top in chambers
    ]


def _raised(columns: list[tuple[float, float]], hanging: float, outside: float) -> float:
    """Bore water above the outside level, all in ft3 of bore from the lower end."""
    raised = 0.0
    for closed, top in columns:
        held = min(top, hanging) - max(closed, outside)
        if held > 0.0:
            raised += held
    return raised


def hook_load(sums: Sums, state: State) -> float:
    """Material, less the water it displaces, plus bore water above the outside level, in lbf.

    Source: statics; Archimedes.
    """
    ends, level = sums.ends, min(state.outside, state.hanging)
    raised = 0.0
    if state.chambers:
        raised = _raised(
            columns(sums, state.chambers),
            _below(sums.bore, ends, state.hanging),
            _below(sums.bore, ends, level),
        )
    displaced = _below(sums.displaced, ends, level)
    return _below(sums.weight, ends, state.hanging) + state.water * (raised - displaced)


class Left(NamedTuple):
    """What hangs at each step out of the well: length, weight in air and bore, falling."""

    length: list[float]
    weight: list[float]
    bore: list[float]


def pieces_left(sums: Sums) -> Left:
    """The steps of taking off one piece at a time, until one hangs.

    Source: statics of the free body below.
    """
    return Left(sums.ends[:0:-1], sums.weight[:0:-1], sums.bore[:0:-1])


def footage_left(sums: Sums, step: float) -> Left:
    """The steps of taking off `step` ft at a time, while anything hangs.

    Source: statics of the free body below.
    """
    whole = sums.ends[-1]
    lengths = [whole - count * step for count in range(ceil(whole / step))]
    return Left(
        lengths,
        [_below(sums.weight, sums.ends, length) for length in lengths],
        [_below(sums.bore, sums.ends, length) for length in lengths],
    )


def load_curve(
    sums: Sums, left: Left, *, dry: float, water: float, columns: list[tuple[float, float]]
) -> list[float]:
    """The hook load at each step, in one pass down the string.

    Source: statics; Archimedes.

    Args:
        sums: The string.
        left: The steps.
        dry: Depth of the outside level below the string's top, in ft, the same at every step.
        water: Weight of water, lbf/ft3.
        columns: The chambers of the whole string, as `columns` gives them.
    """
    ends, displaced, bore = sums.ends, sums.displaced, sums.bore
    at = len(ends) - 2
    loads: list[float] = []
    for length, weight, hanging in zip(*left, strict=True):
        level = min(length - dry, length)
        sunk = outside = 0.0
        if level > 0.0:
            while ends[at] >= level:
                at -= 1
            part = (level - ends[at]) / (ends[at + 1] - ends[at])
            sunk = displaced[at] + part * (displaced[at + 1] - displaced[at])
            outside = bore[at] + part * (bore[at + 1] - bore[at])
        loads.append(weight + water * (_raised(columns, hanging, outside) - sunk))
    return loads


def wall_tensions(sums: Sums, state: State, surface_pressure: float) -> list[Cut]:
    """Wall tension at both ends of every piece, from the top down.

    Source: statics of the free body below; nothing published.

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
        inside_low, inside_high = max(column - low, 0.0), max(column - high, 0.0)
        outside_low, outside_high = max(outside - low, 0.0), max(outside - high, 0.0)
        under = outside_low - outside_high
        raised = inside_low - inside_high - under
        above = (
            carried
            + weight * (high - low) / length
            + water * (bore * raised - displaced / length * under)
        )
        if bore > 0.0:
            upper = above + (water * inside_high + held) * bore - water * outside_high * section
            lower = carried + (water * inside_low + held) * bore - water * outside_low * section
            tensions.append([lower, upper])
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
