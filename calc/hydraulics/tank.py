"""A pressure tank by Boyle's law: the water it gives between cut-out and cut-in.

Pressures are gauge pressures at the tank; `atmosphere` is the air's own there
(`atmosphere.atmosphere_at`). Air is taken to keep its temperature and not to leave the tank.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from calc.check import Check, Verdict, judge
from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_BELOW_CUT_IN_PSI = 2.0
_CUT_IN = "cut-in pressure"
_CUT_OUT = "cut-out pressure"
_PRECHARGE = "precharge"


def water_share(*, precharge: Quantity, pressure: Quantity, atmosphere: Quantity) -> float:
    """Share of a tank that is water at a pressure; nothing until it passes the precharge.

    At cut-out this is what a bladder must take: its maker states how much it can.

    Args:
        precharge: Measured with the tank empty, 0 or more.
        pressure: Of the water, 0 or more.
        atmosphere: Pressure of the air at the tank, more than 0.

    Raises:
        OutOfRange: A negative pressure, or an atmosphere not more than zero.

    Source: Boyle's law, 1 - (Pc + Pa) / (P + Pa).
    """
    air = magnitude(atmosphere, "psi", "pressure of the atmosphere", above=0.0)
    empty = magnitude(precharge, "psi", _PRECHARGE, at_least=0.0) + air
    now = magnitude(pressure, "psi", "pressure of the tank", at_least=0.0) + air
    return max(0.0, 1.0 - empty / now)


def drawdown_share(
    *, precharge: Quantity, cut_in: Quantity, cut_out: Quantity, atmosphere: Quantity
) -> float:
    """Share of a tank's volume that it gives from cut-out down to cut-in.

    Args:
        precharge: Measured with the tank empty, 0 to the cut-in pressure.
        cut_in: At which the switch starts the pump.
        cut_out: At which it stops it, more than the cut-in.
        atmosphere: Pressure of the air at the tank, 14.7 psi at sea level and 11.8 at 6,000 ft.

    Raises:
        OutOfRange: A negative pressure, an atmosphere not more than zero, a cut-out that is not
            above the cut-in, or a precharge above it: the tank is empty before the pump starts.

    Source: Boyle's law, (Pc + Pa) / (Pon + Pa) - (Pc + Pa) / (Poff + Pa); Pelikan, National
        Driller 2006 and 2008.
    """
    on = magnitude(cut_in, "psi", _CUT_IN, at_least=0.0)
    off = magnitude(cut_out, "psi", _CUT_OUT, at_least=0.0)
    charge = magnitude(precharge, "psi", _PRECHARGE, at_least=0.0)
    if off <= on:
        raise OutOfRange(f"the pump cannot start at {on:g} psi and stop at {off:g} psi")
    if charge > on:
        raise OutOfRange(
            f"the precharge, {charge:g} psi, is above the cut-in, {on:g} psi: the tank is empty "
            "before the pump starts"
        )
    full = water_share(precharge=precharge, pressure=cut_out, atmosphere=atmosphere)
    return full - water_share(precharge=precharge, pressure=cut_in, atmosphere=atmosphere)


def drawdown(
    *,
    volume: Quantity,
    precharge: Quantity,
    cut_in: Quantity,
    cut_out: Quantity,
    atmosphere: Quantity,
) -> Quantity:
    """Water a tank with a bladder or membrane gives from cut-out down to cut-in.

    Args:
        volume: Of the whole tank, more than 0.
        precharge: As `drawdown_share`.
        cut_in: As `drawdown_share`.
        cut_out: As `drawdown_share`.
        atmosphere: As `drawdown_share`.

    Raises:
        OutOfRange: A volume not more than zero, or as `drawdown_share`.

    Source: `drawdown_share`.

    >>> psi = [quantity(each, "psi") for each in (28, 30, 50, 14.7)]
    >>> gives = drawdown(volume=quantity(85, "gallon"), precharge=psi[0], cut_in=psi[1],
    ...                  cut_out=psi[2], atmosphere=psi[3])
    >>> round(gives.m_as("gallon"), 1)
    25.1
    """
    share = drawdown_share(
        precharge=precharge, cut_in=cut_in, cut_out=cut_out, atmosphere=atmosphere
    )
    return quantity(share * magnitude(volume, "gallon", "volume of the tank", above=0.0), "gallon")


def plain_tank_drawdown(
    *, volume: Quantity, cut_in: Quantity, cut_out: Quantity, atmosphere: Quantity
) -> Quantity:
    """Water a plain tank gives that was closed full of air at no gauge pressure.

    It is the least such a tank gives while it keeps its air. One whose air was charged is computed
    by `drawdown` with that charge; one that has lost air gives less, down to nothing.

    Raises:
        OutOfRange: As `drawdown`.

    Source: `drawdown_share` without precharge.
    """
    return drawdown(
        volume=volume,
        precharge=quantity(0.0, "psi"),
        cut_in=cut_in,
        cut_out=cut_out,
        atmosphere=atmosphere,
    )


def volume_for_drawdown(
    *,
    drawdown: Quantity,
    precharge: Quantity,
    cut_in: Quantity,
    cut_out: Quantity,
    atmosphere: Quantity,
) -> Quantity:
    """Volume of the tank, or of several together, that gives a drawdown.

    Args:
        drawdown: Wanted, more than 0.
        precharge: As `drawdown_share`.
        cut_in: As `drawdown_share`.
        cut_out: As `drawdown_share`.
        atmosphere: As `drawdown_share`.

    Raises:
        OutOfRange: A drawdown not more than zero, or as `drawdown_share`.

    Source: `drawdown` turned about.
    """
    share = drawdown_share(
        precharge=precharge, cut_in=cut_in, cut_out=cut_out, atmosphere=atmosphere
    )
    return quantity(magnitude(drawdown, "gallon", "drawdown", above=0.0) / share, "gallon")


def usual_precharge(*, cut_in: Quantity) -> Quantity:
    """Precharge to set, the tank empty: 2 psi below cut-in. Some texts set it equal to cut-in.

    Raises:
        OutOfRange: A cut-in not more than 2 psi.

    Source: common practice, no published source.

    >>> usual_precharge(cut_in=quantity(30, "psi")).m_as("psi")
    28.0
    """
    on = magnitude(cut_in, "psi", _CUT_IN, above=_BELOW_CUT_IN_PSI)
    return quantity(on - _BELOW_CUT_IN_PSI, "psi")


def judge_precharge(
    *, precharge: Quantity | None, cut_in: Quantity | None, caution_share: float
) -> Check:
    """Whether a tank still holds water when the pump starts: precharge against cut-in.

    Source: common practice, no published source.

    Args:
        precharge: Measured with the tank empty, or None.
        cut_in: At which the switch starts the pump, or None.
        caution_share: Share of cut-in from which the verdict is `caution`, 0 to 1.

    Raises:
        OutOfRange: A negative precharge or cut-in, or as `judge`.
    """
    given = {"precharge with the tank empty": precharge, _CUT_IN: cut_in}
    if precharge is not None:
        magnitude(precharge, "psi", _PRECHARGE, at_least=0.0)
    if cut_in is not None:
        magnitude(cut_in, "psi", _CUT_IN, at_least=0.0)
    found = judge(
        "tank precharge",
        precharge,
        cut_in,
        unit="psi",
        caution_share=caution_share,
        missing=tuple(name for name, value in given.items() if value is None),
        formula="precharge / cut-in pressure",
        source="Boyle's law; 2 psi below cut-in is common practice, no published source",
    )
    if found.verdict is not Verdict.STOP:
        return found
    return replace(found, note="above cut-in the tank is empty before the pump starts")
