"""What insulation refuses, what it says when something is missing, and what must always hold."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.check import Verdict
from calc.electric import insulation
from calc.electric.insulation import (
    MotorState,
    Winding,
    judge_by_ieee_43,
    judge_by_trade_bands,
)
from calc.errors import OutOfRange
from calc.units import Quantity, quantity
from tests.calc.refusals import assert_refuses, quantities_of

if TYPE_CHECKING:
    from collections.abc import Callable

common = settings(deadline=None, max_examples=150)
READING = quantity(50, "Mohm")
AT = quantity(20, "degC")
VOLTS = quantity(460, "volt")
IEEE: dict[str, Any] = {
    "reading": READING,
    "temperature": AT,
    "winding": Winding.RANDOM,
    "rated_voltage": VOLTS,
    "caution_share": 0.8,
}
CALLS: list[tuple[Callable[..., object], dict[str, Any]]] = [
    (insulation.insulation_at_40_c, {"reading": READING, "temperature": AT}),
    (insulation.ieee_43_least, {"winding": Winding.FORM, "rated_voltage": VOLTS}),
    (insulation.judge_by_ieee_43, IEEE),
    (insulation.judge_by_trade_bands, {"reading": READING, "state": MotorState.IN_SERVICE}),
]


@pytest.mark.parametrize(("function", "arguments", "name"), quantities_of(CALLS))
def test_every_quantity_is_held_to_its_kind(
    function: Callable[..., object], arguments: dict[str, Any], name: str
) -> None:
    assert_refuses(function, arguments, name)


@pytest.mark.parametrize(
    ("function", "arguments"),
    [
        (insulation.insulation_at_40_c, {"reading": READING, "temperature": quantity(81, "degC")}),
        (insulation.ieee_43_least, {"winding": Winding.FORM, "rated_voltage": 0 * VOLTS}),
        (
            insulation.ieee_43_least,
            {"winding": Winding.RANDOM, "rated_voltage": quantity(2300, "volt")},
        ),
        (
            insulation.ieee_43_least,
            {"winding": Winding.RANDOM, "rated_voltage": quantity(1001, "volt")},
        ),
        (insulation.insulation_at_40_c, {"reading": READING, "temperature": quantity(-1, "degC")}),
        (insulation.judge_by_ieee_43, {**IEEE, "caution_share": 1.1}),
        (insulation.judge_by_ieee_43, {**IEEE, "rated_voltage": 0 * VOLTS}),
    ],
)
def test_out_of_range(function: Callable[..., object], arguments: dict[str, Any]) -> None:
    with pytest.raises(OutOfRange):
        function(**arguments)


@pytest.mark.parametrize(
    ("gone", "word"),
    [("reading", "insulation reading"), ("temperature", "temperature of the winding"),
     ("rated_voltage", "rated voltage")],
)  # fmt: skip
def test_what_is_missing_makes_it_unknown_and_is_named(gone: str, word: str) -> None:
    check = insulation.judge_by_ieee_43(**{**IEEE, gone: None})

    assert check.verdict is Verdict.UNKNOWN
    assert check.missing == (word,)


@pytest.mark.parametrize("state", list(MotorState))
def test_no_reading_is_unknown_by_the_bands(state: MotorState) -> None:
    check = insulation.judge_by_trade_bands(reading=None, state=state)

    assert check.verdict is Verdict.UNKNOWN
    assert check.missing == ("insulation reading",)


@pytest.mark.parametrize("gone", [None, "temperature", "rated_voltage"])
def test_a_reading_of_nothing_is_a_stop_whatever_is_missing(gone: str | None) -> None:
    arguments = {**IEEE, "reading": quantity(0, "ohm")}
    if gone:
        arguments[gone] = None
    by_ieee = insulation.judge_by_ieee_43(**arguments)
    by_bands = insulation.judge_by_trade_bands(
        reading=quantity(0, "ohm"), state=MotorState.NEWLY_SET
    )

    words = {"temperature": "temperature of the winding", "rated_voltage": "rated voltage"}

    assert by_ieee.verdict is by_bands.verdict is Verdict.STOP
    assert by_ieee.share is None
    assert by_ieee.missing == ((words[gone],) if gone else ())
    assert by_ieee.allowable == by_bands.allowable == quantity(0, "Mohm")


@pytest.mark.parametrize("megohms", [0.0, 0.1, 1000.0])
def test_the_bands_ask_for_a_reading_of_at_least_so_much(megohms: float) -> None:
    check = insulation.judge_by_trade_bands(
        reading=quantity(megohms, "Mohm"), state=MotorState.IN_SERVICE
    )
    assert check.at_least


def test_the_share_by_the_bands_is_least_over_reading() -> None:
    """Hand calculation: 0.5 megohm asked, 2 read: a quarter."""
    check = insulation.judge_by_trade_bands(
        reading=quantity(2, "Mohm"), state=MotorState.IN_SERVICE
    )

    assert check.share == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("winding", "volts", "least"),
    [(Winding.RANDOM, 1000, 5), (Winding.FORM, 999, 5), (Winding.FORM, 1000, 100)],
)
def test_one_kilovolt_is_where_the_rows_part(winding: Winding, volts: float, least: float) -> None:
    """IEEE 43-2013 Table 3 (from memory): 5 megohm for windings rated below 1 kV."""
    found = insulation.ieee_43_least(winding=winding, rated_voltage=quantity(volts, "volt"))

    assert found.m_as("Mohm") == least


def test_40_c_is_the_same_in_fahrenheit() -> None:
    same = insulation.insulation_at_40_c(reading=READING, temperature=quantity(104, "degF"))
    edge = insulation.insulation_at_40_c(reading=READING, temperature=quantity(32, "degF"))

    assert same.m_as("Mohm") == 50
    assert edge.m_as("Mohm") == pytest.approx(50 / 16)


def test_the_ends_of_what_is_taken() -> None:
    """80 C and a winding for some volts are taken."""
    hot = insulation.insulation_at_40_c(reading=READING, temperature=quantity(80, "degC"))
    hot_f = insulation.insulation_at_40_c(reading=READING, temperature=quantity(176, "degF"))
    low = insulation.ieee_43_least(winding=Winding.RANDOM, rated_voltage=quantity(24, "volt"))

    assert hot.m_as("Mohm") == hot_f.m_as("Mohm") == 50 * 16
    assert low.m_as("Mohm") == 5


RANK = {Verdict.WITHIN: 0, Verdict.CAUTION: 1, Verdict.STOP: 2}


@common
@given(st.floats(1e-3, 1e4), st.floats(1e-3, 1e4), st.sampled_from(list(MotorState)))
def test_a_lower_reading_is_never_judged_better(
    one: float, other: float, state: MotorState
) -> None:
    low, high = (quantity(each, "Mohm") for each in sorted((one, other)))

    def by_bands(reading: Quantity) -> int:
        return RANK[insulation.judge_by_trade_bands(reading=reading, state=state).verdict]

    def by_ieee(reading: Quantity) -> int:
        return RANK[insulation.judge_by_ieee_43(**{**IEEE, "reading": reading}).verdict]

    assert by_bands(low) >= by_bands(high)
    assert by_ieee(low) >= by_ieee(high)


@common
@given(st.floats(0.01, 1e4), st.floats(0, 70))
def test_10_c_halves(megohms: float, celsius: float) -> None:
    """The same winding reads half when it is 10 C warmer, and is the same at 40 C."""
    cool = insulation.insulation_at_40_c(
        reading=quantity(megohms, "Mohm"), temperature=quantity(celsius, "degC")
    )
    warm = insulation.insulation_at_40_c(
        reading=quantity(megohms * 5e5, "ohm"), temperature=quantity(celsius + 10, "degC")
    )

    assert warm.m_as("Mohm") == pytest.approx(cool.m_as("Mohm"), rel=1e-6)


def test_the_two_rules_may_differ_and_say_whose_they_are() -> None:
    """1 megohm at 20 C on a motor in service: good to the trade, far below IEEE 43."""
    reading = quantity(1, "Mohm")
    trade = judge_by_trade_bands(reading=reading, state=MotorState.IN_SERVICE)
    ieee = judge_by_ieee_43(
        reading=reading,
        temperature=quantity(20, "degC"),
        winding=Winding.RANDOM,
        rated_voltage=quantity(230, "volt"),
        caution_share=0.8,
    )

    assert (trade.verdict, ieee.verdict) == (Verdict.WITHIN, Verdict.STOP)
    assert "IEEE" not in trade.name + trade.source
    assert "trade" not in ieee.name + ieee.source
