"""A well: what it holds, how far it draws down, how deep its water and its pump stand.

Levels and depths are measured down from one datum, named by the caller and the same for all;
a level above the datum, as in a flowing well, is negative.
"""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.hydraulics.water import head_of_pressure
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_FT3_FT_TO_GAL_FT = 1728.0 / 231.0


def volume_per_length(*, bore: Quantity) -> Quantity:
    """Water in a length of casing with nothing in it.

    Raises:
        OutOfRange: The bore is not more than zero.

    Source: geometry at 231 in3 to the gallon, 0.0408 D^2; MIL-HDBK-1164 Table 1.

    >>> round(volume_per_length(bore=quantity(6, "in")).m_as("gallon/ft"), 2)
    1.47
    """
    feet = magnitude(bore, "ft", "bore of the casing", above=0.0)
    return quantity(pi / 4.0 * feet**2 * _FT3_FT_TO_GAL_FT, "gallon/ft")


def annulus_per_length(*, bore: Quantity, inner_diameter: Quantity) -> Quantity:
    """Water between a casing and the pipe or pump that hangs in it, per length.

    Args:
        bore: Of the casing.
        inner_diameter: Outside diameter of what hangs in it.

    Raises:
        OutOfRange: A value not more than zero, or nothing is left between the two.

    Source: geometry.
    """
    casing = magnitude(bore, "ft", "bore of the casing", above=0.0)
    hung = magnitude(inner_diameter, "ft", "diameter of what hangs in it", above=0.0)
    if hung >= casing:
        raise OutOfRange(f"{hung * 12.0:g} in does not go into a bore of {casing * 12.0:g} in")
    return quantity(pi / 4.0 * (casing**2 - hung**2) * _FT3_FT_TO_GAL_FT, "gallon/ft")


def drawdown(*, static_level: Quantity, pumping_level: Quantity) -> Quantity:
    """How far pumping has lowered the water.

    Source: definition.

    Raises:
        OutOfRange: The pumping level is above the static one: one of them is wrong.
    """
    static = magnitude(static_level, "ft", "static level")
    fall = magnitude(pumping_level, "ft", "pumping level") - static
    if fall < 0.0:
        raise OutOfRange(f"the pumping level is {-fall:g} ft above the static level")
    return quantity(fall, "ft")


def specific_capacity(*, flow: Quantity, drawdown: Quantity) -> Quantity:
    """Flow a well gives for each foot it is drawn down.

    Args:
        flow: Held long enough for the level to settle, more than 0.
        drawdown: At that flow, more than 0.

    Raises:
        OutOfRange: A value not more than zero.

    Source: definition; MIL-HDBK-1164 4.5.1.

    >>> capacity = specific_capacity(flow=quantity(20, "gpm"), drawdown=quantity(40, "ft"))
    >>> capacity.m_as("gpm/ft")
    0.5
    """
    gpm = magnitude(flow, "gpm", "flow", above=0.0)
    return quantity(gpm / magnitude(drawdown, "ft", "drawdown", above=0.0), "gpm/ft")


def expected_drawdown(*, flow: Quantity, specific_capacity: Quantity) -> Quantity:
    """Drawdown to expect at a flow.

    Args:
        flow: 0 or more.
        specific_capacity: Of this well, more than 0.

    Raises:
        OutOfRange: A negative flow, or a specific capacity not more than zero.

    Valid for:
        Flows up to that of the test and pumping no longer than it. Beyond it the well gives less
        for each foot, so the drawdown is greater than this.

    Source: definition of specific capacity.
    """
    gpm = magnitude(flow, "gpm", "flow", at_least=0.0)
    each = magnitude(specific_capacity, "gpm/ft", "specific capacity", above=0.0)
    return quantity(gpm / each, "ft")


def recovery(*, static_level: Quantity, pumping_level: Quantity, level: Quantity) -> float:
    """Share of the drawdown that has come back; above 1 where water is above the static level.

    Source: definition.

    Args:
        static_level: Before pumping.
        pumping_level: When the pump stopped, deeper than the static one.
        level: Now.

    Raises:
        OutOfRange: There was no drawdown, or the level is deeper than the pumping level.
    """
    fall = magnitude(
        drawdown(static_level=static_level, pumping_level=pumping_level),
        "ft",
        "drawdown",
        above=0.0,
    )
    risen = magnitude(pumping_level, "ft", "pumping level") - magnitude(level, "ft", "level")
    if risen < 0.0:
        raise OutOfRange(f"the level is {-risen:g} ft below the pumping level: it still falls")
    return risen / fall


def air_line_level(*, line_depth: Quantity, pressure: Quantity, water_weight: Quantity) -> Quantity:
    """Depth to water by an air line: its depth less the water its pressure holds off.

    Args:
        line_depth: Depth of the open end of the line, more than 0.
        pressure: At which the gauge is when the line is blown free.
        water_weight: Weight of water per volume.

    Raises:
        OutOfRange: A line depth not more than zero, a negative pressure, or more pressure than the
            line is deep: the line is plugged, the gauge wrong, or the level above the datum.

    Valid for:
        A tight line. A gauge that is 1 psi off puts the level 2.31 ft off (Colorado).

    Source: MIL-HDBK-1164 Appendix A, with 2.31 ft to the psi.
    """
    depth = magnitude(line_depth, "ft", "depth of the air line", above=0.0)
    magnitude(pressure, "psi", "air-line pressure", at_least=0.0)
    over = magnitude(head_of_pressure(pressure=pressure, water_weight=water_weight), "ft", "water")
    if over > depth:
        raise OutOfRange(f"the pressure is {over:.1f} ft of water; the line ends at {depth:g} ft")
    return quantity(depth - over, "ft")


def setting_depth(
    *, static_level: Quantity, flow: Quantity, specific_capacity: Quantity, submergence: Quantity
) -> Quantity:
    """Depth to set a pump's intake: static level + flow / specific capacity + submergence.

    Args:
        static_level: The deepest of the year.
        flow: Required.
        specific_capacity: Of this well.
        submergence: To keep over the intake. South Dakota asks for 10 ft or more.

    Raises:
        OutOfRange: A negative flow or submergence, or a specific capacity not more than zero.

    Source: South Dakota ARSD 74:02:04:60.
    """
    down = expected_drawdown(flow=flow, specific_capacity=specific_capacity)
    feet = magnitude(static_level, "ft", "static level") + magnitude(down, "ft", "drawdown")
    return quantity(feet + magnitude(submergence, "ft", "submergence", at_least=0.0), "ft")


def submergence(*, intake_depth: Quantity, level: Quantity) -> Quantity:
    """Water over the intake; negative where the level has fallen below it.

    Source: geometry.
    """
    intake = magnitude(intake_depth, "ft", "depth of the intake")
    return quantity(intake - magnitude(level, "ft", "level"), "ft")


def bottom_clearance(*, well_depth: Quantity, string_bottom: Quantity) -> Quantity:
    """Room below what hangs deepest, usually the motor.

    Common practice, no published source: 10 to 20 ft off the bottom, 5 to 10 ft above fill.

    Source: geometry.

    Args:
        well_depth: To the bottom as sounded, fill taken off.
        string_bottom: Depth of the lowest end, the motor's and not the intake's.

    Raises:
        OutOfRange: The string ends below the bottom: one of the depths is wrong.
    """
    depth = magnitude(well_depth, "ft", "depth of the well", above=0.0)
    room = depth - magnitude(string_bottom, "ft", "depth of the string's end")
    if room < 0.0:
        raise OutOfRange(f"the string ends {-room:g} ft below the bottom of the well")
    return quantity(room, "ft")
