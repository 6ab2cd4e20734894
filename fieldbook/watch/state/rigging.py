"""The lift path as recorded: hoist, reeving, pulleys and gauge."""

from __future__ import annotations

from dataclasses import dataclass
from math import prod
from typing import TYPE_CHECKING

from calc.hoisting.gauge import Gauge, GaugePlace
from calc.hoisting.hoist import Redirect, Reeving
from calc.units import magnitude, quantity
from fieldbook.record.string import is_length, string_pieces
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

REEL = "hose reel"


@dataclass(frozen=True, slots=True)
class Rigging:
    """What lifts the string.

    Attributes:
        hoist: "block and line", "hose reel", or empty when nobody wrote it.
        reeving: How the line is rove; the hose on a reel is one part over its pulleys. None
            while the number of parts is not known.
        block: Weight that the line carries besides the string.
        pulleys: Redirect pulleys from the well to the drum or reel, with their entries.
        missing: What is needed to know how load and line pull go together.
        is_reel: Whether the hose itself is the line.
    """

    hoist: str
    reeving: Reeving | None
    block: Quantity | None
    pulleys: tuple[tuple[Redirect | None, Entry], ...]
    missing: tuple[str, ...]
    is_reel: bool


def rigging(job: Job) -> Rigging:
    """The lift path that the job's `rig` and `redirect` entries describe."""
    facts = Facts(job)
    hoist = facts.need_words("rig", "hoist")
    pulleys = tuple(_pulleys(job, facts))
    winds = hoist == REEL and not _is_pipe(job)
    if hoist == REEL and not winds:
        facts.lack(f"a hoist for joints (rig: {REEL})")
    if winds:
        block: Quantity | None = quantity(0.0, "lbf")
        reeving: Reeving | None = _reel_reeving(pulleys)
    else:
        parts = facts.need("rig", "parts_of_line")
        block = facts.need("rig", "block_weight")
        factor = _plain(facts.need("rig", "sheave_factor"))
        reeving = None
        if parts is not None:
            count = int(magnitude(parts, "dimensionless", "parts of line"))
            reeving = Reeving(count, factor, dead_end_at_ground=_loads_the_mast(job, count))
    return Rigging(hoist, reeving, block, pulleys, tuple(facts.missing), is_reel=winds)


def _is_pipe(job: Job) -> bool:
    """Whether the string is of joints: they hang on a hook, whatever the rig is said to be."""
    default = job.text("job", "line")
    lines = [e.text("line") or default for e in string_pieces(job) if is_length(e)]
    return "hose" not in (lines or [default]) and any(lines or [default])


def _loads_the_mast(job: Job, parts: int) -> bool:
    """Whether the dead line comes down the mast: so it is taken where nobody wrote where it ends.

    On an odd number of parts the line ends at the block, and no dead line comes down.
    """
    return parts % 2 == 0 and job.text("rig", "dead_end") in ("", "ground")


def _pulleys(job: Job, facts: Facts) -> list[tuple[Redirect | None, Entry]]:
    entries = sorted(job.live("redirect"), key=place_of)
    found: list[tuple[Redirect | None, Entry]] = []
    for number, entry in enumerate(entries, 1):
        name = entry.text("part") or f"pulley {number}"
        turn = of_entry(entry, "turn_angle")
        factor = _plain(of_entry(entry, "sheave_factor"))
        if turn is None:
            facts.lack(f"turn at {name}")
        if factor is None:
            facts.lack(f"sheave factor of {name}")
        redirect = None
        if turn is not None and factor is not None:
            redirect = Redirect(name, turn, factor)
        found.append((redirect, entry))
    return found


def place_of(entry: Entry) -> float:
    """Where a pulley is on the way from the well to the drum; those unnamed count by it."""
    value = entry.values.get("place")
    return value.number if value is not None and value.number is not None else 0.0


def _plain(value: Quantity | None) -> float | None:
    return magnitude(value, "dimensionless", "sheave factor") if value is not None else None


def _reel_reeving(pulleys: tuple[tuple[Redirect | None, Entry], ...]) -> Reeving:
    """The hose as one part of line over its pulleys, each with their geometric mean factor."""
    known = [redirect.sheave_factor for redirect, _ in pulleys if redirect is not None]
    if len(known) < len(pulleys):
        return Reeving(1, None, lead_sheaves=max(len(pulleys) - 1, 0))
    mean = prod(known) ** (1.0 / len(known)) if known else 1.0
    return Reeving(1, mean, lead_sheaves=max(len(known) - 1, 0))


_PLACES = {
    "hook": GaugePlace.HOOK,
    "deadline": GaugePlace.DEADLINE,
    "fast line": GaugePlace.FAST_LINE,
    "pulley pin": GaugePlace.LOAD_PIN,
    "reel": GaugePlace.FAST_LINE,
}


def gauge(job: Job) -> tuple[Gauge | None, tuple[str, ...]]:
    """The gauge as the job describes it, or None and what is missing to believe it.

    Its error is asked for too: without it no reading can prove anything.
    """
    facts = Facts(job)
    place = facts.need_words("gauge", "gauge_place")
    zero = facts.need("gauge", "gauge_zero")
    error = facts.need("gauge", "gauge_error")
    wrap = facts.get("gauge", "turn_angle")
    if place == "pulley pin" and wrap is None:
        facts.lack("turn of the line over the pulley pin")
    if zero is None or facts.missing:
        return None, tuple(facts.missing)
    capacity = facts.get("gauge", "gauge_capacity")
    return Gauge(_PLACES[place], zero, capacity, error, wrap), ()


def gauge_capacity(job: Job) -> Quantity | None:
    """The most that the gauge in use can show; None where nobody wrote it."""
    return Facts(job).get("gauge", "gauge_capacity")
