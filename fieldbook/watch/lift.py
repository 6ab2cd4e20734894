"""The lift check: what hangs on the hook, which link governs, and the reading never to pass."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, governing, worst
from calc.fill import Fill
from calc.units import magnitude, quantity
from fieldbook.quantities.convert import show
from fieldbook.record.tally import tally
from fieldbook.watch.facts import Facts
from fieldbook.watch.links import Link, hook_links, line_links, reel_links, string_links
from fieldbook.watch.moment import PLANNED, idle_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.draining import Draining
    from fieldbook.watch.moment import Moment
    from fieldbook.watch.rigging import Rigging

STOP_LOAD = "crew's stop load"
"""What sets a limit that no link does."""
NAME = "lift"
_AFTER_PARTING = "what still hangs, and proof that the gear took no harm: string lost or parted"


@dataclass(frozen=True, slots=True)
class Loads:
    """The hook load in each case, without friction.

    Attributes:
        full: Line full, water at its deepest plausible level.
        drained: Line drained, same level.
        design: Line full and no water in the well.
        worst: The largest that is still possible.
        worst_case: Which case that is, in words.
    """

    full: Quantity
    drained: Quantity
    design: Quantity
    worst: Quantity
    worst_case: str


@dataclass(frozen=True, slots=True)
class Lift:
    """The answer to "may I lift this".

    Attributes:
        check: The verdict over all links; the largest share governs.
        links: Every link by itself.
        loads: The hook loads; None while the string is not known.
        limit: Largest hook load that no link and no stop of the crew's forbids; None when no
            limit is known.
        limit_of: Which link or stop that is.
    """

    check: Check
    links: tuple[Link, ...]
    loads: Loads | None
    limit: Quantity | None
    limit_of: str


def lift(job: Job, now: Moment, rig: Rigging, draining: Draining) -> Lift:
    """Check every link for the worst load still possible at this moment."""
    if not now.has_load:
        check = Check(NAME, Verdict.WITHIN, governs=idle_words(now))
        return Lift(check, (), None, None, "")
    if now.record.string is None:
        lacking = tuple(now.record.missing)
        check = Check(NAME, Verdict.UNKNOWN, missing=lacking, formula="weight of all that hangs")
        return Lift(check, (), None, None, "")
    facts = Facts(job)
    friction = facts.need("rig", "dry_friction")
    if facts.words("well", "datum") == "ground":
        facts.need("well", "stick_up")  # the string stands that much higher above the water
    if now.lost:
        facts.lack(_AFTER_PARTING)
    for words in _at_odds(job):
        facts.lack(words)
    fill = Fill.DRAINED if draining.proved else Fill.FULL
    loads = _loads(now, fill)
    links = _links(job, now, rig, fill, loads.worst, friction, tuple(facts.missing))
    limit, limit_of = _limit(links, facts.get("limit", "stop_load"))
    return Lift(_overall(links, now, loads), tuple(links), loads, limit, limit_of)


def no_lift(check: Check) -> Lift:
    """The answer where `check` says all that there is to say."""
    return Lift(check, (), None, None, "")


def _at_odds(job: Job) -> Iterator[str]:
    """What two devices say of one joint: until one is struck, what hangs is anybody's guess."""
    for direction in ("out", "in"):
        for number in tally(job.live("joint"), direction).at_odds:
            yield f"which entry of joint {number} {direction} counts: strike the other"


def _loads(now: Moment, fill: Fill) -> Loads:
    full = now.load(now.deepest, Fill.FULL)
    drained = now.load(now.deepest, Fill.DRAINED)
    design = now.load(None, Fill.FULL)
    held = "drained" if fill is Fill.DRAINED else "full"
    where = "no water in the well" if now.deepest is None else "water at its deepest"
    return Loads(
        full, drained, design, drained if fill is Fill.DRAINED else full, f"line {held}, {where}"
    )


def _links(
    job: Job,
    now: Moment,
    rig: Rigging,
    fill: Fill,
    load: Quantity,
    friction: Quantity | None,
    missing: tuple[str, ...],
) -> list[Link]:
    string = now.record.string
    assert string is not None
    cuts = string.wall_tensions(
        level=now.deepest, top=now.top, fill=fill, water_weight=now.water_weight, out=now.out
    )
    load_lbf = magnitude(load, "lbf", "hook load")
    friction_lbf = magnitude(friction, "lbf", "friction") if friction is not None else 0.0
    pulled = load_lbf + friction_lbf
    gear = (
        reel_links(job, rig, now.record, pulled, missing)
        if rig.is_reel
        else line_links(job, rig, pulled, missing)
    )
    return [
        *string_links(
            now.record,
            cuts,
            names=now.joint_names,
            hook_load_lbf=load_lbf,
            friction_lbf=friction_lbf,
            missing=missing,
        ),
        *hook_links(job, pulled, missing),
        *gear,
    ]


def _limit(links: Sequence[Link], stop_load: Quantity | None) -> tuple[Quantity | None, str]:
    known = [
        (link.hook_limit_lbf, link.check.governs)
        for link in links
        if link.hook_limit_lbf is not None
    ]
    if stop_load is not None:
        known.append((magnitude(stop_load, "lbf", "stop load"), STOP_LOAD))
    if not known:
        return None, ""
    least, whose = min(known, key=lambda pair: pair[0])
    return quantity(least, "lbf"), whose


def _overall(links: Sequence[Link], now: Moment, loads: Loads) -> Check:
    checks = [link.check for link in links]
    ruling = governing(checks)
    missing = tuple(dict.fromkeys(lack for check in checks for lack in check.missing))
    notes = [PLANNED] if now.planned else []
    notes.append(loads.worst_case)
    if now.deepest is None:
        notes.append("no deepest level was given, so none is counted on")
    elif now.deepest_is_read:
        notes.append(f"water was read at {show(now.deepest, 'ft', 1)}, below the deepest said")
    notes += now.record.sources
    return Check(
        NAME,
        worst(checks),
        demand=ruling.demand if ruling is not None else None,
        allowable=ruling.allowable if ruling is not None else None,
        share=ruling.share if ruling is not None else None,
        governs=ruling.governs if ruling is not None else "",
        missing=missing,
        formula=ruling.formula if ruling is not None else "each link: demand / allowable",
        source=ruling.source if ruling is not None else "",
        note="; ".join(notes),
    )
