"""The string as recorded, made into the pieces that `calc` adds up."""

from __future__ import annotations

from dataclasses import dataclass, field
from math import pi
from typing import TYPE_CHECKING, NamedTuple

from calc.drop_line.hanging import HangingString
from calc.drop_line.piece import Piece
from calc.units import as_force, as_force_per_length, magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.record.string import LENGTHS, pump_came_out, string_pieces
from fieldbook.watch.state.couplings import typed_coupling
from fieldbook.watch.state.drop_line import STEEL_LB_FT3, DropLine, Lacking
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.pipe import Pipe
from fieldbook.watch.state.ratings import Rating
from fieldbook.watch.state.temperature import read_warm

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_PUMP_BUOYED = 0.14  # share of its weight the water carries: common practice, no published source
_CABLE_BUOYED = 0.30  # the same for flat drop cable: common practice, no published source
_BRONZE_LB_FT3 = 540.0  # valves and fittings: nominal, from memory; heavy, so little is taken off
_WATER_LB_FT3 = 62.4  # the shares above are stated against common water
_KINDS = ("piece", "cable", "pump", "well", "job", "pump_out", "finding", "hose_sheet")


class Stretch(NamedTuple):
    """One piece by its length alone, whatever it weighs.

    Attributes:
        name: As of the piece.
        kind: What it is: "joint", "check valve".
        feet: How long it is.
        line: The drop line it is of; None for a fitting, and while that is not described.
    """

    name: str
    kind: str
    feet: float
    line: DropLine | None


@dataclass(slots=True)
class StringRecord:
    """What the job says hangs in the well when nothing is out.

    Attributes:
        pieces: From the top down, the pump last.
        stretches: The same without the pump: known before anybody says what they weigh.
        joint_ends: How many pieces are off once joint 1, 2, ... is off.
        bores: Feet and bore in square inches of each length whose bore is known, weighed or not;
            of a hose nobody knows the swell of, the bore it has without pressure.
        lines: Piece name -> the drop line it is of.
        unrated: Piece name -> what is missing to know what it may carry.
        missing: What is needed to know weight and length, and not recorded.
        unmeasured: Of that, what the length above the pump needs.
        undescribed: Of that, what is needed to know the drop line: what it withstands, for one.
        sources: Where figures that nobody typed come from.
        string: The pieces added up; None while something is missing.
    """

    pieces: list[Piece] = field(default_factory=list)
    stretches: list[Stretch] = field(default_factory=list)
    joint_ends: list[int] = field(default_factory=list)
    bores: list[tuple[float, float]] = field(default_factory=list)
    lines: dict[str, DropLine] = field(default_factory=dict)
    unrated: dict[str, tuple[str, ...]] = field(default_factory=dict)
    missing: list[str] = field(default_factory=list)
    unmeasured: list[str] = field(default_factory=list)
    undescribed: list[str] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)
    string: HangingString | None = None

    @property
    def hose_ft(self) -> float:
        """Feet of hose in the string."""
        return sum(stretch.feet for stretch in self.stretches if stretch.kind == "hose")


def key_of(job: Job) -> tuple[str, ...]:
    """What the string record depends on, so that it is built again only when that changes."""
    described = (entry for kind in _KINDS for entry in job.live(kind))
    return tuple(entry.id for entry in (*described, *read_warm(job)))


def string_record(job: Job, *, as_found: bool = False) -> StringRecord:
    """The string that the job's `piece`, `cable` and `pump` entries describe.

    Args:
        job: The job.
        as_found: The string that was found, also where another is to be set by now.
    """
    facts = Facts(job, until=pump_came_out(job) if as_found else None)
    cable = facts.need("cable", "cable_weight")
    hung = as_force_per_length(cable, "cable weight") if cable is not None else 0.0
    record = StringRecord()
    entries = string_pieces(job, as_found=as_found)
    pipe = Pipe(job, as_found=as_found)
    described: DropLine | Lacking | None = None
    for entry in entries:
        if entry.text("piece") in LENGTHS:
            described = pipe.line(entry)
        _add(record, entry, described, hung, pipe)
    if not any(entry.text("piece") in LENGTHS for entry in entries):
        record.unmeasured.append("drop line in the string")
    record.missing = [*record.unmeasured, *record.undescribed, *record.missing]
    if isinstance(described, DropLine):
        _add_pump(record, facts, described)
    record.missing += [lack for lack in facts.missing if lack not in record.missing]
    if record.pieces and not record.missing:
        record.string = HangingString(record.pieces)
    return record


