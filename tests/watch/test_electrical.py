"""Supply, amps, windings, insulation and cable of a job.

Published: NEMA MG 1 for volts and their unbalance (W6-1, W6-2 of the published checks), NEC Chapter
9 Table 8 for copper. The rest are hand calculations and common practice, labelled so.
"""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.motor.supply import size_of
from fieldbook.watch.motor.windings import WITHOUT_CABLE
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, says

MOTOR = says(
    "pump", motor_voltage="460 V", motor_phase="3", service_amps="10 A", pump_weight=104,
    pump_length=4,
)  # fmt: skip
CABLE = says("cable", cable_size="12 AWG, 3 and ground", cable_length="400 ft", cable_weight=0.3)


def _read(names: tuple[str, ...], legs: tuple[float, ...], more: dict[str, Any]) -> dict[str, Any]:
    return says("meter", **dict(zip(names, legs, strict=False)), **more)


def volts(*legs: float, **more: Any) -> dict[str, Any]:
    return _read(("volts_ab", "volts_bc", "volts_ca"), legs, more)


def amps(*legs: float, **more: Any) -> dict[str, Any]:
    return _read(("amps_a", "amps_b", "amps_c"), legs, more)


def ohms(*legs: float, **more: Any) -> dict[str, Any]:
    return _read(("ohms_ab", "ohms_bc", "ohms_ca"), legs, more)


def megohms(value: float | str, **more: Any) -> dict[str, Any]:
    return says("meter", insulation=value, **more)


def job(*documents: dict[str, Any]) -> Job:
    return job_of(*STEEL, MOTOR, *documents)


def check(name: str, made: Job) -> Check:
    return next(c for c in Watcher(made).look().checks if c.name == name)


def names(made: Job) -> set[str]:
    return {c.name for c in Watcher(made).look().checks}


def motor_without(name: str, *documents: dict[str, Any]) -> Job:
    """A job with no other entry about the pump, and one figure left out of this."""
    base = [d for d in STEEL if d["kind"] != "pump"]
    values = {k: v for k, v in MOTOR["values"].items() if k != name}
    return job_of(*base, MOTOR | {"values": values}, *documents)


# --- supply ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("legs", "share"),
    [
        ((460, 467, 450), 9 / 459),  # NEMA MG 1 14.36: 1.96 %
        ((203, 210, 212), 16 / 625),  # the same formula in a relay's data sheet: 2.56 % unrounded
    ],
)
def test_unbalance_of_the_volts(legs: tuple[float, ...], share: float) -> None:
    nameplate = says("pump", motor_voltage=f"{sum(legs) / 3} V")
    found = check("supply", job(nameplate, volts(*legs)))

    assert found.verdict is Verdict.CAUTION
    assert found.demand is not None
    assert found.demand.m_as("dimensionless") == pytest.approx(share)


@pytest.mark.parametrize(
    ("legs", "verdict"),
    [
        ((460, 460, 460), Verdict.WITHIN),
        ((505, 505, 505), Verdict.CAUTION),  # 9.8 %
        ((507, 507, 507), Verdict.STOP),  # 10.2 %
        ((413, 413, 413), Verdict.STOP),  # -10.2 %
        ((460, 462, 458), Verdict.WITHIN),  # 0.43 % unbalanced
        ((480, 460, 425), Verdict.STOP),  # 6.6 % unbalanced
    ],
)
def test_volts_by_nema(legs: tuple[float, ...], verdict: Verdict) -> None:
    assert check("supply", job(volts(*legs))).verdict is verdict


def test_one_phase_needs_one_pair() -> None:
    made = job(says("pump", motor_phase="1"), volts(460))

    assert check("supply", made).verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("left_out", "word"), [("motor_voltage", "motor volts"), ("motor_phase", "phases")]
)
def test_the_nameplate_is_named_where_it_is_missing(left_out: str, word: str) -> None:
    found = check("supply", motor_without(left_out, volts(460, 460, 460)))

    assert found.verdict is Verdict.UNKNOWN
    assert word in found.missing


