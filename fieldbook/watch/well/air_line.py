"""The level by an air line, beside the level that was written."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Check, Verdict
from calc.errors import OutOfRange
from calc.hydraulics.well import air_line_level
from calc.units import magnitude, quantity
from fieldbook.quantities.convert import show
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.state.facts import Facts, of_entry
from fieldbook.watch.state.position import water_weight

if TYPE_CHECKING:
    from fieldbook.record.job import Job

NAME = "air line"
_NAMES = ("air_line_depth", "air_line_pressure")
_GOOD_TO_FT = 2.31
_FORMULA = "length of the air line less 2.31 ft for each psi, against the level as written"
_SOURCE = "MIL-HDBK-1164 Appendix A; a gauge 1 psi off puts the level 2.31 ft off (Colorado)"


def air_line(job: Job) -> Check | None:
    """Whether the newest level that was read by air line is what the air line says.

    None where no level was; a level apart by more than a psi is a caution: one of the two is wrong.
    """
    read = (entry for entry in reversed(job.live("level")) if set(_NAMES) & set(entry.values))
    entry = next(read, None)
    if entry is None:
        return None
    level = of_entry(entry, "water_level")
    depth, pressure = (of_entry(entry, name) for name in _NAMES)
    lacking = tuple(
        within(definition(name).label)
        for name, figure in zip(_NAMES, (depth, pressure), strict=True)
        if figure is None
    )
    if level is None or depth is None or pressure is None:
        return Check(NAME, Verdict.UNKNOWN, missing=lacking, formula=_FORMULA, source=_SOURCE)
    weight = water_weight(Facts(job).get("well", "water_temperature"))
    try:
        found = air_line_level(line_depth=depth, pressure=pressure, water_weight=weight)
    except OutOfRange:
        lacks = ("a pressure that the line is deep enough for: plugged, or the gauge is wrong",)
        return Check(NAME, Verdict.UNKNOWN, missing=lacks, formula=_FORMULA, source=_SOURCE)
    off = magnitude(level - found, "ft", "difference")
    apart = abs(off) > _GOOD_TO_FT
    return Check(
        NAME,
        Verdict.CAUTION if apart else Verdict.WITHIN,
        demand=quantity(abs(off), "ft"),
        allowable=quantity(_GOOD_TO_FT, "ft"),
        share=abs(off) / _GOOD_TO_FT,
        governs=f"{show(found, 'ft', 1)} to water by the air line, {show(level, 'ft', 1)} written",
        formula=_FORMULA,
        source=_SOURCE,
        note="one of line length, gauge and level is wrong" if apart else "",
    )
