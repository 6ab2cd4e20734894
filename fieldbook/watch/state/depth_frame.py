"""What turns a length of line into the depth of the intake: the hanger above it, the pump below."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.units import magnitude
from fieldbook.record.string import LENGTHS, pump_came_out, string_pieces
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_HANGS_BELOW_GROUND = ("pitless adapter", "pitless unit")


@dataclass(frozen=True, slots=True)
class Frame:
    """The landed string about its line; feet, below the datum of the well.

    Attributes:
        datum: The datum of every depth here.
        stick_up: Casing above ground; None when it is not written.
        casing_top: Depth of the top of the casing, minus where it lies above the datum.
        hang: Depth at which the top of the line hangs once it is landed.
        fittings: Length of valves, subs and fittings, which no joint counts.
        intake: From the discharge face of the pump to its intake.
        pump: From the discharge face to the end of the motor.
    """

    datum: str
    stick_up: float | None
    casing_top: float
    hang: float
    fittings: float
    intake: float
    pump: float

    def depth(self, line: float) -> float:
        """Where the intake is with so much line between the hanger and the pump."""
        return self.hang + line + self.fittings + self.intake

    def on_datum(self, depth: float, datum: str) -> float | None:
        """A depth below another datum, below this one; None without the stick-up, or a datum."""
        if datum == self.datum:
            return depth
        if self.stick_up is None or not datum:
            return None
        return depth + (self.stick_up if self.datum == "top of casing" else -self.stick_up)


def frame_of(job: Job, direction: str) -> tuple[Frame | None, tuple[str, ...]]:
    """The frame of the string that went "out" or "in", or what is missing to have one."""
    found = direction == "out"
    facts = Facts(job, until=pump_came_out(job) if found else None)
    datum, head = facts.need_words("well", "datum"), facts.need_words("well", "head_kind")
    intake, pump = facts.need("pump", "intake_below"), facts.need("pump", "pump_length")
    below_ground = head in _HANGS_BELOW_GROUND
    on_ground = datum == "ground"
    # The stick-up is needed only where it lies between the datum and the hanger.
    needs_stick_up = bool(datum and head) and on_ground != below_ground
    read = facts.need if needs_stick_up else facts.get
    stick_up = read("well", "stick_up")
    outlet = facts.need("well", "outlet_depth") if below_ground else None
    if facts.missing or intake is None or pump is None:
        return None, tuple(facts.missing)
    rise = _feet(stick_up) if stick_up is not None else 0.0
    casing_top = -rise if on_ground else 0.0
    hang = casing_top
    if outlet is not None:
        hang = _feet(outlet) + (0.0 if on_ground else rise)
    return Frame(
        datum=datum,
        stick_up=_feet(stick_up) if stick_up is not None else None,
        casing_top=casing_top,
        hang=hang,
        fittings=sum(_fitting_length(entry) for entry in string_pieces(job, as_found=found)),
        intake=_feet(intake),
        pump=_feet(pump),
    ), ()


def _fitting_length(entry: Entry) -> float:
    length = of_entry(entry, "piece_length")
    if entry.text("piece") in LENGTHS or length is None:
        return 0.0
    return _feet(length)


def _feet(length: Quantity) -> float:
    return magnitude(length, "ft", "length")