def test_a_leg_that_was_not_read_is_named() -> None:
    found = check("supply", job(volts(460, 460)))

    assert found.verdict is Verdict.UNKNOWN
    assert "volts, legs 3-1" in found.missing


def test_the_motor_sees_less_than_the_switch() -> None:
    """12 AWG at 75 C, 1.98 ohm/kft: sqrt(3) x 10 x 0.4 x 1.98 = 13.7 V off 425 is 411: -10.6 %."""
    both = says("meter", volts_ab=425, volts_bc=425, volts_ca=425, amps_a=10, amps_b=10, amps_c=10)

    assert check("supply", job(volts(425, 425, 425))).verdict is Verdict.WITHIN
    found = check("supply", job(CABLE, both))
    assert found.verdict is Verdict.STOP
    assert "411 V" in found.governs


# --- amps -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("legs", "verdict"),
    [
        ((9, 9.1, 8.9), Verdict.WITHIN),
        ((9.6, 9, 9), Verdict.WITHIN),  # 4.3 % unbalanced, by hand
        ((9.8, 9, 9), Verdict.CAUTION),  # 5.8 %
        ((9.9, 8, 8), Verdict.STOP),  # 14.7 %
        ((10.1, 10, 10), Verdict.STOP),  # over service-factor amps
    ],
)
def test_amps_against_the_nameplate_and_each_other(
    legs: tuple[float, ...], verdict: Verdict
) -> None:
    assert check("amps", job(amps(*legs))).verdict is verdict


def test_amps_tell_their_limit_and_how_far_the_legs_are_apart() -> None:
    """Where leads are rolled the unbalance is asked for, whatever the load says."""
    whole, apart = "9.9 A of 10.0 A on the leg that takes most", "% unbalanced, 5% asked"

    assert check("amps", job(amps(9.9, 9.9, 9.8))).governs == (
        f"{whole}, 0.7{apart}, leg 3 furthest"
    )
    assert check("amps", job(amps(9.9, 9, 9))).governs == f"6.5{apart}, leg 1 furthest, {whole}"
    one = says("pump", motor_phase="1", service_amps=12)
    assert check("amps", job_of(*STEEL, one, amps(8.9))).governs == "8.9 A of 12.0 A"


@pytest.mark.parametrize(
    ("left_out", "word"), [("service_amps", "service-factor amps"), ("motor_phase", "phases")]
)
def test_what_amps_need_is_named(left_out: str, word: str) -> None:
    found = check("amps", motor_without(left_out, amps(9, 9, 9)))

    assert found.verdict is Verdict.UNKNOWN
    assert word in found.missing


def test_amps_over_the_nameplate_stop_even_where_a_leg_was_not_read() -> None:
    assert check("amps", job(amps(12))).verdict is Verdict.STOP


def test_a_motor_that_does_not_run_is_unknown() -> None:
    assert check("amps", job(amps(0, 0, 0))).verdict is Verdict.UNKNOWN


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        # The furthest leg stays on the supply's second leg whatever lead stands there.
        ([(9, 9.9, 9), (9.1, 9.8, 9), (9, 9.7, 9.1)], "it stays on leg 2: the supply"),
        # Lead 2 takes most: on leg 2 as found, on 3 moved on once, on 1 moved on twice.
        ([(9, 9.9, 9), (9, 9, 9.9), (9.9, 9, 9)], "it goes with lead 2: motor or cable"),
        ([(9, 9.1, 9), (9.1, 9, 9), (9, 9.1, 9)], "under 2 %"),
    ],
)
def test_rolled_leads_say_whether_it_is_the_supply(
    rows: list[tuple[float, ...]], words: str
) -> None:
    """Common practice: the worst leg follows the lead, motor or cable; stays, the supply."""
    positions = ("as found", "moved on once", "moved on twice")
    read = [amps(*row, leads=where) for row, where in zip(rows, positions, strict=True)]

    assert words in check("amps", job(*read)).note


def test_leads_moved_once_say_nothing_before_there_are_two() -> None:
    assert check("amps", job(amps(9, 9.9, 9, leads="as found"))).note == ""


