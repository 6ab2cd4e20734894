"""What wire rope and drum may carry on this rig: bent over its sheaves, on the layer in use."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.hoisting.reel import drum_pull_on_layer
from calc.hoisting.wire_rope import (
    bending_efficiency,
    metric_rule_of_thumb_load,
    rope_allowable,
    rule_of_thumb_load,
)
from calc.units import magnitude
from fieldbook.quantities.convert import show
from fieldbook.quantities.definition import definition
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.ratings import floored, label

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.job import Job

LEAST_ROPE_FACTOR = 3.5
"""Least design factor of a running rope: Alberta OHS; ASME B30.5 too, from memory."""
_LEAST_RATIO, _MOST_RATIO = 1.0, 40.0
"""Where the curve of bending begins and ends; beyond its end a rope is taken to lose as much."""


@dataclass(frozen=True, slots=True)
class Carries:
    """What a link of the lift path may carry.

    Attributes:
        allowable: As far as it is known; None where no rating is.
        lacking: What is needed to know it for sure.
        source: Where it comes from, in words.
        note: What else the reader must know.
    """

    allowable: Quantity | None
    lacking: tuple[str, ...] = ()
    source: str = ""
    note: str = ""


def rope(job: Job) -> Carries:
    """Breaking strength over the design factor, less what the bend over its sheave takes off.

    A rule of thumb is shown where no breaking strength is known, and is never taken for one.
    Where one of rope and sheave diameter is written the other is needed: with neither, the
    design factor alone has to cover the bend, as its rule means it to.
    """
    facts = Facts(job)
    breaking = facts.need("rig", "rope_breaking")
    factor = facts.need("rig", "rope_design_factor")
    across = facts.get("rig", "rope_diameter")
    if breaking is None or factor is None:
        lacks = (" and ".join(facts.missing),)
        return Carries(None, lacks, note=_thumb(across) if breaking is None else "")
    plain = magnitude(factor, "dimensionless", "rope design factor")
    divided, low = floored(plain, LEAST_ROPE_FACTOR, definition("rope_design_factor").label)
    straight = rope_allowable(breaking=breaking, design_factor=divided)
    source = f"breaking strength / {divided:g}"
    sheave = facts.get("rig", "sheave_diameter")
    if across is None and sheave is None:
        return Carries(straight, low, source)
    if across is None or sheave is None:
        other = "rope_diameter" if across is None else "sheave_diameter"
        return Carries(straight, (*low, label(other)), source)
    thick = magnitude(across, "in", "rope", above=0.0)
    ratio = magnitude(sheave, "in", "sheave", above=0.0) / thick
    kept = bending_efficiency(
        sheave_diameter=across * min(max(ratio, _LEAST_RATIO), _MOST_RATIO), rope_diameter=across
    )
    lacking = (*low, *(("a sheave wider than its rope",) if ratio < _LEAST_RATIO else ()))
    bent = f"{source} x {kept:.0%}, D/d {ratio:.0f}"
    return Carries(straight * kept, lacking, bent)


def drum(job: Job) -> Carries:
    """The drum's rated pull, on the outermost layer that will be wound.

    Where neither layer is written, the rating is of the layer in use, as its meaning says. A drum
    that works below the layer it is rated on pulls more than its plate says: that is not counted.
    """
    facts = Facts(job)
    rated = facts.need("rig", "drum_pull")
    if rated is None:
        return Carries(None, tuple(facts.missing))
    value = job.value("rig", "drum_pull")
    source = str(value.origin) if value is not None else ""
    layers = [facts.get("rig", name) for name in ("drum_layer", "layer_in_use")]
    if layers == [None, None]:
        return Carries(rated, (), source)
    on, used = (facts.need("rig", name) for name in ("drum_layer", "layer_in_use"))
    if on is None or used is None:
        return Carries(rated, tuple(facts.missing), source)
    first, last = (int(magnitude(each, "dimensionless", "layer")) for each in (on, used))
    if last <= first:
        return Carries(rated, (), source)
    core, thick = (facts.need("rig", name) for name in ("drum_diameter", "rope_diameter"))
    if core is None or thick is None:
        return Carries(rated, tuple(facts.missing), source)
    left = drum_pull_on_layer(
        rated=rated, rated_layer=first, core=core, rope_diameter=thick, layer=last
    )
    words = f"{source}, {show(rated, 'lbf')} on layer {first}, less on layer {last}: same torque"
    return Carries(left, (), words)


def _thumb(across: Quantity | None) -> str:
    """Both rules of thumb for a rope of unknown make, and that neither is a rating."""
    if across is None:
        return ""
    navy, metric = rule_of_thumb_load(across), metric_rule_of_thumb_load(across)
    more = magnitude(navy, "lbf", "rule") / magnitude(metric, "lbf", "rule") - 1.0
    return (
        f"rope of unknown strength: the Navy's 8 D^2 tons says {show(navy, 'lbf')} (NAVEDTRA"
        f" 14026), the metric 8 d^2 kgf says {show(metric, 'lbf')} (from memory, nobody's"
        f" standard), {more:.0%} apart, and neither is a rating"
    )
