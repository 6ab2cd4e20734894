"""The precharge of the tank, and the chlorine: what is given against what is aimed at.

Hand calculations and common practice, labelled so.
"""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.watcher import Watcher
from fieldbook.watch.well.chlorine_dose import water_in_the_well
from tests.watch.jobs import STEEL, job_of, says

WELL = says(
    "well", datum="top of casing", stick_up=1.2, well_depth=440, casing_diameter="6 in",
    screen_top=400, screen_bottom=436, water_temperature="50 F", deepest_level=230,
)  # fmt: skip
PUMP = says(
    "pump", pump_weight=104, pump_length=4, intake_below=1.5, motor_diameter="3.75 in",
    pump_flow="20 gpm",
)  # fmt: skip
OUT = (
    says("joint", direction="out", joint_number=1, joint_length=21),
    says("pump_out", rack_count=18),
)
SET = says("joint", direction="in", joint_number=1, joint_length=21)


def job(*more: dict[str, Any]) -> Job:
    return job_of(*STEEL, WELL, PUMP, *more)


def check(name: str, made: Job) -> Check:
    return next(c for c in Watcher(made).look().checks if c.name == name)


def names(made: Job) -> set[str]:
    return {c.name for c in Watcher(made).look().checks}


# --- tank and chlorine ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("charge", "verdict"), [(38, Verdict.WITHIN), (40, Verdict.CAUTION), (41, Verdict.STOP)]
)
def test_air_charge_against_cut_in(charge: float, verdict: Verdict) -> None:
    """Common practice: 2 psi below cut-in; above it the tank is empty before the pump starts."""
    assert check("tank precharge", job(says("tank", precharge=charge, cut_in=40))).verdict is (
        verdict
    )


def test_the_air_charge_tells_its_figures_and_warns_only_above_cut_in() -> None:
    good, high = (
        check("tank precharge", job(says("tank", precharge=charge, cut_in=40)))
        for charge in (38, 41)
    )

    assert (good.governs, good.note) == ("38 psi, cut-in 40 psi", "")
    assert high.note == "above cut-in the tank is empty before the pump starts"


def test_what_the_air_charge_needs_is_named() -> None:
    assert check("tank precharge", job(says("tank", precharge=38))).verdict is Verdict.UNKNOWN
    lacks = check("tank precharge", job(SET, says("tank", cut_in=40, cut_out=60)))
    assert lacks.missing == ("precharge with the tank empty",)
    assert "tank precharge" not in names(job(says("tank", cut_in=40)))
    assert "tank precharge" not in names(job(says("tank", precharge=45, cut_in=40), OUT[0]))


def dosed(**values: Any) -> dict[str, Any]:
    said = {
        "chlorine_rule": "Texas", "chlorine_dose": 60, "chlorine_asked": 50,
        "chlorine_product": "bleach, 5.25 percent", "chlorine_amount": "8 cups",
    }  # fmt: skip
    return says("chlorine", **(said | values))


@pytest.mark.parametrize(
    ("values", "verdict"),
    [
        ({}, Verdict.WITHIN),
        ({"chlorine_dose": 40}, Verdict.STOP),
        ({"contact_asked": "8 h", "contact_time": "9 h"}, Verdict.WITHIN),
        ({"contact_asked": "8 h", "contact_time": "6 h"}, Verdict.STOP),
    ],
)
def test_chlorine_by_the_rule_of_the_place(values: dict[str, Any], verdict: Verdict) -> None:
    assert check("chlorine", job(dosed(**values))).verdict is verdict


def test_how_much_chlorine_the_well_takes() -> None:
    """440 + 1.2 - 168 = 273.2 ft x 1.469 = 401.3 gal x 3.785 x 60 mg/L = 91.1 g, by hand."""
    assert "401 gal of water in the casing: 91 g" in check("chlorine", job(dosed())).note


@pytest.mark.parametrize(
    ("name", "word"),
    [("chlorine_rule", "by whose rule"), ("chlorine_dose", "dose"),
     ("chlorine_asked", "dose the rule asks"), ("chlorine_amount", "amount used"),
     ("chlorine_product", "product strength, as 'bleach, 5.25 percent'")],
)  # fmt: skip
def test_what_chlorine_needs_is_named(name: str, word: str) -> None:
    said = dosed()
    values = {k: v for k, v in said["values"].items() if k != name}
    found = check("chlorine", job(said | {"values": values}))

    assert found.verdict is Verdict.UNKNOWN
    assert word in found.missing


# 467 + 1.2 - 168 = 300.2 ft of 6 in at 1.469 gal/ft: 441 gal, by hand.
POOL = says("well", well_depth="467 ft")


