"""The lift path above the hook: parts of line, sheaves, mast, anchors and the jerk of a pick-up."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import inf, radians, sin
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import as_force, magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Sequence

    from calc.units import Quantity

ROLLER_BEARING = 1.04
"""Sheave factor K of roller-bearing sheaves, API RP 9B."""
PLAIN_BEARING = 1.09
"""Sheave factor K of plain-bearing sheaves, Wire Rope Users Manual 4th ed. p. 88."""


class Motion(StrEnum):
    """Which way the load travels; friction helps or hinders accordingly."""

    STATIC = "static"
    HOISTING = "hoisting"
    LOWERING = "lowering"


@dataclass(frozen=True, slots=True)
class Reeving:
    """How the line is rove between drum and load.

    Attributes:
        parts: Parts of line that carry the travelling block, N.
        sheave_factor: K, the ratio of line pulls across one turning sheave, 1 for none; None when
            it is not known.
        lead_sheaves: Turning sheaves between the crown and the drum, beyond the N of the tackle.
        dead_end_at_ground: The deadline runs over the crown and is tied off below, so that its
            pull comes down the mast too.

    Raises:
        OutOfRange: No part, a factor below 1 or not finite, or a negative number of sheaves.
    """

    parts: int
    sheave_factor: float | None
    lead_sheaves: int = 0
    dead_end_at_ground: bool = False

    def __post_init__(self) -> None:
        if self.parts < 1:
            raise OutOfRange(f"{self.parts} parts of line; there is at least one")
        if self.lead_sheaves < 0:
            raise OutOfRange(f"{self.lead_sheaves} lead sheaves; there cannot be fewer than none")
        if self.sheave_factor is not None and not 1.0 <= self.sheave_factor < inf:
            raise OutOfRange(f"the sheave factor is {self.sheave_factor:g}; it is 1 or more")

    @property
    def sheaves(self) -> int:
        """Turning sheaves from the dead end to the drum, S."""
        return self.parts + self.lead_sheaves


def line_factors(reeving: Reeving, ratio: float) -> tuple[float, float]:
    """(dead line, fast line) pull per unit of hook load.

    Args:
        reeving: How the line is rove.
        ratio: Pull ratio across a sheave toward the drum: K hoisting, 1/K lowering.

    Source: each sheave multiplies the pull by K, and the N parts together carry the load
    (API RP 9B; Wire Rope Users Manual 4th ed. pp. 86-88).
    """
    dead = 1.0 / sum(ratio**part for part in range(reeving.parts))
    return dead, dead * ratio**reeving.sheaves


def pull_ratio(factor: float | None, moving: Motion) -> float:
    """Ratio of line pulls across one sheave toward the drum; 1 when nothing moves.

    Source: API RP 9B 14th ed. Addendum 1.

    Raises:
        OutOfRange: The line moves and the sheave factor is not known.
    """
    if moving is Motion.STATIC:
        return 1.0
    if factor is None:
        raise OutOfRange("the sheave factor is not known; a moving line's pull needs it")
    return factor if moving is Motion.HOISTING else 1.0 / factor


def efficiency(reeving: Reeving) -> float:
    """Share of the drum's work that reaches the load: (K^N - 1) / (K^S N (K - 1)).

    Raises:
        OutOfRange: The sheave factor is not known.

    Source: API RP 9B; Wire Rope Users Manual 4th ed.

    >>> round(efficiency(Reeving(4, 1.09)), 3)
    0.81
    """
    return 1.0 / (
        reeving.parts * line_factors(reeving, pull_ratio(reeving.sheave_factor, Motion.HOISTING))[1]
    )


def line_pull(load: Quantity, *, reeving: Reeving, moving: Motion) -> Quantity:
    """Pull in the fast line, at the drum, under a hook load.

    Static is load / parts, as without friction; a line that has just stopped may hold anything
    from the lowering to the hoisting pull.

    Source: API RP 9B 14th ed. Addendum 1; Wire Rope Users Manual 4th ed. pp. 86-88.

    Raises:
        OutOfRange: The load is negative, or the line moves and the sheave factor is not known.
    """
    weight = as_force(load, "hook load")
    return quantity(
        weight * line_factors(reeving, pull_ratio(reeving.sheave_factor, moving))[1], "lbf"
    )


def dead_line_pull(load: Quantity, *, reeving: Reeving, moving: Motion) -> Quantity:
    """Pull in the dead line under a hook load; least while hoisting.

    Source: API RP 9B 14th ed. Addendum 1.

    Raises:
        OutOfRange: As `line_pull`.
    """
    weight = as_force(load, "hook load")
    return quantity(
        weight * line_factors(reeving, pull_ratio(reeving.sheave_factor, moving))[0], "lbf"
    )


def mast_load(load: Quantity, *, reeving: Reeving, moving: Motion) -> Quantity:
    """What comes down the mast: the hook load, the fast line, and a dead line tied at the ground.

    Raises:
        OutOfRange: As `line_pull`.

    Source: statics of the crown, every line taken as vertical.
    """
    weight = as_force(load, "hook load")
    dead, fast = line_factors(reeving, pull_ratio(reeving.sheave_factor, moving))
    return quantity(weight * (1.0 + fast + (dead if reeving.dead_end_at_ground else 0.0)), "lbf")


def sheave_load(*, tension: Quantity, turn: Quantity) -> Quantity:
    """Load on a sheave, and on its anchor, that turns a rope: 2 T sin(turn / 2).

    Args:
        tension: Of the hauling side, the larger one.
        turn: Angle by which the rope changes direction; 180 degrees is turned back on itself.

    Raises:
        OutOfRange: A negative tension, or a turn outside 0 to 180 degrees.

    Source: statics.

    >>> sheave_load(tension=quantity(100, "lbf"), turn=quantity(180, "degree")).m_as("lbf")
    200.0
    """
    pull = as_force(tension, "tension of the hauling side")
    angle = magnitude(turn, "degree", "turn of the rope", at_least=0.0, at_most=180.0)
    return quantity(2.0 * pull * sin(radians(angle) / 2.0), "lbf")


@dataclass(frozen=True, slots=True)
class Redirect:
    """A sheave that turns the line on its way: its name, the turn, and its factor K."""

    name: str
    turn: Quantity
    sheave_factor: float


@dataclass(frozen=True, slots=True)
class RedirectLoad:
    """What one redirect sees: line in and out, and the load on sheave and anchor."""

    name: str
    load_side: Quantity
    hauling_side: Quantity
    anchor: Quantity


def redirect_chain(tension: Quantity, redirects: Sequence[Redirect]) -> list[RedirectLoad]:
    """The line over several redirect sheaves, from the load toward the hauling end, hoisting.

    Args:
        tension: Of the line that leaves the load.
        redirects: In the order the line meets them.

    Raises:
        OutOfRange: A negative tension, a factor below 1, a turn outside 0 to 180 degrees.

    Source: each sheave multiplies the pull by K (Wire Rope Users Manual 4th ed.); statics.
    """
    pull = quantity(as_force(tension, "line tension"), "lbf")
    loads: list[RedirectLoad] = []
    for redirect in redirects:
        if not 1.0 <= redirect.sheave_factor < inf:
            raise OutOfRange(f"the factor of {redirect.name} is {redirect.sheave_factor:g}")
        hauling = quantity(as_force(pull, "line tension") * redirect.sheave_factor, "lbf")
        anchor = sheave_load(tension=hauling, turn=redirect.turn)
        loads.append(RedirectLoad(redirect.name, pull, hauling, anchor))
        pull = hauling
    return loads


def navy_line_pull(load: Quantity, *, parts: int, sheaves: int) -> Quantity:
    """Line pull by the field rule of a tenth more for each sheave: W (1 + 0.1 sheaves) / parts.

    Raises:
        OutOfRange: A negative load, no part, or a negative number of sheaves.

    Source: NAVEDTRA 14043; it asks for more than K 1.09 does.
    """
    if parts < 1 or sheaves < 0:
        raise OutOfRange(f"{parts} parts over {sheaves} sheaves is no tackle")
    return quantity(as_force(load, "load") * (1.0 + 0.1 * sheaves) / parts, "lbf")


def picked_up(load: Quantity, *, allowance: float) -> Quantity:
    """A load with a stated allowance for picking it up, as a fraction of it.

    Source: mechanics.

    Raises:
        OutOfRange: A negative load or allowance.
    """
    if not 0.0 <= allowance < inf:
        raise OutOfRange(f"the pick-up allowance is {allowance:g}; it is 0 or more")
    return quantity(as_force(load, "load") * (1.0 + allowance), "lbf")


def jerk_allowance(*, speed: Quantity, distance: Quantity) -> float:
    """Share added to a load that is brought to `speed`, or stopped from it, within `distance`.

    v^2 / (2 g s), the acceleration taken as even; a slack line taken up is worse.

    Raises:
        OutOfRange: A negative speed, or a distance that is not more than zero.

    Source: mechanics.
    """
    velocity = magnitude(speed, "ft/s", "speed", at_least=0.0)
    path = magnitude(distance, "ft", "distance", above=0.0)
    return velocity**2 / (2.0 * 32.174 * path)
