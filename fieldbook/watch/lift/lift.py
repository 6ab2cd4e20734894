"""The lift check: what hangs on the hook, which link governs, and the reading never to pass."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, governing, judge, worst
from calc.drop_line.fill import Fill
from calc.units import magnitude, quantity
from fieldbook.quantities.convert import show
from fieldbook.record.tally import tally
from fieldbook.watch.lift.floor import floor_lbf
from fieldbook.watch.lift.load_path import Link, hook_links, line_links, reel_links, string_links
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.position import PLANNED, idle_words

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.watch.draining.draining import Draining
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.state.rigging import Rigging

STOP_LOAD = "crew's stop load"
"""What sets a limit that no link does."""
NAME = "lift"
_STEPS_OF_HOSE = 20  # at which the least limit is looked for where nobody knows what is out
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
        water: Which level `full` and `drained` are at, in words.
    """

    full: Quantity
    drained: Quantity
    design: Quantity
    worst: Quantity
    worst_case: str
    water: str


@dataclass(frozen=True, slots=True)
class Lift:
    """The answer to "may I lift this".

    Attributes:
        check: The one verdict of the lift: `lift` gives what is computed, the watch makes it the
            worst of that and what the gauge says (`lift_verdict`).
        chain: What is computed alone: all links and the crew's stop load, the largest share
            governs.
        links: Every link by itself.
        loads: The hook loads; None while the string is not known.
        limit: Largest hook load that no link and no stop of the crew's forbids; None when no
            limit is known.
        limit_of: Which link or stop that is.
        needs: What else is needed to know every link's limit.
        served: The pull in service on the same string; None where it is not asked about.
    """

    check: Check
    chain: Check
    links: tuple[Link, ...]
    loads: Loads | None
    limit: Quantity | None
    limit_of: str
    needs: tuple[str, ...] = ()
    served: Check | None = None


def lift(job: Job, now: Moment, rig: Rigging, draining: Draining) -> Lift:
    """Check every link for the worst load still possible at this moment."""
    if not now.has_load:
        check = Check(NAME, Verdict.WITHIN, governs=idle_words(now))
        return Lift(check, check, (), None, None, "")
    facts = Facts(job)
    friction = facts.need("rig", "dry_friction")
    if facts.words("well", "datum") == "ground":
        facts.need("well", "stick_up")  # the string hangs that much higher above the water
    stop_load = facts.get("limit", "stop_load")
    if now.lost:
        facts.lack(_AFTER_PARTING)
    for words in (*_at_odds(job), *([now.beyond] if now.beyond else [])):
        facts.lack(words)
    missing = tuple(facts.missing)
    if now.record.string is None:
        fill = Fill.DRAINED if draining.proved else Fill.FULL
        return _of_what_is_known(job, now, rig, fill, friction, stop_load, missing)
    # Where more is out than there is, nobody knows what hangs: all of it still may.
    hung = _all_of_it(now) if now.beyond else now
    fill = Fill.DRAINED if draining.proved else Fill.FULL
    loads = _loads(hung, fill)
    links = _links(job, hung, rig, fill, loads.worst, friction, missing)
    limited = links
    if now.beyond:
        limited = [
            link
            for at in _anywhere(now)
            for link in _links(job, at, rig, fill, at.load(at.deepest, fill), friction, missing)
        ]
    limit, limit_of = _limit(limited, stop_load)
    chain = _overall(links, _stop_load(loads.worst, stop_load), now, loads)
    return Lift(chain, chain, tuple(links), loads, limit, limit_of)


def _of_what_is_known(
    job: Job,
    now: Moment,
    rig: Rigging,
    fill: Fill,
    friction: Quantity | None,
    stop_load: Quantity | None,
    missing: tuple[str, ...],
) -> Lift:
    """What is known, held against what is known, while the string is not.

    The least that hangs may be over a limit already; less than that proves nothing.
    """
    lacking = tuple(dict.fromkeys((*now.record.missing, *missing)))
    least = floor_lbf(now, fill)
    pulled = least + (magnitude(friction, "lbf", "friction") if friction is not None else 0.0)
    gear = _gear(job, now, rig, pulled, lacking)
    checks = [link.check for link in gear]
    over = [
        check
        for check in (*checks, _stop_load(quantity(least, "lbf"), stop_load))
        if check is not None and check.verdict is Verdict.STOP
    ]
    ruling = governing(over)
    note = ""
    if least > 0.0:
        note = (
            f"at least {show(quantity(least, 'lbf'), 'lbf')} hangs, by what is known of the string"
        )
    if ruling is None:
        chain = Check(
            NAME, Verdict.UNKNOWN, missing=lacking, formula="weight of all that hangs", note=note
        )
    else:
        chain = replace(ruling, name=NAME, missing=lacking, note=note)
    # Gear alone is no limit to go by while the string's own is not known; the crew's stop is.
    limit, limit_of = _limit(gear, stop_load) if stop_load is not None else (None, "")
    return Lift(chain, chain, (), None, limit, limit_of, lacking)