# --- windings -------------------------------------------------------------------------------------


def test_windings_less_their_cable() -> None:
    """12 AWG at 50 F, which is 10 C: 1.98 (1 + 0.00323 (10 - 75)) = 1.564 ohm/kft; 800 ft: 1.25."""
    found = check("windings", job(CABLE, ohms(4.25, 4.25, 4.28)))

    assert found.verdict is Verdict.WITHIN
    assert found.governs.startswith("3.00, 3.00, 3.03 ohm")


def test_a_winding_that_is_off_by_more_than_the_cable_hides() -> None:
    """(4.25, 4.25, 4.60): 2.7 % apart with the cable, 7.5 % in the motor, by hand."""
    assert check("windings", job(CABLE, ohms(4.25, 4.25, 4.75))).verdict is Verdict.STOP


def test_less_ohms_than_the_cable_is_a_short() -> None:
    assert check("windings", job(CABLE, ohms(4.2, 0.4, 4.2))).verdict is Verdict.STOP


def test_a_motor_on_its_own_leads_has_no_cable_to_take_off() -> None:
    out = says("pump_out", prior_count=18)
    found = check("windings", job(out, ohms(1.6, 1.6, 1.6, part="motor out of the well")))

    assert found.verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("kind", "left_out", "word"),
    [
        ("cable", "cable_size", "cable"),
        ("cable", "cable_length", "cable length"),
        ("well", "water_temperature", "water temperature"),
        ("meter", "ohms_ca", "ohms, leads 3-1"),
        ("pump", "motor_phase", "phases"),
    ],
)
def test_what_windings_need_is_named(kind: str, left_out: str, word: str) -> None:
    base = [d for d in STEEL if d["kind"] not in ("pump", "cable")]
    whole = [*base, MOTOR, CABLE, ohms(4.25, 4.25, 4.25)]
    documents = [
        d | {"values": {k: v for k, v in d["values"].items() if k != left_out}}
        if d["kind"] == kind
        else d
        for d in whole
    ]
    found = check("windings", job_of(*documents))

    assert found.verdict is Verdict.UNKNOWN
    assert word in found.missing


def test_single_phase_windings_are_judged_by_the_maker_alone() -> None:
    one = says("pump", motor_phase="1")
    assert check("windings", job(one, CABLE, ohms(4.25))).missing == (
        "winding, lowest ohms",
        "winding, most ohms",
    )

    sheet = says("pump", least_ohms=2.8, most_ohms=3.4)
    assert check("windings", job(one, sheet, CABLE, ohms(4.25))).verdict is Verdict.WITHIN
    assert check("windings", job(one, sheet, CABLE, ohms(4.75))).verdict is Verdict.STOP


@pytest.mark.parametrize(
    ("read", "verdict"),
    [(1.797, Verdict.WITHIN), (1.794, Verdict.STOP), (12.2, Verdict.WITHIN), (12.21, Verdict.STOP)],
)
def test_a_winding_is_judged_as_it_is_shown(read: float, verdict: Verdict) -> None:
    """1.797 ohm is shown as 1.80, which is not outside 1.8 to 12.2."""
    sheet = says("pump", motor_phase="1", least_ohms=1.8, most_ohms=12.2)
    alone = ohms(read, part=WITHOUT_CABLE)
    assert check("windings", job(sheet, alone)).verdict is verdict


@pytest.mark.parametrize(
    ("words", "size"),
    [("10 AWG, 3 and ground", "10"), ("8/3 with ground", "8"), ("3 x 6", ""),
     ("1/0 AWG", "1/0"), ("12", "12"),
     ("3 x 6 AWG", "6"), ("flat, three conductors", ""), ("12-3 with ground", "12")],
)  # fmt: skip
def test_the_size_in_what_was_written(words: str, size: str) -> None:
    assert size_of(words) == size


# --- cable ----------------------------------------------------------------------------------------


