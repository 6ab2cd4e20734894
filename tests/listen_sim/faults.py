"""What may be the matter, as the simulator sees it, and the reading that it gives."""

from __future__ import annotations

from math import inf
from typing import NamedTuple

from tests.listen_sim.strings import PUMP_FT, Line, World, hook_load

Columns = tuple[tuple[float, float], ...]


class Place(NamedTuple):
    """Where one reading was taken, by the crew's count and clock."""

    out: float
    raised: float
    minutes: float
    drained: bool
    setting: bool


class Fault(NamedTuple):
    """What is the matter.

    Attributes:
        name: The explanation that is right.
        columns: Water held in the bore, by its ends from the string's top; None as recorded.
        end: Where the string ends, ft from its top.
        level: Outside level below the recorded one, ft.
        factor: Reading over what it should be.
        const: Added to every reading, lbf.
        slope: Added to the reading for each foot raised since it began, lbf/ft.
        rate: Hook load that leaks away, lbf a minute; negative when it fills.
        off: Length that hangs beyond the count, ft.
        white: Mean and standard deviation of what comes and goes, lbf of reading.
        frozen: The gauge stands at this reading.
        slack: Nothing hangs on the gauge.
        start: Place of the last reading before it began.
        passes: After how many readings it lets go by itself; 0 for never.
        own: Field that is not known to whoever explains, with its standard deviation.
    """

    name: str
    columns: Columns | None = None
    end: float = inf
    level: float = 0.0
    factor: float = 1.0
    const: float = 0.0
    slope: float = 0.0
    rate: float = 0.0
    off: float = 0.0
    white: tuple[float, float] = (0.0, 0.0)
    frozen: float | None = None
    slack: bool = False
    start: Place | None = None
    own: tuple[str, float] | None = None
    passes: int = 0


CLEAN = Fault("as expected")


def held(line: Line, place: Place, fault: Fault) -> Columns:
    """The water that is held in the bore."""
    if fault.columns is not None:
        return fault.columns
    if place.drained or place.setting:
        return ()
    return line.columns(fault.end)


def load_at(line: Line, world: World, place: Place, fault: Fault) -> float:
    """The hook load, lbf."""
    columns = held(line, place, fault)
    level = line.level + world.level + fault.level

    def load(water: Columns) -> float:
        return hook_load(
            line, world, out=place.out - fault.off, raised=place.raised, level=level,
            columns=water, end=fault.end,
        )  # fmt: skip

    whole = load(columns)
    if fault.rate and fault.start is not None:
        moved = fault.rate * (place.minutes - fault.start.minutes)
        room = whole - load(()) if moved > 0.0 else load(line.columns(fault.end)) - whole
        whole -= min(moved, room) if moved > 0.0 else -min(-moved, room)
    return whole


def reading(line: Line, world: World, place: Place, fault: Fault, *, jitter: float = 0.0) -> float:
    """What the gauge shows, lbf, but for its own noise."""
    if fault.frozen is not None:
        return fault.frozen
    if fault.slack:
        return line.zero + world.zero
    load = load_at(line, world, place, fault) * (1.0 + world.drag)
    sheaves = 1.0 + line.friction * (world.sheave + jitter)
    shown = line.zero + world.zero + fault.factor * line.gain * sheaves * load + fault.const
    if fault.slope and fault.start is not None:
        shown += fault.slope * max(place.raised - fault.start.raised, 0.0)
    return shown + fault.white[0]


def in_air(line: Line) -> float:
    """Where the pump's upper end is, ft from the string's top."""
    return line.length - PUMP_FT