def _add(
    record: StringRecord,
    entry: Entry,
    described: DropLine | Lacking | None,
    cable: float,
    pipe: Pipe,
) -> None:
    what = entry.text("piece")
    line = described if isinstance(described, DropLine) else None
    if line is None:
        lacks = described.missing if isinstance(described, Lacking) else ("drop line above it",)
        _lack(record.undescribed, what, lacks)
    length = _length(entry, what)
    if length is None:
        _lack(record.unmeasured, what, [_label(_length_name(what))])
        return
    if what == "joint" and "joint_count" not in entry.values:
        _lack(record.unmeasured, what, [_label("joint_count")])
    weight = _weight(entry, what, line, length) if line is not None else None
    if line is not None and weight is None:
        _lack(record.missing, what, [_label("piece_weight")])
    sources = line.sources if line is not None else ()
    record.sources += [source for source in sources if source not in record.sources]
    count = of_entry(entry, "joint_count") if what == "joint" else None
    pieces = int(count.magnitude) if count is not None else 1
    record.bores += [(length, bore) for bore in _bore_sq_in(entry, line)] * pieces
    for _ in range(pieces):
        worn = line
        if line is not None and what in ("joint", "pup"):
            worn = pipe.joint(entry, len(record.joint_ends) + 1, line)
        name = _measure(record, what, length, worn)
        if worn is not None and weight is not None:
            _append(record, entry, name, worn, (length, weight, cable * length))


def _bore_sq_in(entry: Entry, line: DropLine | None) -> Iterator[float]:
    """The bore of a length, where it is known."""
    across = of_entry(entry, "hose_bore")
    if entry.text("piece") not in LENGTHS:
        return
    if line is not None:
        yield magnitude(line.bore_area, "in**2", "bore")
    elif across is not None:
        yield pi / 4.0 * magnitude(across, "in", "bore") ** 2


def _measure(record: StringRecord, what: str, length: float, line: DropLine | None) -> str:
    """Note one more piece by its length; its name."""
    joint = what in ("joint", "pup")
    name = f"joint {len(record.joint_ends) + 1}" if joint else _unused_name(record, what)
    record.stretches.append(Stretch(name, what, length, line if what in LENGTHS else None))
    if joint:
        record.joint_ends.append(len(record.stretches))
    return name


def _lack(lacking: list[str], what: str, lacks: Sequence[str]) -> None:
    for lack in lacks:
        text = f"{lack} of {what}"
        if text not in lacking:
            lacking.append(text)


def _label(name: str) -> str:
    return within(definition(name).label)


def _length_name(what: str) -> str:
    return "joint_length" if what == "joint" else "piece_length"


def _length(entry: Entry, what: str) -> float | None:
    value = of_entry(entry, _length_name(what))
    return magnitude(value, "ft", "length", above=0.0) if value is not None else None


def _weight(entry: Entry, what: str, line: DropLine, length: float | None) -> float | None:
    typed = of_entry(entry, "piece_weight")
    if typed is not None:
        return as_force(typed, "weight of the piece")
    if what not in LENGTHS or length is None:
        return None
    return line.weight * length + _coupling(entry, line)


def _coupling(entry: Entry, line: DropLine) -> float:
    typed = typed_coupling(entry)
    return typed if typed is not None else line.coupling


def _append(
    record: StringRecord,
    entry: Entry,
    name: str,
    line: DropLine,
    numbers: tuple[float, float, float],
) -> None:
    length, weight, cable = numbers
    what = entry.text("piece")
    is_length = what in LENGTHS
    rating = line.tension if is_length else _body_rating(entry, what)
    density = line.density if is_length else _BRONZE_LB_FT3
    # Couplings are metal on every pipe: on plastic they displace far less than their weight of it.
    metal = min(_coupling(entry, line), weight) if "piece_weight" not in entry.values else 0.0
    displaced = (weight - metal) / density + metal / STEEL_LB_FT3
    displaced += cable * _CABLE_BUOYED / _WATER_LB_FT3
    record.pieces.append(
        Piece(
            name=name,
            kind=what,
            length=quantity(length, "ft"),
            weight=quantity(weight + cable, "lbf"),
            displaced=quantity(displaced, "ft**3"),
            bore_area=line.bore_area,
            outside_area=line.outside_area,
            holds_water=what == "check valve",
            allowable=rating.allowable,
            allowable_of=rating.of,
            allowable_source=rating.source,
        )
    )
    if rating.missing:
        record.unrated[name] = rating.missing
    if is_length:
        record.lines[name] = line


def _unused_name(record: StringRecord, what: str) -> str:
    same = sum(1 for stretch in record.stretches if stretch.kind == what)
    return what if same == 0 else f"{what} {same + 1}"


def _body_rating(entry: Entry, what: str) -> Rating:
    typed = of_entry(entry, "fitting_rating")
    of = f"{what} body"
    if typed is None:
        return Rating(None, of, missing=(f"rating of the {what}",))
    return Rating(typed, of, str(entry.values["fitting_rating"].origin))


def _add_pump(record: StringRecord, facts: Facts, line: DropLine) -> None:
    weight = facts.need("pump", "pump_weight")
    length = facts.need("pump", "pump_length")
    if weight is None or length is None:
        return
    pounds = as_force(weight, "pump weight")
    record.pieces.append(
        Piece(
            name="pump",
            kind="pump",
            length=length,
            weight=weight,
            displaced=quantity(pounds * _PUMP_BUOYED / _WATER_LB_FT3, "ft**3"),
            bore_area=quantity(0.0, "in**2"),
            outside_area=line.outside_area,
        )
    )