def test_drop_in_the_cable_by_table_8() -> None:
    """sqrt(3) x 10 A x 0.4 kft x 1.98 ohm/kft = 13.72 V of 460: 2.98 %."""
    found = check("voltage drop", job(CABLE))

    assert found.verdict is Verdict.WITHIN
    assert found.demand is not None
    assert found.demand.m_as("percent") == pytest.approx(2.982, abs=0.001)
    assert found.governs.endswith(" AWG takes 3.0%, 3% is usual")
    assert check("voltage drop", job(CABLE, says("cable", cable_length=800))).verdict is (
        Verdict.CAUTION
    )


@pytest.mark.parametrize(
    ("left_out", "word"),
    [("motor_voltage", "motor volts"), ("motor_phase", "phases"),
     ("service_amps", "service-factor amps")],
)  # fmt: skip
def test_what_the_drop_needs_is_named(left_out: str, word: str) -> None:
    assert check("voltage drop", motor_without(left_out, CABLE)).missing == (word,)


def test_a_cable_whose_size_cannot_be_read_is_named() -> None:
    found = check("voltage drop", job(says("cable", cable_size="flat", cable_length="400 ft")))

    assert found.missing == ("conductor size of the cable, 14 to 4/0 AWG",)


# --- insulation -----------------------------------------------------------------------------------

SET = says("joint", direction="in", joint_number=1, joint_length=21)


@pytest.mark.parametrize(
    ("before", "reading", "verdict", "rule"),
    [
        ([], 24, Verdict.WITHIN, "in service in the well"),
        ([], 0.4, Verdict.STOP, "in service in the well"),
        ([SET], 1.5, Verdict.CAUTION, "newly set in the well"),
        ([says("pump_out", rack_count=18), says("pump", motor_age="new")], 15, Verdict.STOP,
         "new on the bench"),
        ([says("pump_out", rack_count=18), says("pump", motor_age="used")], 15, Verdict.WITHIN,
         "used on the bench"),
    ],
)  # fmt: skip
def test_the_rule_is_named(
    before: list[dict[str, Any]], reading: float, verdict: Verdict, rule: str
) -> None:
    """The trade's bands: common practice, no published source."""
    found = check("insulation", job(*before, megohms(reading)))

    assert found.verdict is verdict
    assert rule in found.governs


def test_the_maker_goes_before_the_bands() -> None:
    found = check("insulation", job(says("pump", least_insulation=20), megohms(15)))

    assert found.verdict is Verdict.STOP
    assert "the maker's least" in found.governs


def test_ieee_43_stands_beside_it() -> None:
    """24 Mohm at 10 C is 24 x 0.5^3 = 3 at 40 C, of the 5 asked (IEEE 43-2013 Table 3)."""
    found = check("insulation", job(megohms(24, water_temperature="10 C")))

    assert "IEEE 43 asks 5 Mohm at 40 C of the winding alone: this is less" in found.note
    assert "motor volts" not in found.note


def test_new_or_used_is_asked_only_where_it_matters() -> None:
    out = says("pump_out", rack_count=18)

    assert check("insulation", job(out, megohms(15))).missing == (
        "whether the motor is new or used",
    )
    assert check("insulation", job(out, megohms(5))).verdict is Verdict.STOP
    assert check("insulation", job(out, megohms(300))).verdict is Verdict.WITHIN


@pytest.mark.parametrize(
    ("age", "reading", "verdict"),
    [
        ("new", 49, Verdict.STOP),
        ("new", 51, Verdict.CAUTION),
        ("new", 600, Verdict.WITHIN),
        ("used", 15, Verdict.WITHIN),
        ("used", 9, Verdict.STOP),
        (None, 30, Verdict.UNKNOWN),
        (None, 600, Verdict.WITHIN),
    ],
)
def test_motor_and_splice_are_proved_before_they_go_in(
    age: str | None, reading: float, verdict: Verdict
) -> None:
    """50 Mohm of a fresh splice, 10 of a used motor: common practice, no published source."""
    motor = [says("pump", motor_age=age)] if age else []
    made = job(says("job", job_number="S-1", line="steel", work="set"), *motor, megohms(reading))

    found = check("insulation", made)
    assert found.verdict is verdict
    assert ("by the 50 asked of a fresh splice" in found.governs) is (reading in (49, 30))


