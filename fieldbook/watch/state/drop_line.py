"""One kind of drop line as recorded: what a foot of it weighs and holds, and what it may carry."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

from calc.drop_line.material import material
from calc.drop_line.pipe import PipeSize, plain_end_weight, pvc_pipe, steel_pipe
from calc.drop_line.stretch import axial_stiffness
from calc.errors import OutOfRange
from calc.hydraulics.pressure import wave_speed
from calc.units import as_force_per_length, magnitude, quantity
from fieldbook.watch.state.couplings import SOURCE as COUPLINGS
from fieldbook.watch.state.couplings import usual_coupling
from fieldbook.watch.state.facts import of_entry
from fieldbook.watch.state.ratings import (
    Rating,
    hose_tension,
    label,
    lacking,
    makers_rating,
    plastic_pressure,
    plastic_tension,
    sheet_rating,
    steel_pressure,
    steel_tension,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.units import Quantity
    from fieldbook.record.entry import Entry

    _SizeOf = Callable[[str, str], PipeSize]

STEEL_LB_FT3 = 489.6
_WATER_LB_FT3 = 62.4  # specific gravities are stated against common water
_PVC_GRAVITY = 1.40  # cell class 12454
OPEN_WATER = quantity(4720.0, "ft/s")
"""Speed of a pressure wave in water without walls: Buried Pipe Design. No wall makes it faster."""
BULK_MODULUS = quantity(300_000.0, "psi")
"""Of water, as it goes with that speed."""


@dataclass(frozen=True, slots=True)
class DropLine:
    """A drop line of one kind and size.

    Attributes:
        weight: In air, empty, a foot, lbf; with its couplings where a standard's weight has them.
        density: Of its material, lb/ft3.
        bore_area: Section that holds water, swollen for hose.
        outside_area: Within its outer surface.
        tension: Of its weakest section.
        pressure: That it withstands in service at the water's temperature.
        sources: Where figures that nobody typed come from.
        flow_area: Narrowest section that the water runs through.
        stiffness: Force that would stretch it by its own length; None where its sheet has none.
        wave_speed: Of a pressure wave in it; None where nothing says how its wall gives.
        coupling: Of one coupling, lbf, where neither anybody nor the weight of the pipe says it.
    """

    weight: float
    density: float
    bore_area: Quantity
    outside_area: Quantity
    flow_area: Quantity
    tension: Rating
    pressure: Rating
    sources: tuple[str, ...] = ()
    stiffness: Quantity | None = None
    wave_speed: Quantity | None = None
    coupling: float = 0.0


@dataclass(frozen=True, slots=True)
class Lacking:
    """A drop line that cannot be described yet, and what is missing for it."""

    missing: tuple[str, ...]


def line_of(
    entry: Entry,
    job_line: str,
    water_temperature: Quantity | None,
    *,
    found_wall: Quantity | None = None,
    sheet_wave: Quantity | None = None,
) -> DropLine | Lacking:
    """The drop line that a `piece` entry describes.

    Args:
        entry: A joint, pup or hose.
        job_line: The job's drop line, where the piece does not name its own.
        water_temperature: Of the water pumped, for what plastic withstands; None when not known.
        found_wall: The thinnest wall that a finding says of it; None where none does.
        sheet_wave: Speed of a pressure wave by the sheet of the whole hose.
    """
    walls = [wall for wall in (of_entry(entry, "least_wall"), found_wall) if wall is not None]
    wall = min(walls, default=None)
    match entry.text("line") or job_line:
        case "hose":
            return _hose(entry, sheet_wave)
        case "steel" if {"pipe_outside", "pipe_wall"} & set(entry.values):
            return _steel_by_wall(entry, wall)
        case "steel":
            return _pipe(entry, steel_pipe, None, wall)
        case "pvc":
            return _pipe(entry, pvc_pipe, water_temperature, wall)
        case _:
            return Lacking((label("line"),))


def _hose(entry: Entry, sheet_wave: Quantity | None) -> DropLine | Lacking:
    needed = ("hose_bore", "hose_swell", "line_weight", "hose_density")
    if missing := lacking(entry, *needed):
        return Lacking(missing)
    bore, swell, weight, gravity = (of_entry(entry, name) for name in needed)
    assert bore is not None
    assert swell is not None
    assert weight is not None
    assert gravity is not None
    per_foot = as_force_per_length(weight, "hose weight")
    density = magnitude(gravity, "dimensionless", "hose specific gravity", above=0.0)
    density *= _WATER_LB_FT3
    round_in = magnitude(bore, "in", "hose bore", above=0.0)
    bore_in = round_in * (1.0 + magnitude(swell, "dimensionless", "swell"))
    bore_in2 = pi / 4.0 * bore_in**2
    return DropLine(
        weight=per_foot,
        density=density,
        bore_area=quantity(bore_in2, "in**2"),
        outside_area=quantity(bore_in2 + per_foot / density * 144.0, "in**2"),
        flow_area=quantity(pi / 4.0 * round_in**2, "in**2"),
        tension=hose_tension(entry),
        pressure=sheet_rating(entry, "pressure_rating", "hose working pressure")
        or Rating(None, "hose working pressure", missing=(label("pressure_rating"),)),
        wave_speed=stated if (stated := of_entry(entry, "wave_speed")) is not None else sheet_wave,
    )


def _pipe(
    entry: Entry, size_of: _SizeOf, water_temperature: Quantity | None, wall: Quantity | None
) -> DropLine | Lacking:
    if missing := lacking(entry, "nps", "schedule"):
        return Lacking(missing)
    try:
        size = size_of(entry.text("nps"), entry.text("schedule"))
    except OutOfRange as error:
        return Lacking((f"a size that the pipe table holds ({error})",))
    typed = of_entry(entry, "line_weight")
    # The table's threaded-and-coupled weight has the couplings in it already.
    bare = "coupling_weight" not in entry.values
    coupled = size.threaded_coupled_weight if bare and typed is None else None
    coupling = usual_coupling(size.nps) if bare and coupled is None else 0.0
    if coupling is None:
        return Lacking((label("coupling_weight"),))
    table_weight = coupled if coupled is not None else size.weight_per_length
    steel = size.material == "steel"
    modulus = material("steel" if steel else "PVC").modulus
    narrowest = min(size.inside_diameter, size.average_inside_diameter)
    return DropLine(
        weight=as_force_per_length(typed if typed is not None else table_weight, "pipe weight"),
        density=STEEL_LB_FT3 if steel else _PVC_GRAVITY * _WATER_LB_FT3,
        bore_area=size.bore_area,
        outside_area=size.outside_area,
        flow_area=quantity(pi / 4.0 * magnitude(narrowest, "in", "bore") ** 2, "in**2"),
        tension=steel_tension(entry, size, wall)
        if steel
        else plastic_tension(entry, size, water_temperature, wall),
        pressure=steel_pressure(entry, size, wall)
        if steel
        else plastic_pressure(entry, size, water_temperature, wall),
        stiffness=axial_stiffness(area=size.metal_area, modulus=modulus),
        wave_speed=_wave_speed(size.inside_diameter, size.wall, modulus),
        coupling=coupling,
        sources=(
            *(() if typed is not None else (f"pipe weight: {_weight_source(size, coupled)}",)),
            *((f"couplings: {coupling:g} lbf each, {COUPLINGS}",) if coupling else ()),
        ),
    )


def _steel_by_wall(entry: Entry, least_wall: Quantity | None) -> DropLine | Lacking:
    """Steel pipe of no schedule: weighed by its diameter and wall, rated by its maker alone."""
    if missing := lacking(entry, "pipe_outside", "pipe_wall", "coupling_weight"):
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
    bore, modulus = quantity(across - 2.0 * thick, "in"), material("steel").modulus
    bore_area = quantity(pi / 4.0 * magnitude(bore, "in", "bore") ** 2, "in**2")
    metal = quantity(pi * (across - thick) * thick, "in**2")
    rated_wall = (wall, least_wall)
    return DropLine(
        weight=as_force_per_length(typed if typed is not None else plain, "pipe weight"),
        density=STEEL_LB_FT3,
        bore_area=bore_area,
        outside_area=quantity(pi / 4.0 * across**2, "in**2"),
        flow_area=bore_area,
        tension=makers_rating(entry, "tension_rating", "joint of no schedule", *rated_wall),
        pressure=makers_rating(entry, "pressure_rating", "pipe of no schedule", *rated_wall),
        stiffness=axial_stiffness(area=metal, modulus=modulus),
        wave_speed=_wave_speed(bore, wall, modulus),
        sources=() if typed is not None else ("pipe weight: 10.68 (D - t) t, ASME B36.10M",),
    )


def _wave_speed(bore: Quantity, wall: Quantity, modulus: Quantity) -> Quantity:
    return wave_speed(
        open_water=OPEN_WATER,
        bulk_modulus=BULK_MODULUS,
        diameter=bore,
        wall=wall,
        elastic_modulus=modulus,
    )


def _weight_source(size: PipeSize, coupled: Quantity | None) -> str:
    if coupled is not None:
        return "ASTM A53 Table X2.3, threaded and coupled"
    return size.weight_source
