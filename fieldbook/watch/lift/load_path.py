"""Every link of the lift path, each by its own demand over its own allowable."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.check import Check, judge
from calc.hoisting.hoist import Motion, line_pull, mast_load, sheave_load
from calc.units import magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.lift.rope_and_drum import drum as drum_of
from fieldbook.watch.lift.rope_and_drum import rope
from fieldbook.watch.state.facts import Facts, of_entry

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.drop_line.free_body import Cut
    from calc.hoisting.hoist import Redirect, Reeving
    from calc.units import Quantity
    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job
    from fieldbook.watch.lift.rope_and_drum import Carries
    from fieldbook.watch.state.rigging import Rigging
    from fieldbook.watch.state.string import StringRecord

CAUTION_SHARE = 0.8
"""Share of a limit from which a verdict is `caution`: ours, no published source."""


@dataclass(frozen=True, slots=True)
class Link:
    """One link of the lift path.

    Attributes:
        check: Its demand against its allowable.
        hook_limit_lbf: Hook load at which it reaches its allowable; None when that is not known.
    """

    check: Check
    hook_limit_lbf: float | None


@dataclass(frozen=True, slots=True)
class _Demand:
    """A demand, in lbf, that is a straight line of the hook load: `factor` x (load + `extra`)."""

    factor: float
    extra: float
    formula: str


def hook_links(job: Job, rig: Rigging, load_lbf: float, missing: tuple[str, ...]) -> list[Link]:
    """The gear that carries the string itself; a reel has no hook, but a lower hold like any."""
    names = ["holding_rating", "lifting_sub_rating"]
    if not rig.is_reel:
        names.insert(0, "hook_rating")
    straight = _Demand(1.0, 0.0, "string weight with friction and break-out")
    return [
        _link(
            within(definition(name).label.removesuffix(" rating")),
            straight,
            load_lbf,
            _rating(job, "rig", name),
            missing,
        )
        for name in names
    ]


def line_links(job: Job, rig: Rigging, load_lbf: float, missing: tuple[str, ...]) -> list[Link]:
    """Rope, drum and mast of a block and line; they carry the block too, and friction hoisting."""
    lacking = (*missing, *rig.missing)
    pull = mast = None
    if rig.reeving is not None and rig.reeving.sheave_factor is not None and rig.block is not None:
        one = quantity(1.0, "lbf")
        extra = magnitude(rig.block, "lbf", "block")
        fast = magnitude(
            line_pull(one, reeving=rig.reeving, moving=Motion.HOISTING), "lbf", "line pull"
        )
        crown = magnitude(
            mast_load(one, reeving=rig.reeving, moving=Motion.HOISTING), "lbf", "mast load"
        )
        parts = rig.reeving.parts
        pull = _Demand(fast, extra, f"string and block on {parts} parts, hoisting")
        mast = _Demand(crown, extra, _mast_words(job, rig.reeving))
    drum = pull
    if pull is not None and rig.pulleys:
        drum = _after_pulleys(pull, rig)
    return [
        _link("wire rope", drum, load_lbf, _carried(rope(job)), lacking),
        _link("drum line pull", drum, load_lbf, _carried(drum_of(job)), lacking),
        _link("mast", mast, load_lbf, _rating(job, "rig", "mast_rating"), lacking),
        *pulley_links(rig, pull, load_lbf, lacking),
    ]


def _mast_words(job: Job, reeving: Reeving) -> str:
    if not reeving.dead_end_at_ground:
        return "string, block and the line's own pull, hoisting"
    said = "tied at the ground" if job.text("rig", "dead_end") else "taken as tied at the ground"
    return f"string, block, the line's own pull and the dead line, {said}, hoisting"


def reel_links(
    job: Job, rig: Rigging, record: StringRecord, load_lbf: float, missing: tuple[str, ...]
) -> list[Link]:
    """The pulleys the hose runs over, their anchors, the hose past them, and the reel."""
    lacking = (*missing, *rig.missing)
    hose = _Demand(1.0, 0.0, "pull in the hose")
    reel = _after_pulleys(hose, rig) if not rig.missing else None
    links = pulley_links(rig, hose, load_lbf, lacking)
    if rig.pulleys:
        past, lacks = _hose_rating(record)
        links.append(_link("hose past the pulleys", reel, load_lbf, past, (*lacking, *lacks)))
    links.append(_link("reel", reel, load_lbf, _rating(job, "rig", "reel_pull"), lacking))
    return links


def _hose_rating(record: StringRecord) -> tuple[_Rated, tuple[str, ...]]:
    """The least that any length of hose may carry: each of them comes past the pulleys in turn."""
    hoses = [piece for piece in record.pieces if piece.kind == "hose"]
    lacks = tuple(lack for piece in hoses for lack in record.unrated.get(piece.name, ()))
    rated = [piece for piece in hoses if piece.allowable_lbf is not None]
    if not rated:
        return _Rated(None, "working tensile load of the hose", ""), lacks
    least = min(rated, key=lambda piece: piece.allowable_lbf or 0.0)
    return _Rated(least.allowable, "", least.allowable_source), lacks


def _after_pulleys(pull: _Demand, rig: Rigging) -> _Demand | None:
    factor = pull.factor
    for redirect, _ in rig.pulleys:
        if redirect is None:
            return None
        factor *= redirect.sheave_factor
    pulleys = "1 pulley" if len(rig.pulleys) == 1 else f"{len(rig.pulleys)} pulleys"
    return _Demand(factor, pull.extra, f"{pull.formula}, past {pulleys}")


def pulley_links(
    rig: Rigging, pull: _Demand | None, load_lbf: float, missing: tuple[str, ...]
) -> list[Link]:
    """Each redirect pulley and its anchor: 2 T sin(half the turn), T on the hauling side."""
    links = []
    factor = pull.factor if pull is not None else None
    for redirect, entry in rig.pulleys:
        demand = None
        if redirect is not None and factor is not None and pull is not None:
            factor *= redirect.sheave_factor
            demand = _pulley_demand(redirect, factor, pull.extra)
        else:
            factor = None
        name = redirect.name if redirect is not None else entry.text("part") or "pulley"
        for rated, of in (("pulley_rating", name), ("anchor_rating", f"anchor of {name}")):
            rating = _Rated(of_entry(entry, rated), f"rating of {of}", _origin(entry, rated))
            links.append(_link(of, demand, load_lbf, rating, missing))
    return links


def _pulley_demand(redirect: Redirect, factor: float, extra: float) -> _Demand:
    one = sheave_load(tension=quantity(1.0, "lbf"), turn=redirect.turn)
    turn = magnitude(redirect.turn, "degree", "turn")
    formula = f"2 x pull x sin({turn:g} deg / 2), hauling side"
    return _Demand(factor * magnitude(one, "lbf", "pulley load"), extra, formula)


@dataclass(frozen=True, slots=True)
class _Rated:
    allowable: Quantity | None
    lack: str
    source: str
    missing: tuple[str, ...] = ()
    note: str = ""


def _rating(job: Job, kind: str, name: str) -> _Rated:
    facts = Facts(job)
    value = job.value(kind, name)
    return _Rated(
        facts.get(kind, name),
        within(definition(name).label),
        str(value.origin) if value is not None else "",
    )


def _origin(entry: Entry, name: str) -> str:
    value = entry.values.get(name)
    return str(value.origin) if value is not None else ""


def _carried(found: Carries) -> _Rated:
    """The rating of rope or drum, with what is still needed to be sure of it."""
    return _Rated(found.allowable, "", found.source, found.lacking, found.note)


def _link(
    name: str, demand: _Demand | None, load_lbf: float, rated: _Rated, missing: tuple[str, ...]
) -> Link:
    lacking = [*missing, *rated.missing]
    if rated.allowable is None and rated.lack:
        lacking.append(rated.lack)
    asked = limit = None
    if demand is not None:
        asked = quantity((load_lbf + demand.extra) * demand.factor, "lbf")
        if rated.allowable is not None:
            allowed = magnitude(rated.allowable, "lbf", f"rating of {name}")
            limit = allowed / demand.factor - demand.extra
    check = judge(
        name,
        asked,
        rated.allowable,
        unit="lbf",
        caution_share=CAUTION_SHARE,
        governs=name,
        missing=dict.fromkeys(lacking),
        formula=demand.formula if demand is not None else "",
        source=rated.source,
        note=rated.note,
    )
    return Link(check, limit)


def string_links(
    record: StringRecord,
    cuts: list[Cut],
    *,
    names: Mapping[str, str],
    hook_load_lbf: float,
    friction_lbf: float,
    missing: tuple[str, ...],
) -> list[Link]:
    """Each piece of the string at the cut where it is loaded most, friction pulled in full.

    Args:
        record: The string as recorded.
        cuts: Wall tensions without friction.
        names: What the crew calls a piece that the record calls otherwise.
        hook_load_lbf: The hook load they belong to.
        friction_lbf: Allowance that any cut may carry on top.
        missing: What is missing already.
    """
    most: dict[str, Cut] = {}
    for cut in cuts:
        if cut.name not in most or cut.tension_lbf > most[cut.name].tension_lbf:
            most[cut.name] = cut
    links = []
    for name, cut in most.items():
        if cut.piece.kind == "pump":
            continue  # its thread is the one above it, which is a cut of its own
        lacking = (*missing, *record.unrated.get(name, ()))
        called = names.get(name, name)
        check = judge(
            called,
            quantity(cut.tension_lbf + friction_lbf, "lbf"),
            cut.allowable,
            unit="lbf",
            caution_share=CAUTION_SHARE,
            governs=f"{cut.piece.allowable_of or cut.piece.kind}, {called}",
            missing=dict.fromkeys(lacking),
            formula=f"wall tension at its {cut.end} end, {_depth(cut.depth_ft)}, and friction",
            source=cut.piece.allowable_source,
        )
        rated = cut.piece.allowable_lbf
        limit = hook_load_lbf + rated - cut.tension_lbf if rated is not None else None
        links.append(Link(check, limit))
    return links


def _depth(feet: float) -> str:
    """A depth in words; the top of the string may stand above the datum."""
    return f"{feet:,.0f} ft down" if feet >= 0.0 else f"{-feet:,.0f} ft above the datum"
