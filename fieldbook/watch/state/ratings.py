"""What a drop line may carry and stand: the least of its sheet, its thread and its wall."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from calc.drop_line.material import a53_grade
from calc.drop_line.pipe import barlow_pressure, pvc_derating, threaded_rating
from calc.drop_line.threads import npt, root_area, thread_tension
from calc.errors import OutOfRange
from calc.units import magnitude, quantity
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.watch.state.facts import of_entry

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.drop_line.pipe import PipeSize
    from calc.units import Quantity
    from fieldbook.record.entry import Entry

LEAST_THREAD_FACTOR = 2.0
"""Least design factor of a thread: common practice, no published source. At 1 a thread yields."""
_LEAST_OF_NOMINAL = 0.875  # the least wall that ASTM A53 lets a mill ship
_NO_METAL = "no metal is left under the thread"
_COLDEST, _HOTTEST = quantity(32.0, "degF"), quantity(140.0, "degF")  # of the derating table
_THREADED = ("80", "120")  # ASTM D1785: lighter pipe has no rating when threaded


@dataclass(frozen=True, slots=True)
class Rating:
    """What a section may carry or stand, or what is missing to know it."""

    allowable: Quantity | None
    of: str
    source: str = ""
    missing: tuple[str, ...] = ()


def label(name: str) -> str:
    """What a figure is called within a sentence."""
    return within(definition(name).label)


def lacking(entry: Entry, *names: str) -> tuple[str, ...]:
    """The labels of what an entry does not say."""
    return tuple(label(name) for name in names if name not in entry.values)


def sheet_rating(entry: Entry, name: str, of: str) -> Rating | None:
    """A rating as it was typed; None where it was not."""
    typed = of_entry(entry, name)
    if typed is None:
        return None
    return Rating(typed, of, str(entry.values[name].origin))


def makers_rating(
    entry: Entry, name: str, of: str, made: Quantity, least_wall: Quantity | None
) -> Rating:
    """A typed rating; of a wall measured under what is allowed as made, it is none any more."""
    rating = sheet_rating(entry, name, of) or Rating(None, of, missing=(label(name),))
    if least_wall is None or least_wall >= made * _LEAST_OF_NOMINAL:
        return rating
    return replace(rating, missing=(f"{label(name)} on the wall measured",))


def least(ratings: Sequence[Rating], unit: str, *, missing: tuple[str, ...] = ()) -> Rating:
    """The lowest of the ratings that are known, with whatever any of them lacks.

    Args:
        ratings: At least one.
        unit: Of what they say.
        missing: What else is missing.
    """
    lacks = tuple(dict.fromkeys((*missing, *(m for rating in ratings for m in rating.missing))))
    known = [
        (magnitude(rating.allowable, unit, rating.of), at)
        for at, rating in enumerate(ratings)
        if rating.allowable is not None
    ]
    lowest = ratings[min(known)[1]] if known else ratings[0]
    return replace(lowest, missing=lacks)


def floored(factor: float, floor: float, name: str) -> tuple[float, tuple[str, ...]]:
    """A design factor no lower than its floor, and what is missing where it was lower.

    A factor under the floor never passes a load. What it would allow is still held against the
    floor, so that a load over that is known to be too much.
    """
    if factor >= floor:
        return factor, ()
    return floor, (f"{name} of {floor:g} or more ({factor:g} leaves too little)",)


def hose_tension(entry: Entry) -> Rating:
    """The hose and its end fittings, the weaker of the two."""
    known = [
        rating
        for name, of in (("tension_rating", "hose"), ("fitting_rating", "end fitting"))
        if (rating := sheet_rating(entry, name, of)) is not None
    ]
    missing = lacking(entry, "tension_rating", "fitting_rating")
    return least(known or [Rating(None, "hose")], "lbf", missing=missing)


def steel_tension(entry: Entry, size: PipeSize, wall: Quantity | None) -> Rating:
    """The thread root on the least wall; a typed rating counts where it is lower still."""
    of = "thread root"
    typed = sheet_rating(entry, "tension_rating", of)
    return least([_thread(entry, size, wall, of), *([typed] if typed else [])], "lbf")


def _thread(entry: Entry, size: PipeSize, wall: Quantity | None, of: str) -> Rating:
    factor = of_entry(entry, "thread_design_factor")
    if factor is None or "steel_grade" not in entry.values:
        return Rating(None, of, missing=lacking(entry, "steel_grade", "thread_design_factor"))
    grade = a53_grade(entry.text("steel_grade"))
    divided, low = _divided(factor)
    try:
        area = root_area(size, wall=wall)
    except OutOfRange:
        return Rating(quantity(0.0, "lbf"), of, _NO_METAL)
    allowable = thread_tension(area=area, stress=grade.yield_strength, design_factor=divided)
    walled = "measured wall" if wall is not None else "least wall ASTM A53 allows"
    source = f"yield of grade {grade.name} / {divided:g} on E1 - h, {walled}; your design factor"
    return Rating(allowable, of, source, low)


def _divided(factor: Quantity) -> tuple[float, tuple[str, ...]]:
    plain = magnitude(factor, "dimensionless", "thread design factor")
    return floored(plain, LEAST_THREAD_FACTOR, label("thread_design_factor"))


def steel_pressure(entry: Entry, size: PipeSize, wall: Quantity | None) -> Rating:
    """Barlow on the wall under the thread; a typed rating counts where it is lower still."""
    typed = sheet_rating(entry, "pressure_rating", "pipe")
    barlow = _under_thread(entry, size, wall)
    return least([barlow, *([typed] if typed else [])], "psi")


def _under_thread(entry: Entry, size: PipeSize, wall: Quantity | None) -> Rating:
    of = "wall under the thread"
    factor = of_entry(entry, "thread_design_factor")
    if factor is None or "steel_grade" not in entry.values:
        return Rating(None, of, missing=lacking(entry, "steel_grade", "thread_design_factor"))
    grade = a53_grade(entry.text("steel_grade"))
    divided, low = _divided(factor)
    thinnest = magnitude(size.minimum_wall, "in", "wall")
    if wall is not None:  # one good spot says nothing of the rest: a thicker one does not rule
        thinnest = min(thinnest, magnitude(wall, "in", "wall"))
    under = thinnest - magnitude(npt(size.nps).depth, "in", "thread depth")
    if under <= 0.0:
        return Rating(quantity(0.0, "psi"), of, _NO_METAL)
    allowable = barlow_pressure(
        stress=grade.yield_strength / divided,
        wall=quantity(under, "in"),
        outside_diameter=size.outside_diameter,
    )
    return Rating(allowable, of, f"Barlow, yield of grade {grade.name} / {divided:g}", low)


def plastic_tension(
    entry: Entry, size: PipeSize, temperature: Quantity | None, wall: Quantity | None
) -> Rating:
    """The sheet's working tensile load at the water's temperature.

    No standard rates a threaded PVC joint in tension, so there is no figure without a sheet.

    Source: the allowable working stress of PVC printed for pipe that its own expansion pulls and
    bends, 2,000, 1,240 and 440 psi at 73, 100 and 140 F (Engineering ToolBox, PVC expansion
    loops), falls as the hoop rating does: Machinery's Handbook 31st ed. Table 14.
    """
    of = "threaded joint"
    typed = sheet_rating(entry, "tension_rating", of)
    if typed is None:
        typed = Rating(None, of, missing=(label("tension_rating"),))
    return _warmed(typed, temperature, "lbf", _unfit(size, wall))


def plastic_pressure(
    entry: Entry, size: PipeSize, temperature: Quantity | None, wall: Quantity | None
) -> Rating:
    """The lower of the sheet's and the threaded rating of ASTM D1785, both at 73 F, derated."""
    of = "threaded pipe"
    found = [] if (typed := sheet_rating(entry, "pressure_rating", of)) is None else [typed]
    if size.schedule in _THREADED:
        found.append(Rating(threaded_rating(size), of, "ASTM D1785 threaded"))
    cold = least(found or [Rating(None, of)], "psi")
    return _warmed(cold, temperature, "psi", _unfit(size, wall))


