"""Redirect pulleys: what each and its anchor carries, and what an anchor would at other angles."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.hoisting.hoist import Motion, line_pull, redirect_chain, sheave_load
from calc.units import quantity

if TYPE_CHECKING:
    from calc.hoisting.hoist import Redirect
    from calc.units import Quantity
    from fieldbook.watch.state.rigging import Rigging

ANGLES = (30, 60, 90, 120, 150, 180)
"""Turns of the line, in degrees, for which an anchor's load is shown."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """One pulley of the job.

    Attributes:
        name: Of the pulley.
        turn: By which it turns the line.
        pull: In the line on its hauling side.
        load: On pulley and anchor, as it is rigged.
        by_angle: The same for each of `ANGLES`.
    """

    name: str
    turn: Quantity
    pull: Quantity
    load: Quantity
    by_angle: tuple[Quantity, ...]


def anchors(rig: Rigging, hook_load: Quantity) -> tuple[Anchor, ...]:
    """Each pulley of the rig, hoisting `hook_load`; none while one of them is not described.

    Source: 2 T sin(half the turn), T on the hauling side; each pulley multiplies the pull.
    """
    redirects: list[Redirect] = [pulley for pulley, _ in rig.pulleys if pulley is not None]
    if rig.missing or rig.reeving is None or rig.block is None:
        return ()
    pull = max(hook_load, quantity(0.0, "lbf"))  # what floats pulls nothing
    if not rig.is_reel:
        pull = line_pull(pull + rig.block, reeving=rig.reeving, moving=Motion.HOISTING)
    return tuple(
        Anchor(
            redirect.name,
            redirect.turn,
            load.hauling_side,
            load.anchor,
            tuple(by_angle(load.hauling_side)),
        )
        for redirect, load in zip(redirects, redirect_chain(pull, redirects), strict=True)
    )


def by_angle(pull: Quantity) -> list[Quantity]:
    """Load on an anchor for each of `ANGLES`, under a pull on the hauling side."""
    return [sheave_load(tension=pull, turn=quantity(float(a), "degree")) for a in ANGLES]
