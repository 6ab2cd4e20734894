"""What the watch sees in a few plain words, the same on the screen, on paper and in a terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Verdict
from calc.units import magnitude
from fieldbook.quantities.convert import show
from fieldbook.watch.state.position import PLANNED, idle_words

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.check import Check
    from calc.units import Quantity
    from fieldbook.watch.lift.load_path import Link
    from fieldbook.watch.state.position import Moment

_UNITS = (
    "lbf",
    "psi",
    "ft",
    "V",
    "A",
    "Mohm",
    "gpm",
    "ft/s",
    "hp",
    "mg/L",
    "hour",
    "dimensionless",
)
"""What documents speak in, whatever was typed."""
_WIND, _MINUTE = "mile_per_hour", "minute"
_DIGITS = {"lbf": 0, "psi": 0, "V": 0, "A": 1}


def unit_of(quantity: Quantity) -> str:
    """The unit a figure is spoken in: wind in mph, every other speed in ft/s, a run in min."""
    if str(quantity.units) == _WIND:
        return "mph"
    if str(quantity.units) == _MINUTE:
        return "min"
    return next(unit for unit in _UNITS if quantity.is_compatible_with(unit))


def in_words(figure: Quantity) -> str:
    """A figure of a check in the unit that documents speak in; a plain share as percent."""
    unit = unit_of(figure)
    if unit == "dimensionless":
        return f"{figure.m_as(unit):.1%}"
    if unit == "Mohm":  # from thousands down to what is nearly none
        return f"{figure.m_as(unit):,.4g} {unit}"
    return show(figure, unit, _DIGITS.get(unit, 2))


def limit_words(check: Check) -> str:
    """What a check holds against what; empty while one of the two is not known."""
    if check.demand is None or check.allowable is None:
        return ""
    demand, allowable = in_words(check.demand), in_words(check.allowable)
    return f"{allowable}, {demand} asked" if check.at_least else f"{demand} of {allowable}"


_WORDS = {
    Verdict.WITHIN: "OK",
    Verdict.CAUTION: "caution",
    Verdict.STOP: "STOP",
    Verdict.UNKNOWN: "can't say",
}


def word_of(verdict: Verdict) -> str:
    """The word that people read for a verdict; documents and logs hold its code."""
    return _WORDS[verdict]


def check_words(check: Check) -> str:
    """A check in one line: its word, its figures, what governs, what it lacks."""
    lacks = f"needs {', '.join(check.missing)}" if check.missing else ""
    words = (word_of(check.verdict), limit_words(check), check.governs, lacks)
    return "; ".join(word for word in words if word)


def out_words(now: Moment) -> str:
    """How much of the string is out, or in while it goes in."""
    if now.planned:
        return PLANNED
    if not now.has_load:
        return idle_words(now)
    if now.footage_out is not None:
        whole = now.record.hose_ft
        out = magnitude(now.footage_out, "ft", "footage")
        moved, way = (whole - out, "in") if now.counted_in else (out, "out")
        return f"{moved:z,.0f} of {whole:,.0f} ft of hose {way}"
    joints = len(now.record.joint_ends)
    if now.counted_in:
        return f"{joints - now.joints_out} of {joints} joints in"
    return f"{now.joints_out} of {joints} joints out"


def shortened(name: str, room: int) -> str:
    """A name in so many cells: what it is gives way, never the number of which one it is."""
    if len(name) <= room:
        return name
    make, comma, where = name.rpartition(", ")
    kept = room - len(comma) - len(where) - 1
    return f"{make[:kept]}.{comma}{where}" if comma and kept > 0 else f"{name[: room - 1]}."


def most_loaded(links: Iterable[Link]) -> list[Check]:
    """Of like joints only the one that is loaded most; every other link by itself."""
    shown: dict[tuple[str, object, tuple[str, ...]], Check] = {}
    for link in links:
        check = link.check
        key = (check.governs.rstrip("0123456789"), str(check.allowable), check.missing)
        if key not in shown or (check.share or 0.0) > (shown[key].share or 0.0):
            shown[key] = check
    return list(shown.values())
