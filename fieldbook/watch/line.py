"""One kind of drop line as recorded: what a foot of it weighs and holds, and what it may carry."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import pi
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.material import a53_grade, material
from calc.pipe import (
    PipeSize,
    barlow_pressure,
    derated,
    plain_end_weight,
    pvc_pipe,
    steel_pipe,
    threaded_rating,
)
from calc.stretch import axial_stiffness
from calc.threads import npt, root_area, thread_tension
from calc.units import as_force_per_length, magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.facts import of_entry

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.units import Quantity
    from fieldbook.record.entry import Entry

    _SizeOf = Callable[[str, str], PipeSize]

STEEL_LB_FT3 = 489.6
_LEAST_OF_NOMINAL = 0.875  # the least wall that ASTM A53 lets a mill ship
_WATER_LB_FT3 = 62.4  # specific gravities are stated against common water
_PVC_GRAVITY = 1.40  # cell class 12454


@dataclass(frozen=True, slots=True)
class Rating:
    """What a section may carry or stand, or what is missing to know it."""

    allowable: Quantity | None
    of: str
    source: str = ""
    missing: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """A drop line of one kind and size.

    Attributes:
        weight: In air, empty, a foot, lbf; with its couplings where nobody typed their weight.
        density: Of its material, lb/ft3.
        bore_area: Section that holds water, swollen for hose.
        outside_area: Within its outer surface.
        tension: Of its weakest section.
        pressure: That it stands in service at the water's temperature.
        sources: Where figures that nobody typed come from.
        stiffness: Force that would stretch it by its own length; None where its sheet has none.
    """

    weight: float
    density: float
    bore_area: Quantity
    outside_area: Quantity
    tension: Rating
    pressure: Rating
    sources: tuple[str, ...] = ()
    stiffness: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Lacking:
    """A drop line that cannot be described yet, and what is missing for it."""

    missing: tuple[str, ...]


def line_of(entry: Entry, job_line: str, water_temperature: Quantity | None) -> Line | Lacking:
    """The drop line that a `piece` entry describes.

    Args:
        entry: A joint, pup or hose.
        job_line: The job's drop line, where the piece does not name its own.
        water_temperature: Of the water pumped, for what plastic stands; None when not known.
    """
    match entry.text("line") or job_line:
        case "hose":
            return _hose(entry)
        case "steel" if {"pipe_outside", "pipe_wall"} & set(entry.values):
            return _steel_by_wall(entry)
        case "steel":
            return _pipe(entry, steel_pipe, None)
        case "pvc":
            return _pipe(entry, pvc_pipe, water_temperature)
        case _:
            return Lacking((_label("line"),))


def _label(name: str) -> str:
    return within(definition(name).label)


def _lacking(entry: Entry, *names: str) -> tuple[str, ...]:
    return tuple(_label(name) for name in names if name not in entry.values)


def _sheet_rating(entry: Entry, name: str, of: str) -> Rating | None:
    typed = of_entry(entry, name)
    if typed is None:
        return None
    return Rating(typed, of, str(entry.values[name].origin))


def _hose(entry: Entry) -> Line | Lacking:
    needed = ("hose_bore", "hose_swell", "line_weight", "hose_density")
    if missing := _lacking(entry, *needed):
        return Lacking(missing)
    bore, swell, weight, gravity = (of_entry(entry, name) for name in needed)
    assert bore is not None
    assert swell is not None
    assert weight is not None
    assert gravity is not None
    per_foot = as_force_per_length(weight, "hose weight")
    density = magnitude(gravity, "dimensionless", "hose specific gravity", above=0.0)
    density *= _WATER_LB_FT3
    bore_in = magnitude(bore, "in", "hose bore", above=0.0) * (
        1.0 + magnitude(swell, "dimensionless", "swell")
    )
    bore_in2 = pi / 4.0 * bore_in**2
    return Line(
        weight=per_foot,
        density=density,
        bore_area=quantity(bore_in2, "in**2"),
        outside_area=quantity(bore_in2 + per_foot / density * 144.0, "in**2"),
        tension=_hose_tension(entry),
        pressure=_sheet_rating(entry, "pressure_rating", "hose working pressure")
        or Rating(None, "hose working pressure", missing=(_label("pressure_rating"),)),
    )


def _hose_tension(entry: Entry) -> Rating:
    missing = _lacking(entry, "tension_rating", "fitting_rating")
    known = [
        rating
        for name, of in (("tension_rating", "hose"), ("fitting_rating", "end fitting"))
        if (rating := _sheet_rating(entry, name, of)) is not None
    ]
    if not known:
        return Rating(None, "hose", missing=missing)
    least = min(known, key=lambda rating: magnitude(_known(rating), "lbf", rating.of))
    return Rating(least.allowable, least.of, least.source, missing)


def _known(rating: Rating) -> Quantity:
    assert rating.allowable is not None
    return rating.allowable


def _pipe(entry: Entry, size_of: _SizeOf, water_temperature: Quantity | None) -> Line | Lacking:
    if missing := _lacking(entry, "nps", "schedule"):
        return Lacking(missing)
    try:
        size = size_of(entry.text("nps"), entry.text("schedule"))
    except OutOfRange as error:
        return Lacking((f"a size that the pipe table holds ({error})",))
    typed = of_entry(entry, "line_weight")
    # The table's threaded-and-coupled weight has the couplings in it already.
    coupled = size.threaded_coupled_weight if "coupling_weight" not in entry.values else None
    table_weight = coupled if coupled is not None else size.weight_per_length
    steel = size.material == "steel"
    return Line(
        weight=as_force_per_length(typed if typed is not None else table_weight, "pipe weight"),
        density=STEEL_LB_FT3 if steel else _PVC_GRAVITY * _WATER_LB_FT3,
        bore_area=size.bore_area,
        outside_area=size.outside_area,
        tension=_steel_tension(entry, size) if steel else _plastic_tension(entry),
        pressure=_steel_pressure(entry, size)
        if steel
        else _plastic_pressure(entry, size, water_temperature),
        stiffness=axial_stiffness(
            area=size.metal_area, modulus=material("steel" if steel else "PVC").modulus
        ),
        sources=() if typed is not None else (f"pipe weight: {_weight_source(size, coupled)}",),
    )


def _steel_by_wall(entry: Entry) -> Line | Lacking:
    """Steel pipe of no schedule: weighed by its diameter and wall, rated by its maker alone."""
    needed = ["pipe_outside", "pipe_wall"]
    needed += [] if "line_weight" in entry.values else ["coupling_weight"]
    if missing := _lacking(entry, *needed):
        return Lacking(missing)
    outside, wall, typed = (
        of_entry(entry, n) for n in ("pipe_outside", "pipe_wall", "line_weight")
    )
    assert outside is not None
    assert wall is not None
    try:
        plain = plain_end_weight(outside_diameter=outside, wall=wall)
    except OutOfRange:
        return Lacking(("a wall that leaves a bore in the pipe",))
    across, thick = (magnitude(each, "in", "pipe") for each in (outside, wall))
    return Line(
        weight=as_force_per_length(typed if typed is not None else plain, "pipe weight"),
        density=STEEL_LB_FT3,
        bore_area=quantity(pi / 4.0 * (across - 2.0 * thick) ** 2, "in**2"),
        outside_area=quantity(pi / 4.0 * across**2, "in**2"),
        tension=_by_maker(entry, "tension_rating", "joint of no schedule"),
        pressure=_by_maker(entry, "pressure_rating", "pipe of no schedule"),
        stiffness=axial_stiffness(
            area=quantity(pi * (across - thick) * thick, "in**2"), modulus=material("steel").modulus
        ),
        sources=() if typed is not None else ("pipe weight: 10.68 (D - t) t, ASME B36.10M",),
    )


def _by_maker(entry: Entry, name: str, of: str) -> Rating:
    """A typed rating; of a wall measured under what is allowed as made, it is none any more."""
    rating = _sheet_rating(entry, name, of) or Rating(None, of, missing=(_label(name),))
    made, least = of_entry(entry, "pipe_wall"), of_entry(entry, "least_wall")
    if made is None or least is None or least >= made * _LEAST_OF_NOMINAL:
        return rating
    return replace(rating, missing=(f"{_label(name)} on the wall measured",))


def _weight_source(size: PipeSize, coupled: Quantity | None) -> str:
    if coupled is not None:
        return "ASTM A53 Table X2.3, threaded and coupled"
    return size.weight_source


def _steel_tension(entry: Entry, size: PipeSize) -> Rating:
    of = "thread root"
    if (typed := _sheet_rating(entry, "tension_rating", of)) is not None:
        return typed
    factor = of_entry(entry, "thread_design_factor")
    if factor is None or "steel_grade" not in entry.values:
        return Rating(None, of, missing=_lacking(entry, "steel_grade", "thread_design_factor"))
    grade = a53_grade(entry.text("steel_grade"))
    divided = magnitude(factor, "dimensionless", "thread design factor")
    wall = of_entry(entry, "least_wall")
    try:
        area = root_area(size, wall=wall)
    except OutOfRange:
        return Rating(None, of, missing=("a wall that leaves metal under the thread",))
    allowable = thread_tension(area=area, stress=grade.yield_strength, design_factor=divided)
    walled = "measured wall" if wall is not None else "least wall ASTM A53 allows"
    source = f"yield of grade {grade.name} / {divided:g} on E1 - h, {walled}; your design factor"
    return Rating(allowable, of, source)


def _steel_pressure(entry: Entry, size: PipeSize) -> Rating:
    of = "wall under the thread"
    if (typed := _sheet_rating(entry, "pressure_rating", "pipe")) is not None:
        return typed
    factor = of_entry(entry, "thread_design_factor")
    if factor is None or "steel_grade" not in entry.values:
        return Rating(None, of, missing=_lacking(entry, "steel_grade", "thread_design_factor"))
    grade = a53_grade(entry.text("steel_grade"))
    divided = magnitude(factor, "dimensionless", "thread design factor")
    wall = of_entry(entry, "least_wall")
    least = magnitude(size.minimum_wall, "in", "wall")
    if wall is not None:  # one good spot says nothing of the rest: a thicker one does not rule
        least = min(least, magnitude(wall, "in", "wall"))
    under = least - magnitude(npt(size.nps).depth, "in", "thread depth")
    if under <= 0.0:
        return Rating(None, of, missing=("a wall that leaves metal under the thread",))
    allowable = barlow_pressure(
        stress=grade.yield_strength / divided,
        wall=quantity(under, "in"),
        outside_diameter=size.outside_diameter,
    )
    return Rating(allowable, of, f"Barlow, yield of grade {grade.name} / {divided:g}")


def _plastic_tension(entry: Entry) -> Rating:
    of = "threaded joint"
    return _sheet_rating(entry, "tension_rating", of) or Rating(
        None, of, missing=(_label("tension_rating"),)
    )


def _plastic_pressure(entry: Entry, size: PipeSize, temperature: Quantity | None) -> Rating:
    of = "threaded pipe"
    if (typed := _sheet_rating(entry, "pressure_rating", of)) is not None:
        return typed
    if temperature is None:
        return Rating(None, of, missing=(_label("water_temperature"),))
    try:
        allowable = derated(rating=threaded_rating(size), temperature=temperature)
    except OutOfRange as error:
        return Rating(None, of, missing=(f"a rating: {error}",))
    return Rating(allowable, of, "ASTM D1785 threaded, derated for temperature")
