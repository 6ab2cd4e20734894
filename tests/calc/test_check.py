"""The verdict of a check: unknown is never safe, and a stop is never hidden."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calc.check import Check, Verdict, governing, judge, worst
from calc.errors import OutOfRange, WrongDimension
from calc.units import Quantity, quantity


def verdict(
    demand: float | None, allowable: float | None, *, missing: tuple[str, ...] = ()
) -> Verdict:
    def pounds(value: float | None) -> Quantity | None:
        return None if value is None else quantity(value, "lbf")

    return judge(
        "thread",
        pounds(demand),
        pounds(allowable),
        unit="lbf",
        caution_share=0.8,
        missing=missing,
    ).verdict


@pytest.mark.parametrize(
    ("demand", "allowable", "missing", "expected"),
    [
        (79.9, 100, (), Verdict.WITHIN),
        (80, 100, (), Verdict.CAUTION),
        (100, 100, (), Verdict.CAUTION),
        (100.1, 100, (), Verdict.STOP),
        (-5, 100, (), Verdict.WITHIN),
        (None, 100, (), Verdict.UNKNOWN),
        (10, None, (), Verdict.UNKNOWN),
        (10, 100, ("pump weight",), Verdict.UNKNOWN),
        (101, 100, ("pump weight",), Verdict.STOP),
    ],
)
def test_verdict(
    demand: float | None, allowable: float | None, missing: tuple[str, ...], expected: Verdict
) -> None:
    assert verdict(demand, allowable, missing=missing) is expected


@pytest.mark.parametrize(
    ("demand", "expected"),
    [(99.9, Verdict.WITHIN), (100, Verdict.WITHIN), (100.1, Verdict.STOP)],
)
def test_with_a_caution_share_of_one_there_is_no_caution(demand: float, expected: Verdict) -> None:
    found = judge(
        "cable", quantity(demand, "lbf"), quantity(100, "lbf"), unit="lbf", caution_share=1.0
    )
    assert found.verdict is expected


def test_units_may_differ() -> None:
    check = judge("hook", quantity(1, "kN"), quantity(300, "lbf"), unit="lbf", caution_share=0.8)

    assert check.share == pytest.approx(224.809 / 300, rel=1e-5)


def test_whatever_is_asked_of_nothing_is_a_stop() -> None:
    for allowable in (0, -5):
        check = judge("dose", quantity(50, "mg/L"), quantity(allowable, "mg/L"), unit="mg/L",
                      caution_share=1.0, missing=["whose rule"])  # fmt: skip
        assert (check.verdict, check.share) == (Verdict.STOP, None)


def test_bad_limits_are_refused() -> None:
    with pytest.raises(OutOfRange):
        verdict(0, 0)
    with pytest.raises(OutOfRange):
        judge("hook", None, None, unit="lbf", caution_share=1.1)
    with pytest.raises(WrongDimension):
        judge("hook", quantity(1, "ft"), quantity(1, "lbf"), unit="lbf", caution_share=0.8)


def named(name: str, value: Verdict, share: float | None = None) -> Check:
    return Check(name, value, share=share)


def test_nothing_checked_is_unknown() -> None:
    assert worst([]) is Verdict.UNKNOWN
    assert governing([]) is None


@given(st.permutations(list(Verdict)))
def test_stop_rules_then_unknown_then_caution(order: list[Verdict]) -> None:
    checks = [named(value, value) for value in order]

    assert worst(checks) is Verdict.STOP
    assert worst(c for c in checks if c.verdict is not Verdict.STOP) is Verdict.UNKNOWN
    assert worst([named("a", Verdict.WITHIN), named("b", Verdict.CAUTION)]) is Verdict.CAUTION


def test_the_largest_known_share_governs() -> None:
    checks = [
        named("rope", Verdict.WITHIN, 0.4),
        named("mast", Verdict.UNKNOWN),
        named("thread", Verdict.CAUTION, 0.9),
    ]
    found = governing(checks)

    assert found is not None
    assert found.name == "thread"
