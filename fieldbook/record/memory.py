"""What earlier jobs on a well remember: the string that was set last, and what was measured."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from fieldbook.record.entry import Origin, Value
from fieldbook.record.footage import in_feet, to_feet
from fieldbook.record.in_use import in_use
from fieldbook.record.string import is_length, is_lost, joints_in, newest_move, string_pieces
from fieldbook.record.tally import tally
from fieldbook.record.worn import worn_going_in

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

_OF_THE_PLACE = {
    "job": ("latitude", "longitude", "access", "emergency", "payer", "site"),
    "well": (
        "well_depth", "casing_diameter", "casing_material", "screen_top", "screen_bottom", "datum",
        "stick_up", "head_kind", "outlet_depth", "deepest_level", "surface_pressure",
        "well_yield", "water_temperature", "water_ph", "measuring_point", "tagged_depth",
    ),
    "tank": ("tank_size", "precharge", "cut_in", "cut_out"),
}  # fmt: skip
"""What stays with the place, whoever pulls what: the newest job that says it counts."""

_OF_THE_STRING = {
    "pump": (
        "pump_model", "pump_serial", "motor_model", "motor_serial", "motor_power",
        "motor_voltage", "motor_phase", "service_amps", "pump_flow", "pump_weight", "pump_length",
        "pump_diameter", "motor_diameter", "intake_below", "least_ohms", "most_ohms",
    ),
    "cable": ("cable_size", "cable_weight", "cable_length"),
    "hose_sheet": (
        "coldest", "hottest", "least_ph", "most_ph", "least_bend", "hose_stretch",
    ),
    "well": ("shut_off_head",),
    "setting": ("check_valves", "extras"),
    "depth": ("setting_depth",),
    "fitted": ("plug_size",),
}  # fmt: skip
"""What belongs to the string that hangs: the job that set it counts."""

_READ = {"meter": ("insulation", "amps_a", "amps_b", "amps_c"), "duty": ("specific_capacity",)}
"""What was read, newest first, of whatever job."""

_PLUG = "drain plug"
_OUT = "motor out of the well"


@dataclass(frozen=True, slots=True)
class Memory:
    """What is known of a well and of what hangs in it from the jobs before.

    Attributes:
        job: Number of the job that set the string, or took it out, or lost it.
        when: On which day.
        hangs: Whether a whole string was left hanging then.
        said: (kind, name) -> the value that was written last.
        lengths: Joints, pups and hose that were set, from the top down.
        fittings: Valves, subs and fittings that were set, from the top down.
        joints: How many joints went in.
        prior: What the entry of the last record says, by the names of its form.
    """

    job: str
    when: dt.date
    hangs: bool
    said: Mapping[tuple[str, str], Value] = field(default_factory=dict)
    lengths: Sequence[Entry] = ()
    fittings: Sequence[Entry] = ()
    joints: int = 0
    prior: Mapping[str, Value] = field(default_factory=dict)

    @property
    def words(self) -> str:
        """Where the memory comes from: "as set 2026-05-14, job 26-114"."""
        return f"as {'set' if self.hangs else 'left'} {self.when:%Y-%m-%d}, job {self.job}"


def remember(jobs: Iterable[Job]) -> Memory | None:
    """What earlier jobs on one well add up to, or None where none of them moved a string.

    Args:
        jobs: The earlier jobs, the newest first.
    """
    earlier = list(jobs)
    moves = ((job, move) for job in earlier if (move := _last_move(job)) is not None)
    moved, last = next(moves, (None, None))
    if moved is None or last is None:
        return None
    hangs = last.text("direction") == "in" and not is_lost(moved)
    said = _newest(earlier, _OF_THE_PLACE) | _newest(earlier, _READ)
    if (level := _static_level(earlier)) is not None:
        said["level", "water_level"] = level
    if not hangs:
        return Memory(moved.text("job", "job_number"), last.time.date(), hangs=False, said=said)
    said |= _newest([moved], _OF_THE_STRING)
    pieces = string_pieces(moved)
    lengths = [_as_worn(moved, piece) for piece in pieces if is_length(piece)]
    joints = tally(moved.live("joint"), "in").count or joints_in(lengths)
    return Memory(
        job=moved.text("job", "job_number"),
        when=last.time.date(),
        hangs=True,
        said=said,
        lengths=lengths,
        fittings=[piece for piece in pieces if not is_length(piece)],
        joints=joints,
        prior=_prior(moved, last, said, lengths, joints),
    )


def _as_worn(job: Job, piece: Entry) -> Entry:
    """A run with the thinnest wall that was found on it, as it is to be planned with next time."""
    wall = worn_going_in(job, piece).wall
    had = in_feet(piece, "least_wall")
    if wall is None or (had is not None and had <= to_feet(wall.number or 0.0, wall.unit)):
        return piece
    return piece._replace(values={**piece.values, "least_wall": wall})


def _last_move(job: Job) -> Entry | None:
    """The newest entry that moved the string, or by which the pump was out."""
    moves = [move for move in (newest_move(job), job.last("pump_out")) if move is not None]
    return max(moves, key=lambda entry: entry.order, default=None)


def _newest(
    jobs: Iterable[Job], wanted: Mapping[str, Sequence[str]]
) -> dict[tuple[str, str], Value]:
    found: dict[tuple[str, str], Value] = {}
    for job in jobs:
        for kind, names in wanted.items():
            for name in names:
                value = _said(job, kind, name)
                if value is not None:
                    found.setdefault((kind, name), value)
    return found


def _said(job: Job, kind: str, name: str) -> Value | None:
    """The newest that was said, of a motor only while it was in the well."""
    entries = reversed(in_use(kind, job.live(kind), name))
    said = (e.values[name] for e in entries if name in e.values and e.text("part") != _OUT)
    return next(said, None)


def _static_level(jobs: Iterable[Job]) -> Value | None:
    for job in jobs:
        for entry in reversed(job.live("level")):
            if entry.text("level_state") == "static" and "water_level" in entry.values:
                return entry.values["water_level"]
    return None


def _prior(
    job: Job,
    last: Entry,
    said: Mapping[tuple[str, str], Value],
    lengths: Sequence[Entry],
    joints: int,
) -> dict[str, Value]:
    """The last record, as the next crew would copy it."""
    found = {"set_on": _word(f"{last.time:%Y-%m-%d}")}
    for name, key in (
        ("setting_depth", ("depth", "setting_depth")),
        ("datum", ("well", "datum")),
        ("cable_length", ("cable", "cable_length")),
        ("check_valves", ("setting", "check_valves")),
        ("extras", ("setting", "extras")),
        ("water_level", ("level", "water_level")),
        ("insulation", ("meter", "insulation")),
    ):
        if key in said:
            found[name] = said[key]
    if joints:
        found["prior_count"] = Value(text=str(joints), number=float(joints), origin=Origin.STATED)
    hose = sum(
        in_feet(piece, "piece_length") or 0.0 for piece in lengths if piece.text("piece") == "hose"
    )
    if hose:
        found["piece_length"] = Value(f"{hose:g} ft", number=hose, unit="ft", origin=Origin.STATED)
    plugs = [e for e in job.live("fitted") if e.text("part") == _PLUG and "at_depth" in e.values]
    if plugs:
        found["plug_depth"] = plugs[-1].values["at_depth"]
    return found


def _word(text: str) -> Value:
    return Value(text=text, origin=Origin.STATED)