def _all_of_it(now: Moment) -> Moment:
    """The moment with nothing out."""
    none = quantity(0.0, "ft")
    if now.footage_out is not None:
        return replace(now, out=none, footage_out=none)
    return replace(now, out=0, joints_out=0)


def _anywhere(now: Moment) -> Iterator[Moment]:
    """Every moment the string passes through on its way out."""
    if now.footage_out is None:
        for joints, out in enumerate((0, *now.record.joint_ends[:-1])):
            yield replace(now, out=out, joints_out=joints)
        return
    for step in range(_STEPS_OF_HOSE):
        out_ft = quantity(now.record.hose_ft * step / _STEPS_OF_HOSE, "ft")
        yield replace(now, out=out_ft, footage_out=out_ft)


def _stop_load(load: Quantity, stop_load: Quantity | None) -> Check | None:
    """The load against the crew's own stop; friction is what they left room for."""
    if stop_load is None:
        return None
    return judge(
        STOP_LOAD,
        load,
        stop_load,
        unit="lbf",
        caution_share=1.0,
        governs=STOP_LOAD,
        formula="string weight without friction",
        source="stated",
    )


def no_lift(check: Check) -> Lift:
    """The answer where `check` says all that there is to say."""
    return Lift(check, check, (), None, None, "")


def _at_odds(job: Job) -> Iterator[str]:
    """What two devices say of one joint: until one is struck, what hangs is anybody's guess."""
    for direction in ("out", "in"):
        for number in tally(job.live("joint"), direction).at_odds:
            yield f"which entry of joint {number} {direction} counts: cross out the other"


def _loads(now: Moment, fill: Fill) -> Loads:
    full = now.load(now.deepest, Fill.FULL)
    drained = now.load(now.deepest, Fill.DRAINED)
    design = now.load(None, Fill.FULL)
    held = "drained" if fill is Fill.DRAINED else "full"
    where = "no water in the well"
    if now.deepest is not None:
        where = f"water at its deepest, {show(now.deepest, 'ft', 1)}"
    worst_load = drained if fill is Fill.DRAINED else full
    return Loads(full, drained, design, worst_load, f"line {held}, {where}", where)


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
    return [
        *string_links(
            now.record,
            cuts,
            names=now.joint_names,
            hook_load_lbf=load_lbf,
            friction_lbf=friction_lbf,
            missing=missing,
        ),
        *_gear(job, now, rig, load_lbf + friction_lbf, missing),
    ]


def _gear(
    job: Job, now: Moment, rig: Rigging, pulled: float, missing: tuple[str, ...]
) -> list[Link]:
    """The links above the string, for a pull with friction in lbf."""
    path = (
        reel_links(job, rig, now.record, pulled, missing)
        if rig.is_reel
        else line_links(job, rig, pulled, missing)
    )
    return [*hook_links(job, rig, pulled, missing), *path]


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


def _overall(links: Sequence[Link], stop: Check | None, now: Moment, loads: Loads) -> Check:
    checks = [link.check for link in links]
    if stop is not None and stop.verdict is Verdict.STOP:
        checks.append(stop)
    ruling = governing(checks)
    missing = tuple(dict.fromkeys(lack for check in checks for lack in check.missing))
    notes = [PLANNED] if now.planned else []
    notes.append(loads.worst_case)
    if now.deepest is None:
        notes.append("no deepest level was given, so none is counted on")
    elif now.deepest_is_read:
        notes.append(f"water was read at {show(now.deepest, 'ft', 1)}, below the deepest said")
    notes += [check.note for check in checks if check.note]
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