@pytest.mark.parametrize(
    ("amount", "product", "verdict", "words"),
    [
        # 236.6 mL x 52.5 g/L = 12.4 g in 441 gal = 1,669 L: 7.4 mg/L, by hand.
        ("1 cup", "bleach, 5.25 percent", Verdict.STOP, "gives 7 mg/L, 50 aimed at"),
        ("7 cups", "bleach, 5.25 percent", Verdict.WITHIN, "gives 52 mg/L"),
        ("1 1/2 quarts and 1/2 cup", "5.25 % bleach", Verdict.CAUTION, "gives 48 mg/L"),
        ("5 cups", "bleach, 5.25 percent", Verdict.STOP, "gives 37 mg/L"),
        # 5 oz = 141.7 g at 65 % = 92.1 g: 55 mg/L.
        ("5 oz", "calcium hypochlorite granules, 65 percent", Verdict.WITHIN, "gives 55 mg/L"),
        ("5 oz", "bleach, 5.25 %", Verdict.STOP, "gives 5 mg/L"),
        ("1 gallon", "bleach, 12.5 %", Verdict.CAUTION, "gives 283 mg/L"),
    ],
)
def test_what_was_poured_in_is_held_against_the_dose_aimed_at(
    amount: str, product: str, verdict: Verdict, words: str
) -> None:
    said = dosed(chlorine_amount=amount, chlorine_product=product, chlorine_dose=50)
    found = check("chlorine", job(said, POOL))

    assert found.verdict is verdict
    assert words.partition(",")[0] in found.note
    assert verdict is Verdict.WITHIN or words in found.governs
    assert "in 441 gal" in found.note


@pytest.mark.parametrize(
    ("amount", "product"),
    [
        ("some", "bleach, 5.25 %"), ("1 cup", "bleach"), ("1 cup", "bleach 5.25 to 6 %"),
        ("1 cup of 3 jugs", "bleach, 5.25 %"), ("5 oz", "65 %"), ("2 lb", "bleach, 5.25 %"),
        ("2 cups", "granules, 65 %"), ("1 cup and 1 lb", "5.25 %"), ("1/0 cup", "bleach, 5.25 %"),
        ("1 cup", "liquid, 65 %"), ("", "bleach, 5.25 %"), ("cup", "bleach, 5.25 %"),
    ],
)  # fmt: skip
def test_a_dose_that_is_not_plainly_said_is_not_known(amount: str, product: str) -> None:
    said = dosed(chlorine_amount=amount or "-", chlorine_product=product)
    found = check("chlorine", job(said, POOL))

    assert found.verdict is Verdict.UNKNOWN
    assert found.missing


@pytest.mark.parametrize("name", ["casing_diameter", "well_depth"])
def test_without_the_water_in_the_well_nobody_knows_what_a_dose_gives(name: str) -> None:
    bare = WELL | {"values": {k: v for k, v in WELL["values"].items() if k != name}}
    made = job_of(*STEEL, bare, PUMP, dosed())

    assert check("chlorine", made).verdict is Verdict.UNKNOWN


def test_a_level_read_while_pumping_does_not_shrink_the_water_that_was_dosed() -> None:
    drawn = says("level", water_level=400, level_state="pumping")

    assert "in 401 gal" in check("chlorine", job(dosed(chlorine_amount="2 cups"), drawn)).note


START = says("meter", step="start_up.first_start", amps_a=7)


@pytest.mark.parametrize(
    "ran",
    [
        START,
        says("meter", flow="10 gpm"),
        says("line_test", discharge_pressure=60, test_minutes=15, pressure_loss=0),
    ],
)
def test_a_dose_that_was_pumped_to_waste_is_given_again(ran: dict[str, Any]) -> None:
    found = check("chlorine", job(dosed(), ran))
    assert found.verdict is Verdict.STOP
    assert found.governs.endswith("Dose again")

    assert check("chlorine", job(dosed(), ran, dosed())).verdict is Verdict.WITHIN
    assert check("chlorine", job(ran, dosed())).verdict is Verdict.WITHIN
    stood = says("chlorine", contact_time="9 h")
    assert check("chlorine", job(dosed(), stood, ran)).verdict is Verdict.WITHIN


@pytest.mark.parametrize(("state", "lacks"), [("static", False), ("pumping", True)])
def test_the_water_at_rest_is_asked_for_where_no_level_at_rest_was_read(
    state: str, lacks: bool
) -> None:
    made = job_of(says("level", water_level=100, level_state=state), WELL)
    facts = Facts(made)

    assert (water_in_the_well(made, facts) is None) is lacks
    assert ("depth to water at rest" in facts.missing) is lacks
