"""Insulation resistance of motor and cable, judged by a rule that is named.

Two rules stand side by side and are never mixed. IEEE 43 asks a least value of a winding at 40 C.
The trade's bands are for a submersible motor as it is tested, on the bench or in the well.

A reading past the end of the tester's scale is given as that end: the truth is higher, which no
verdict here is the worse for.
"""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from calc import table
from calc.check import Check, Verdict, judge
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from calc.units import Quantity

_BASE_C = 40.0
_HALVING_C = 10.0
_COLDEST_C = 0.0
_HOTTEST_C = 80.0
_LOW_VOLTAGE_KV = 1.0
_READING = "insulation reading"
_IEEE_SOURCE = "IEEE 43-2013 Table 3, from memory; halving by 10 C as explained in a guide to it"
_IEEE_FORMULA = "least at 40 C / reading x 0.5^((40 - T)/10)"


class Winding(StrEnum):
    """What kind of winding IEEE 43 asks after."""

    BEFORE_1970 = "before 1970"
    FORM = "form"
    RANDOM = "random"


class MotorState(StrEnum):
    """Where and in what life a motor is tested, for the trade's bands."""

    NEW_ON_BENCH = "new on the bench"
    USED_ON_BENCH = "used on the bench"
    NEWLY_SET = "newly set in the well"
    IN_SERVICE = "in service in the well"


def insulation_at_40_c(*, reading: Quantity, temperature: Quantity) -> Quantity:
    """An insulation resistance brought to 40 C: it halves for every 10 C it warms.

    Args:
        reading: After one minute, 0 or more.
        temperature: Of the winding when it was read, 0 to 80 C.

    Raises:
        OutOfRange: A negative reading, or a temperature outside those limits, which are ours.

    Valid for:
        Comparing like with like. The rule is rough far from 40 C: at 70 C a graph has a factor of
        7 where halving gives 8.

    Source: IEEE 43 as explained in a guide to its temperature correction.

    >>> warm = insulation_at_40_c(reading=quantity(200, "Mohm"), temperature=quantity(20, "degC"))
    >>> warm.m_as("Mohm")
    50.0
    """
    megohms = magnitude(reading, "Mohm", _READING, at_least=0.0)
    # Rounded, since 104 F is a hair off 40 C once converted.
    celsius = round(
        magnitude(
            temperature,
            "degC",
            "temperature of the winding",
            at_least=_COLDEST_C - 1e-9,
            at_most=_HOTTEST_C + 1e-9,
        ),
        9,
    )
    return quantity(megohms * 0.5 ** ((_BASE_C - celsius) / _HALVING_C), "Mohm")


def ieee_43_least(*, winding: Winding, rated_voltage: Quantity) -> Quantity:
    """Least insulation resistance at 40 C by IEEE 43.

    1 megohm per kV, kV + 1, 5 and 100 are all quoted; which holds depends on the winding: kV + 1
    before about 1970, 100 form-wound since, 5 random-wound or form-wound under 1 kV, as
    submersible motors are.

    Args:
        winding: Its kind.
        rated_voltage: Between lines.

    Raises:
        OutOfRange: A voltage not more than zero, or above 1 kV on a random winding.

    Source: `tables/insulation_ieee43.csv`.
    """
    highest = _LOW_VOLTAGE_KV if winding is Winding.RANDOM else None
    kilovolts = magnitude(rated_voltage, "kilovolt", "rated voltage", above=0.0, at_most=highest)
    low_voltage_form = winding is Winding.FORM and kilovolts < _LOW_VOLTAGE_KV
    name = Winding.RANDOM if low_voltage_form else winding
    row = table.row("insulation_ieee43", "winding", name.value)
    per_kilovolt = float(row["per_kilovolt[Mohm]"])
    return quantity(float(row["fixed[Mohm]"]) + per_kilovolt * kilovolts, "Mohm")


def judge_by_ieee_43(
    *,
    reading: Quantity | None,
    temperature: Quantity | None,
    winding: Winding,
    rated_voltage: Quantity | None,
    caution_share: float,
) -> Check:
    """Holds a reading, brought to 40 C, against the least that IEEE 43 asks.

    Source: IEEE 43-2013 Table 3, from memory.

    Args:
        reading: After one minute, or None when it was not taken.
        temperature: Of the winding then, or None when it is not known.
        winding: Its kind.
        rated_voltage: Between lines, or None.
        caution_share: Share of least over reading from which the verdict is `caution`, 0 to 1.

    Raises:
        OutOfRange: As `insulation_at_40_c`, `ieee_43_least` and `judge`.
    """
    given = {
        _READING: reading,
        "temperature of the winding": temperature,
        "rated voltage": rated_voltage,
    }
    missing = tuple(name for name, value in given.items() if value is None)
    least = at_40 = None
    if rated_voltage is not None:
        least = ieee_43_least(winding=winding, rated_voltage=rated_voltage)
    if reading is not None and temperature is not None:
        at_40 = insulation_at_40_c(reading=reading, temperature=temperature)
    name = "insulation by IEEE 43"
    if reading is not None and magnitude(reading, "Mohm", _READING, at_least=0.0) == 0.0:
        return _dead_short(name, least, missing, _IEEE_SOURCE)
    return judge(
        name,
        least,
        at_40,
        unit="Mohm",
        caution_share=caution_share,
        missing=missing,
        formula=_IEEE_FORMULA,
        source=_IEEE_SOURCE,
        note="a rule for the winding; cable and splice in the well lower the reading",
    )


def judge_by_trade_bands(*, reading: Quantity | None, state: MotorState) -> Check:
    """Holds a reading, as taken, against the trade's bands: common practice, no published source.

    Below the lower figure it is a `stop`, below the upper one a `caution`.

    Args:
        reading: As the tester shows it, or None when it was not taken.
        state: Where and in what life the motor is tested.

    Raises:
        OutOfRange: A negative reading.

    Source: `tables/insulation_bands.csv`.
    """
    row = table.row("insulation_bands", "state", state.value)
    bad, caution = float(row["bad_below[Mohm]"]), float(row["caution_below[Mohm]"])
    name = f"insulation by the trade's bands, {state.value}"
    source = "common practice, no published source"
    if reading is None:
        return Check(
            name, Verdict.UNKNOWN, quantity(bad, "Mohm"), missing=(_READING,), source=source
        )
    megohms = magnitude(reading, "Mohm", _READING, at_least=0.0)
    if megohms == 0.0:
        return _dead_short(name, quantity(bad, "Mohm"), (), source)
    verdict = Verdict.CAUTION if megohms < caution else Verdict.WITHIN
    return Check(
        name=name,
        verdict=Verdict.STOP if megohms < bad else verdict,
        demand=quantity(bad, "Mohm"),
        allowable=quantity(megohms, "Mohm"),
        share=bad / megohms,
        formula=f"bad below {bad:g}, caution below {caution:g} megohm, not corrected",
        source=source,
        at_least=True,
    )


def _dead_short(name: str, least: Quantity | None, missing: tuple[str, ...], source: str) -> Check:
    return Check(
        name=name,
        verdict=Verdict.STOP,
        demand=least,
        allowable=quantity(0.0, "Mohm"),
        missing=missing,
        source=source,
        note="a reading of nothing is a path to ground by any rule",
        at_least=True,
    )