def test_the_makers_least_goes_before_what_is_asked_of_a_splice() -> None:
    made = job(
        says("job", job_number="S-1", line="steel", work="set"),
        says("pump", motor_age="new", least_insulation=10),
        megohms(30),
    )

    assert check("insulation", made).verdict is Verdict.WITHIN


def landed(first: float | str, second: float | str, **more: Any) -> Check:
    all_in = [says("joint", direction="in", joint_number=n, joint_length=21) for n in range(1, 19)]
    return check("insulation", job(*all_in, megohms(first), megohms(second, **more)))


def test_below_half_of_the_last_like_reading_is_a_stop() -> None:
    """Common practice, no published source."""
    assert landed(60, 29).verdict is Verdict.STOP
    assert "below half of 60" in landed(60, 29).governs
    assert landed(60, 31).verdict is Verdict.WITHIN
    assert landed(60, 30).verdict is Verdict.WITHIN, "half is not below half"


def test_above_the_floor_a_drop_says_little() -> None:
    assert landed(900, 150).verdict is Verdict.WITHIN


def test_readings_at_other_temperatures_are_not_compared() -> None:
    found = landed(60, 20, water_temperature="80 F")

    assert found.verdict is Verdict.WITHIN
    assert "not compared with the last: 30 F apart" in found.note


def test_more_cable_in_water_may_explain_a_drop() -> None:
    """Level 168 ft, pump and valve 5 ft: 9 joints of 21 ft in, 26 ft are wet; 18 in, 215."""
    rows = [says("joint", direction="in", joint_number=n, joint_length=21) for n in range(1, 19)]
    made = job(*rows[:9], megohms(60), *rows[9:], megohms(20))
    found = check("insulation", made)

    assert found.verdict is Verdict.CAUTION
    assert "wet length went from 26 to 215 ft" in found.note
    assert check("insulation", job(*rows[:9], megohms(60), *rows[9:], megohms(3))).verdict is (
        Verdict.STOP
    )


def test_without_a_temperature_readings_are_not_compared() -> None:
    base = [d for d in STEEL if d["kind"] != "well"]
    rows = [says("joint", direction="in", joint_number=n, joint_length=21) for n in range(1, 19)]
    found = check("insulation", job_of(*base, MOTOR, *rows, megohms(60), megohms(20)))

    assert "a temperature is not known" in found.note


def test_of_a_motor_on_the_bench_the_temperature_of_the_motor_counts() -> None:
    out = says("pump_out", rack_count=18)

    def read_at(degrees: str) -> str:
        first = megohms(60, motor_temperature="50 F")
        return check("insulation", job(out, first, megohms(20, motor_temperature=degrees))).note

    assert "not compared with the last: 30 F apart" in read_at("80 F")
    assert "not compared" not in read_at("55 F")


# --- when it is asked -----------------------------------------------------------------------------


def test_nothing_is_asked_before_it_is_measured() -> None:
    assert names(job()).isdisjoint({"supply", "amps", "windings", "insulation", "voltage drop"})


def test_a_bad_motor_does_not_shout_while_it_is_pulled() -> None:
    out = says("joint", direction="out", joint_number=1, joint_length=21)
    made = job(CABLE, megohms(0.1), amps(14, 14, 14), volts(300, 300, 300), ohms(4, 4, 9), out)

    assert names(made).isdisjoint({"supply", "amps", "windings", "insulation", "voltage drop"})


def test_readings_of_the_old_motor_are_not_those_of_the_new_one() -> None:
    out = says("joint", direction="out", joint_number=1, joint_length=21)
    pulled = (megohms(0.1), out, says("pump_out", rack_count=18))

    assert "insulation" not in names(job(*pulled))
    on_the_bench = (*pulled, megohms(0.2))
    assert check("insulation", job(*on_the_bench)).verdict is Verdict.STOP
    assert "insulation" not in names(job(*on_the_bench, says("pump", pump_serial="B-2")))
    assert check("insulation", job(*pulled, SET, megohms(80))).verdict is Verdict.WITHIN
