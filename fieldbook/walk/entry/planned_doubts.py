"""Sums of the plan that do not come out: total head, level by specific capacity, setting depth.

The crew works them on paper and types what they come to; a slip there hangs the pump at the wrong
depth, or buys the wrong pump.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.convert import number_in
from fieldbook.record.levels import at_rest

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.record.entry import Value
    from fieldbook.record.job import Job

_FEET_A_PSI = 2.31  # as the trade works it out on paper, which is what is held against the sum
_SAME_FT = 1.0  # common practice, no published source
_OFF_FT, _OFF = 5.0, 0.05  # rounding and a level read again come to less; our own figures


def doubt_in_plan(job: Job, name: str, said: Mapping[str, Value], *, is_signed: bool) -> str:
    """Why a figure of the duty or of the setting is not what the others come to; empty where it is.

    Args:
        job: The job as recorded.
        name: The figure.
        said: What is said, up to it.
        is_signed: Whether others sign for the depth at this step.
    """
    if name == "total_head":
        return _total_head(said)
    if name in ("pumping_level", "specific_capacity"):
        return _level(job, said)
    if name == "setting_depth":
        return _setting(said) or ("" if is_signed else _signed(job, said))
    return ""


def doubt_by_air_line(said: Mapping[str, Value]) -> str:
    """The level that an air line gives, where another was written; empty where they agree.

    Args:
        said: What the form says, its gauge last.
    """
    level, ends = _in(said, "water_level"), _in(said, "air_line_depth")
    gauge = _in(said, "air_line_pressure", "psi")
    if level is None or ends is None or gauge is None:
        return ""
    found = ends - gauge * _FEET_A_PSI
    if abs(level - found) <= _FEET_A_PSI:  # a gauge that is 1 psi off
        return ""
    return f"{ends:,.0f} - {gauge:g} psi x {_FEET_A_PSI} = {found:z,.1f} ft to water"


def _total_head(said: Mapping[str, Value]) -> str:
    level, friction, head = (_in(said, n) for n in ("pumping_level", "friction_loss", "total_head"))
    pressure = _in(said, "discharge_pressure", "psi")
    if level is None or friction is None or pressure is None or head is None:
        return ""
    comes_to = level + friction + pressure * _FEET_A_PSI
    sum_of = f"{level:,.0f} + {friction:,.0f} + {pressure:,.0f} psi x {_FEET_A_PSI}"
    return _unless_near(head, comes_to, sum_of)


def _level(job: Job, said: Mapping[str, Value]) -> str:
    """The level at rest and the flow wanted over what the well gives a foot."""
    flow = _in(said, "duty_flow", "gpm")
    each, level = _in(said, "specific_capacity", ""), _in(said, "pumping_level")
    rest = _at_rest(job)
    if flow is None or level is None or rest is None or not each:
        return ""
    return _unless_near(level, rest + flow / each, f"{rest:,.0f} at rest + {flow:g} gpm / {each:g}")


def _setting(said: Mapping[str, Value]) -> str:
    level, over, depth = (_in(said, n) for n in ("pumping_level", "submergence", "setting_depth"))
    if level is None or over is None or depth is None:
        return ""
    return _unless_near(depth, level + over, f"{level:,.0f} and {over:,.0f} of water over it")


def _signed(job: Job, said: Mapping[str, Value]) -> str:
    """Another depth than the one that was agreed, at a step where nobody signs for it."""
    agreed, depth = job.last("setting"), _in(said, "setting_depth")
    before = _in(agreed.values, "setting_depth") if agreed is not None else None
    datum = said["datum"].text if "datum" in said else ""
    if agreed is None or depth is None or before is None or datum != agreed.text("datum"):
        return ""
    if abs(depth - before) <= _SAME_FT:
        return ""
    return f"{before:,.1f} ft was agreed; another is signed by two first (Esc, w)"


def _unless_near(typed: float, comes_to: float, sum_of: str) -> str:
    near = abs(typed - comes_to) <= max(_OFF_FT, _OFF * abs(comes_to))
    return "" if near else f"{sum_of} = {comes_to:,.0f} ft"


def _at_rest(job: Job) -> float | None:
    rests = at_rest(job.live("level"))
    return _in(rests[-1].values, "water_level") if rests else None


def _in(said: Mapping[str, Value], name: str, unit: str = "ft") -> float | None:
    value = said.get(name)
    return number_in(value, unit) if value is not None and value.number is not None else None