def _unfit(size: PipeSize, wall: Quantity | None) -> tuple[str, ...]:
    """Why nothing that a sheet says of sound pipe counts for this one."""
    lacks = []
    if size.schedule not in _THREADED:
        lacks.append(
            f"a rating: PVC of schedule {size.schedule} has no rating when threaded (ASTM D1785)"
        )
    if wall is not None and wall < size.minimum_wall:
        thin, standard = (magnitude(w, "in", "wall") for w in (wall, size.minimum_wall))
        lacks.append(f"a rating for a wall of {thin:g} in, under the {standard:g} in of ASTM D1785")
    return tuple(lacks)


def _warmed(
    cold: Rating, temperature: Quantity | None, unit: str, missing: tuple[str, ...]
) -> Rating:
    """A rating at 73 F brought to the water's temperature."""
    lacks = (*missing, *cold.missing)
    if temperature is None:
        return replace(cold, missing=(*lacks, label("water_temperature")))
    try:
        share = pvc_derating(temperature)
    except OutOfRange as error:  # what is left at the end of the table is the most it may be
        lacks = (*lacks, f"a rating: {error}")
        share = pvc_derating(min(max(temperature, _COLDEST), _HOTTEST))
    if cold.allowable is None or share >= 1.0:
        return replace(cold, missing=lacks)
    rated = magnitude(cold.allowable, unit, cold.of) * share
    source = f"{cold.source}, derated for temperature"
    return replace(cold, allowable=quantity(rated, unit), source=source, missing=lacks)
