"""NPT pipe threads: what they swallow at make-up, and the metal left under them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import pi
from typing import TYPE_CHECKING

from calc import table
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.drop_line.pipe import PipeSize
    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Thread:
    """One size of NPT thread, ASME B1.20.1.

    Attributes:
        nps: Nominal pipe size.
        threads_per_inch: n.
        depth: Height of the thread at its sharpest, h = 0.8/n.
        hand_tight: Length of hand-tight engagement, L1.
        effective: Length of effective thread, L2.
        pitch_diameter: At the end of L1, E1.
        wrench_threads: Threads of wrench make-up past hand-tight.
    """

    nps: str
    threads_per_inch: float
    depth: Quantity
    hand_tight: Quantity
    effective: Quantity
    pitch_diameter: Quantity
    wrench_threads: float


@cache
def npt(nps: str) -> Thread:
    """The NPT thread of a nominal pipe size.

    Source: ASME B1.20.1.

    Raises:
        OutOfRange: The table has no such size.

    >>> npt("2").pitch_diameter.m_as("in")
    2.29627
    """
    for row in table.rows("npt"):
        if row["nps"] == nps:
            pitch = float(row["threads_per_inch"])
            return Thread(
                nps=nps,
                threads_per_inch=pitch,
                depth=quantity(0.8 / pitch, "in"),
                hand_tight=quantity(float(row["L1[in]"]), "in"),
                effective=quantity(float(row["L2[in]"]), "in"),
                pitch_diameter=quantity(float(row["E1[in]"]), "in"),
                wrench_threads=float(row["wrench_threads"]),
            )
    raise OutOfRange(f"the table has no NPT thread of size {nps}")


def pitch_diameter_at_gauge(*, outside_diameter: Quantity, threads_per_inch: float) -> Quantity:
    """Pitch diameter at the small end of the external thread, E0 = D - (0.05 D + 1.1)/n.

    Raises:
        OutOfRange: A value is not more than zero.

    Source: ASME B1.20.1; from memory, and it reproduces every printed E1 with E1 = E0 + L1/16.
    """
    outside = magnitude(outside_diameter, "in", "outside diameter", above=0.0)
    if not threads_per_inch > 0.0:
        raise OutOfRange(f"{threads_per_inch:g} threads per inch; it must be more than zero")
    return quantity(outside - (0.05 * outside + 1.1) / threads_per_inch, "in")


def effective_length(*, outside_diameter: Quantity, threads_per_inch: float) -> Quantity:
    """Length of effective external thread, L2 = (0.80 D + 6.8)/n.

    Raises:
        OutOfRange: A value is not more than zero.

    Source: ASME B1.20.1; from memory, and it reproduces every printed L2.
    """
    outside = magnitude(outside_diameter, "in", "outside diameter", above=0.0)
    if not threads_per_inch > 0.0:
        raise OutOfRange(f"{threads_per_inch:g} threads per inch; it must be more than zero")
    return quantity((0.80 * outside + 6.8) / threads_per_inch, "in")


def makeup_length(nps: str) -> Quantity:
    """Length of thread a coupling swallows: hand-tight L1 and the wrench turns after it.

    Raises:
        OutOfRange: The table has no such size.

    Source: ASME B1.20.1; the wrench turns from memory. Trade figures lie within 1/8 in.
    """
    thread = npt(nps)
    hand_tight = magnitude(thread.hand_tight, "in", "hand-tight length")
    return quantity(hand_tight + thread.wrench_threads / thread.threads_per_inch, "in")


def _root_and_bore(size: PipeSize, wall: Quantity | None) -> tuple[float, float]:
    least = magnitude(size.minimum_wall, "in", "minimum wall")
    if wall is not None:
        least = min(least, magnitude(wall, "in", "measured wall", above=0.0))
    thread = npt(size.nps)
    root = magnitude(thread.pitch_diameter, "in", "E1") - magnitude(thread.depth, "in", "h")
    bore = magnitude(size.outside_diameter, "in", "outside diameter") - 2.0 * least
    if root <= bore:
        raise OutOfRange(f"a thread on NPS {size.nps} leaves no metal on a wall of {least:.3f} in")
    return root, bore


def root_area(size: PipeSize, *, wall: Quantity | None = None) -> Quantity:
    """Metal left under the NPT thread, at the plane of E1, root diameter E1 - h.

    The wall is the lower of the least the standard allows (steel: 0.875 of nominal; PVC: the
    printed minimum) and the measured one. Loss is taken from the bore outward.

    On steel that is less than any of the common choices on the nominal wall: D - 2h, E1 - h, and
    E0 - h at the first thread.

    Args:
        size: The pipe.
        wall: The thinnest measured wall; None when it was not measured.

    Raises:
        OutOfRange: No NPT thread of that size, the measured wall is not more than zero, or the
            thread cuts through it.

    Source: ASME B1.20.1 dimensions; no standard rates these threads in tension.
    """
    root, bore = _root_and_bore(size, wall)
    return quantity(pi / 4.0 * (root**2 - bore**2), "in**2")


def root_wall(size: PipeSize, *, wall: Quantity | None = None) -> Quantity:
    """Thickness left under the NPT thread, on the plane and wall of `root_area`.

    With `pipe.barlow_pressure` it gives the pressure of worn threaded steel.

    Source: ASME B1.20.1 dimensions; no standard rates it in tension.

    Raises:
        OutOfRange: As `root_area`.
    """
    root, bore = _root_and_bore(size, wall)
    return quantity((root - bore) / 2.0, "in")


def ring_area(*, root_diameter: Quantity, bore: Quantity) -> Quantity:
    """Area of metal between a thread root and a bore.

    Raises:
        OutOfRange: The bore is not more than zero, or the root is not larger than it.

    Source: API Bul 5C3, non-upset tubing joint strength: Yp (pi/4) ((D - 2h)^2 - d^2).
    """
    inside = magnitude(bore, "in", "bore", above=0.0)
    root = magnitude(root_diameter, "in", "root diameter", above=inside)
    return quantity(pi / 4.0 * (root**2 - inside**2), "in**2")


def thread_tension(*, area: Quantity, stress: Quantity, design_factor: float) -> Quantity:
    """Tension a thread root may carry: area x stress / design factor.

    Source: API Bul 5C3, non-upset tubing, values from memory.

    Args:
        area: Metal under the thread.
        stress: The stress the caller takes as the limit, such as the minimum yield.
        design_factor: What the caller divides by, 1 or more.

    Raises:
        OutOfRange: Area or stress is not more than zero, or the factor is less than 1.
    """
    if not design_factor >= 1.0:
        raise OutOfRange(f"the design factor is {design_factor:g}; it must be 1 or more")
    metal = magnitude(area, "in**2", "thread root area", above=0.0)
    return quantity(metal * magnitude(stress, "psi", "stress", above=0.0) / design_factor, "lbf")
