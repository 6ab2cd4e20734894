"""Water past a submersible motor: is it cooled, and does it need a sleeve."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import table
from calc.check import Check, Verdict, judge
from calc.hydraulics.well import annulus_per_length
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_WARMEST_F = 86.0
_NAME = "cooling flow past the motor"
_FORMULA = "least velocity / (flow / area between casing or sleeve and motor)"
_SOURCE = "conservation of mass; the least velocity as its giver states"


def cooling_velocity(*, flow: Quantity, bore: Quantity, motor_diameter: Quantity) -> Quantity:
    """Mean velocity of the water that passes a motor on its way to the intake.

    Args:
        flow: That the pump delivers and that comes from below.
        bore: Of the casing at the motor, or of the sleeve round it.
        motor_diameter: Outside, as measured.

    Raises:
        OutOfRange: A negative flow, a diameter not more than zero, or a motor as wide as the bore.

    Source: conservation of mass.
    """
    gallons = magnitude(
        annulus_per_length(bore=bore, inner_diameter=motor_diameter), "gallon/ft", "annulus"
    )
    return quantity(magnitude(flow, "gpm", "flow", at_least=0.0) / gallons / 60.0, "ft/s")


def least_cooling_flow(
    *, least_velocity: Quantity, bore: Quantity, motor_diameter: Quantity
) -> Quantity:
    """Flow at which the water past a motor just has a velocity.

    Raises:
        OutOfRange: A value not more than zero, or a motor as wide as the bore.

    Source: `cooling_velocity` turned about.
    """
    gallons = magnitude(
        annulus_per_length(bore=bore, inner_diameter=motor_diameter), "gallon/ft", "annulus"
    )
    speed = magnitude(least_velocity, "ft/s", "least velocity", above=0.0)
    return quantity(speed * gallons * 60.0, "gpm")


def least_cooling_velocity(*, nominal_size: int, water_temperature: Quantity) -> Quantity:
    """Least velocity past a motor by its nominal size: common practice, no published source.

    Source: common practice, no published source.

    Args:
        nominal_size: In inches: 4, 6, 8 or 10.
        water_temperature: To 86 F. Warmer water wants more, or less load: ask the motor's maker.

    Raises:
        OutOfRange: The table has no such size, or water below 32 or above 86 F.
    """
    # A hair wider, since 0 and 30 C are a hair off once converted.
    magnitude(
        water_temperature,
        "degF",
        "water temperature",
        at_least=32.0 - 1e-9,
        at_most=_WARMEST_F + 1e-9,
    )
    row = table.row("cooling_velocity", "nominal[in]", str(nominal_size))
    return quantity(float(row["least[ft/s]"]), "ft/s")


def judge_cooling(
    *,
    flow: Quantity | None,
    bore: Quantity | None,
    motor_diameter: Quantity | None,
    least_velocity: Quantity | None,
    water_from_below: bool | None,
    caution_share: float,
) -> Check:
    """Whether enough water passes the motor, and whether it needs a sleeve.

    Source: velocity by conservation of mass against the least that is asked.

    Args:
        flow: That the pump delivers, or None.
        bore: Of the casing at the motor, or of the sleeve where one is fitted; or None.
        motor_diameter: Outside, or None.
        least_velocity: That the motor asks for, or None.
        water_from_below: Whether the water comes to the intake past the motor: it does where it
            enters the well below the motor and where a sleeve makes it. None when not known.
        caution_share: Share of least over actual velocity from which the verdict is `caution`.

    Raises:
        OutOfRange: A least velocity not more than zero, or as `cooling_velocity` and `judge`.
    """
    given = {
        "flow of the pump": flow,
        "bore at the motor": bore,
        "outside diameter of the motor": motor_diameter,
        "least velocity past the motor": least_velocity,
        "whether water enters below the motor": water_from_below,
    }
    missing = tuple(name for name, value in given.items() if value is None)
    if least_velocity is not None:
        magnitude(least_velocity, "ft/s", "least velocity", above=0.0)
    velocity = None
    if flow is not None and bore is not None and motor_diameter is not None:
        velocity = cooling_velocity(flow=flow, bore=bore, motor_diameter=motor_diameter)
    still = velocity is not None and magnitude(velocity, "ft/s", "velocity") == 0.0
    if water_from_below is False or still:
        return Check(
            _NAME,
            Verdict.STOP,
            demand=least_velocity,
            allowable=quantity(0.0, "ft/s"),
            missing=missing,
            formula=_FORMULA,
            source=_SOURCE,
            note="no water passes the motor: it needs a sleeve, or flow",
            at_least=True,
        )
    return judge(
        _NAME,
        least_velocity,
        velocity,
        unit="ft/s",
        caution_share=caution_share,
        missing=missing,
        formula=_FORMULA,
        source=_SOURCE,
        note="over its limit the motor needs a sleeve",
        at_least=True,
    )
