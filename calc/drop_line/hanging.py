"""The hanging string: what the hook carries, and what every wall carries, at any moment of a lift.

Nothing is published for a pump string; the formulas are statics, and their checks hand
calculations.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.drop_line import free_body
from calc.drop_line.fill import Fill
from calc.drop_line.series import Series
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.drop_line.free_body import Cut
    from calc.drop_line.piece import Piece
    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Lift:
    """The hook load before and after the string is raised by one length."""

    start: Quantity
    end: Quantity

    @property
    def gain(self) -> Quantity:
        """How much the load has grown."""
        start = magnitude(self.start, "lbf", "load before")
        return quantity(magnitude(self.end, "lbf", "load after") - start, "lbf")


class HangingString:
    """Pieces from the top down, added up once so that any load is a look-up."""

    __slots__ = ("_floor", "_sums", "_valves", "pieces")

    def __init__(self, pieces: Sequence[Piece]) -> None:
        """Add up `pieces`, listed from the top of the string to its bottom.

        Raises:
            OutOfRange: There is no piece.
        """
        if not pieces:
            raise OutOfRange("a string needs at least one piece")
        self.pieces: tuple[Piece, ...] = tuple(pieces)
        rising = list(reversed(self.pieces))
        self._sums = free_body.add_up(rising)
        lower_ends = list(zip(self._sums.ends, rising, strict=False))
        self._valves = [end for end, piece in lower_ends if piece.holds_water]
        self._floor = next((end for end, piece in lower_ends if piece.numbers.bore > 0.0), 0.0)

    @property
    def length(self) -> Quantity:
        """Length of the whole string."""
        return quantity(self._sums.ends[-1], "ft")

    @property
    def weight(self) -> Quantity:
        """Weight of the whole string in air, empty."""
        return quantity(self._sums.weight[-1], "lbf")

    @property
    def bore_volume(self) -> Quantity:
        """Water the whole bore holds."""
        return quantity(self._sums.bore[-1], "ft**3")

    @property
    def displaced(self) -> Quantity:
        """Volume of all solid material."""
        return quantity(self._sums.displaced[-1], "ft**3")

    def remaining(self, *, out: int | Quantity) -> Quantity:
        """Length that still hangs after `out` pieces, or that footage, came off the top.

        Raises:
            OutOfRange: More is out than there is, or `out` is negative.
        """
        return quantity(self._hanging(out), "ft")

    def hook_load(
        self,
        *,
        level: Quantity | None,
        top: Quantity,
        fill: Fill,
        water_weight: Quantity,
        out: int | Quantity = 0,
    ) -> Quantity:
        """What the hook carries: material, less the water it displaces, plus bore water above it.

        Below the outside level the water inside and outside balance.

        Args:
            level: Depth of the outside water below the datum; negative for a flowing well; None
                when there is no water in the well.
            top: Depth of the string's top below the datum; negative when raised above it.
            fill: What is in the bore.
            water_weight: Weight of water per volume.
            out: Pieces, or footage, taken off the top. A footage cuts a piece.

        Raises:
            WrongDimension: A value is not the kind of quantity named.
            OutOfRange: `out` is more than the string, or `fill` does not fit its check valves.

        Source: statics (Archimedes), by hand calculation; nothing is published for pump strings.
        """
        state = self._state(level, top, fill, water_weight, self._hanging(out))
        return quantity(free_body.hook_load(self._sums, state), "lbf")

    def rise_within_lift(
        self,
        *,
        level: Quantity | None,
        top: Quantity,
        fill: Fill,
        water_weight: Quantity,
        rise: Quantity,
        out: int | Quantity = 0,
    ) -> Lift:
        """The hook load at `top` and after raising the string by `rise` with nothing taken off.

        Raises:
            As `hook_load`.
        """
        raised = quantity(magnitude(top, "ft", "top") - magnitude(rise, "ft", "rise"), "ft")
        hanging = self._hanging(out)
        start, end = (
            free_body.hook_load(self._sums, self._state(level, at, fill, water_weight, hanging))
            for at in (top, raised)
        )
        return Lift(quantity(start, "lbf"), quantity(end, "lbf"))

    def load_curve(
        self,
        *,
        level: Quantity | None,
        top: Quantity,
        fill: Fill,
        water_weight: Quantity,
        every: Quantity | None = None,
    ) -> Series:
        """The hook load for 0, 1, 2 ... pieces out, the last entry with only one left.

        The string's top is at `top` each time, as when each lift starts from the same height.

        Args:
            level: As in `hook_load`.
            top: As in `hook_load`.
            fill: As in `hook_load`.
            water_weight: As in `hook_load`.
            every: Step by this footage instead of by piece, as for a hose; something still hangs
                at the last entry.

        Raises:
            OutOfRange: As `hook_load`; or a step that is not more than zero.
        """
        sums = self._sums
        whole = self._state(level, top, fill, water_weight, sums.ends[-1])
        if every is None:
            left = free_body.pieces_left(sums)
        else:
            left = free_body.footage_left(
                sums, magnitude(every, "ft", "step of footage", above=0.0)
            )
        loads = free_body.load_curve(
            sums,
            left,
            dry=whole.hanging - whole.outside,
            water=whole.water,
            columns=free_body.columns(sums, whole.chambers),
        )
        return Series(tuple(loads), "lbf")

    def wall_tensions(
        self,
        *,
        level: Quantity | None,
        top: Quantity,
        fill: Fill,
        water_weight: Quantity,
        out: int | Quantity = 0,
        surface_pressure: Quantity | None = None,
    ) -> list[Cut]:
        """The wall tension at both ends of every piece, from the top down.

        T = material below + bore water below + bore pressure x bore - buoyancy of all below, the
        bore included - outside pressure x outer section. A piece without a bore (a pump) carries
        what the thread above it carries; where nothing hollow is above, the buoyed weight below.

        Args:
            level: As in `hook_load`.
            top: As in `hook_load`.
            fill: As in `hook_load`.
            water_weight: As in `hook_load`.
            out: As in `hook_load`.
            surface_pressure: Gauge pressure on the column at the string's top, in service or in a
                pressure test. It opens every check valve, so the column then rests on the
                lowest bore; the fill must be `Fill.FULL`.

        Raises:
            OutOfRange: As `hook_load`; or a surface pressure on a string that is not full.
        """
        state = self._state(level, top, fill, water_weight, self._hanging(out))
        pressure = 0.0
        if surface_pressure is not None:
            if fill != Fill.FULL:
                raise OutOfRange("a surface pressure stands only on a full string")
            pressure = magnitude(surface_pressure, "lbf/ft**2", "surface pressure", at_least=0.0)
            state = state._replace(chambers=[(self._floor, state.hanging)])
        return free_body.wall_tensions(self._sums, state, pressure)

    def _hanging(self, out: int | Quantity) -> float:
        """Length left, in ft, after `out` came off the top."""
        ends = self._sums.ends
        if isinstance(out, int):
            if not 0 <= out < len(ends):
                raise OutOfRange(f"{out} pieces are out of a string of {len(ends) - 1}")
            return ends[len(ends) - 1 - out]
        # The whole length may come back from another unit a last digit longer than it went.
        most = ends[-1] * (1.0 + 1e-9)
        return max(ends[-1] - magnitude(out, "ft", "footage out", at_least=0.0, at_most=most), 0.0)

    def _state(
        self,
        level: Quantity | None,
        top: Quantity,
        fill: Fill,
        water_weight: Quantity,
        hanging: float,
    ) -> free_body.State:
        bottom = magnitude(top, "ft", "depth of the string's top") + hanging
        outside = float("-inf")
        if level is not None:
            outside = bottom - magnitude(level, "ft", "depth of the water level")
        water = magnitude(water_weight, "lbf/ft**3", "weight of water", above=0.0)
        chambers = fill.tops(self._valves, self._floor, hanging)
        return free_body.State(hanging, bottom, outside, water, chambers)
