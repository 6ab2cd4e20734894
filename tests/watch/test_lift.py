"""The lift check on whole jobs, against hand calculations and with every figure taken away."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Verdict
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job
from fieldbook.watch.watcher import Look, Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says, with_value, without


def look(job: Job) -> Look:
    return Watcher(job).look()


def lbf(value: Any) -> float:
    return float(value.m_as("lbf"))


def test_a_full_hose_weighs_what_a_hand_calculation_says() -> None:
    """Hand calculation, 50 F water of 62.409 lb/ft3 (IAPWS, REFERENCES row), to 240 ft of water.

    Air: hose 0.80 x 420 = 336, cable 0.38 x 421 = 160.0, valve 10, pump 128. Bore water above
    240 ft: pi/4 x (2.3/12)^2 x 62.409 x 240 = 432.2. Buoyancy: hose 180 x 0.80/1.2 = 120.0, valve
    1.2, cable 0.30 x 0.38 x 181 = 20.6, pump 0.14 x 128 = 17.9.
    """
    loads = look(job_of(*HOSE)).lift.loads

    assert loads is not None
    assert lbf(loads.full) == pytest.approx(906.4, abs=0.5)
    assert lbf(loads.drained) == pytest.approx(906.4 - 432.2, abs=0.5)
    # With no water in the well nothing is buoyed and the whole 420 ft, and the valve, is full.
    assert lbf(loads.design) == pytest.approx(634.0 + 1.8007 * 421, abs=1.0)


def test_a_full_steel_string_weighs_what_a_hand_calculation_says() -> None:
    """Hand calculation, ASTM A53 threaded-and-coupled 3.68 lb/ft (from memory), steel 489.6 lb/ft3.

    Air: pipe 3.68 x 378 = 1391.0, cable 0.30 x 379 = 113.7, valve 5, pump 104. Bore water above
    230 ft: pi/4 x (2.067/12)^2 x 62.409 x 230 = 334.5. Buoyancy: pipe 148 x 3.68/489.6 x 62.409
    = 69.4, valve 0.6, cable 13.4, pump 14.6.
    """
    loads = look(job_of(*STEEL)).lift.loads

    assert loads is not None
    assert lbf(loads.full) == pytest.approx(1850.3, abs=0.5)
    assert lbf(loads.drained) == pytest.approx(1850.3 - 334.5, abs=0.5)


def test_the_rope_sees_string_and_block_over_two_parts_with_friction() -> None:
    """Fast line of N = 2 parts at K 1.06: K^2 / (1 + K) = 0.5455 of the load (API RP 9B form)."""
    links = {link.check.name: link.check for link in look(job_of(*STEEL)).lift.links}

    assert lbf(links["wire rope"].demand) == pytest.approx((1850.3 + 400 + 95) * 0.54544, abs=1.0)
    assert lbf(links["wire rope"].allowable) == pytest.approx(13120 / 3.5)


def test_a_pulley_carries_twice_the_pull_times_the_sine_of_half_its_turn() -> None:
    """Hand calculation: 1.05 x 1.4142 at 90 degrees, then 1.05^2 x 1.0 at 60 degrees."""
    links = {link.check.name: link.check for link in look(job_of(*HOSE)).lift.links}

    pull = 906.4 + 300
    assert lbf(links["head roller"].demand) == pytest.approx(pull * 1.05 * 1.41421, abs=1.0)
    assert lbf(links["anchor of corner pulley"].demand) == pytest.approx(pull * 1.05**2, abs=1.0)
    assert lbf(links["reel"].demand) == pytest.approx(pull * 1.05**2, abs=1.0)


def test_past_the_pulleys_the_hose_carries_what_the_reel_pulls() -> None:
    """Hand calculation: two pulleys of K 1.05 put a tenth on top of the pull at the well."""
    links = {link.check.name: link.check for link in look(job_of(*HOSE)).lift.links}

    past = links["hose past the pulleys"]
    assert lbf(past.demand) == pytest.approx((906.4 + 300) * 1.05**2, abs=1.0)
    assert lbf(past.allowable) == pytest.approx(3200)
    assert "past 2 pulleys" in past.formula


@pytest.mark.parametrize(
    ("said", "parts", "share", "words"),
    [
        ({}, 2, 0.54544 + 0.48544, "taken as tied at the ground"),
        ({"dead_end": "ground"}, 2, 0.54544 + 0.48544, ", tied at the ground"),
        ({"dead_end": "mast head"}, 2, 0.54544, "line's own pull, hoisting"),
        ({}, 1, 1.06, "line's own pull, hoisting"),
    ],
)
def test_the_mast_carries_the_dead_line_too_unless_it_ends_above(
    said: dict[str, Any], parts: int, share: float, words: str
) -> None:
    """Hand calculation at K 1.06: the fast line K^2 / (1 + K), the dead line 1 / (1 + K)."""
    job = job_of(*STEEL)
    record(job, says("rig", parts_of_line=parts, **said))
    mast = next(link.check for link in look(job).lift.links if link.check.name == "mast")

    assert lbf(mast.demand) == pytest.approx((1850.3 + 400 + 95) * (1.0 + share), abs=1.0)
    assert words in mast.formula


@pytest.mark.parametrize("documents", [HOSE, STEEL], ids=["hose", "steel"])
def test_the_whole_jobs_are_within(documents: tuple[dict[str, Any], ...]) -> None:
    """Otherwise the tests that take one figure away would prove nothing."""
    assert look(job_of(*documents)).lift.check.verdict is Verdict.WITHIN


_NEEDED = [
    *[(HOSE, "rig", name) for name in ("hoist", "reel_pull", "lifting_sub_rating",
                                       "holding_rating", "dry_friction")],
    *[(HOSE, "redirect", n) for n in ("turn_angle", "sheave_factor", "pulley_rating",
                                      "anchor_rating")],
    *[(HOSE, "piece", n) for n in ("hose_bore", "hose_swell", "line_weight", "hose_density",
                                   "tension_rating", "fitting_rating")],
    (HOSE, "cable", "cable_weight"),
    (HOSE, "pump", "pump_weight"),
    (HOSE, "pump", "pump_length"),
    *[(STEEL, "rig", n) for n in ("hoist", "parts_of_line", "sheave_factor", "block_weight",
                                  "drum_pull", "rope_breaking", "rope_design_factor",
                                  "mast_rating", "hook_rating", "holding_rating",
                                  "lifting_sub_rating", "dry_friction")],
    *[(STEEL, "piece", n) for n in ("nps", "schedule", "steel_grade", "thread_design_factor",
                                    "fitting_rating", "joint_length", "piece_weight")],
    (STEEL, "cable", "cable_weight"),
    (STEEL, "pump", "pump_weight"),
]  # fmt: skip


@pytest.mark.parametrize(
    ("documents", "kind", "name"), _NEEDED, ids=[f"{k}-{n}" for _, k, n in _NEEDED]
)
def test_a_missing_figure_is_named_and_never_within(
    documents: tuple[dict[str, Any], ...], kind: str, name: str
) -> None:
    check = look(without(documents, kind, name)).lift.check

    assert check.verdict is Verdict.UNKNOWN
    label = definition(name).label.lower()
    words = {"pulley_rating": "rating of", "anchor_rating": "rating of anchor",
             "turn_angle": "turn at", "sheave_factor": "sheave factor"}  # fmt: skip
    expected = words.get(name, label if name != "fitting_rating" else "rating")
    assert any(expected in lack.lower() for lack in check.missing), check.missing


_GUESSED = [
    (documents, kind, name)
    for documents, kind, name in _NEEDED
    if not definition(name).is_words and definition(name).dimension != "count"
]


@pytest.mark.parametrize(
    ("documents", "kind", "name"), _GUESSED, ids=[f"{k}-{n}" for _, k, n in _GUESSED]
)
def test_a_lift_on_an_estimate_is_a_caution_that_names_it(
    documents: tuple[dict[str, Any], ...], kind: str, name: str
) -> None:
    values = [d["values"].get(name) for d in documents if d["kind"] == kind]
    typed = next(value for value in values if value is not None)
    seen = look(with_value(documents, kind, name, f"~{typed}"))

    assert seen.lift.check.verdict is Verdict.CAUTION
    assert f"estimated: {within(definition(name).label)}" in seen.lift.check.note
    assert seen.verdict is not Verdict.WITHIN


def test_an_estimate_widens_what_the_gauge_should_read() -> None:
    sure = look(job_of(*STEEL)).readings.expect_full
    guessed = look(with_value(STEEL, "pump", "pump_weight", "~230 lb")).readings.expect_full
    typed = look(with_value(STEEL, "pump", "pump_weight", "230 lb")).readings.expect_full
    assert sure is not None
    assert guessed is not None
    assert typed is not None
    assert lbf(guessed.high - guessed.low) > lbf(typed.high - typed.low)


@pytest.mark.parametrize(
    ("documents", "kind", "name", "value", "governs"),
    [
        (HOSE, "piece", "tension_rating", 1100, "hose past the pulleys"),
        (HOSE, "redirect", "anchor_rating", 1200, "anchor of"),
        (HOSE, "rig", "reel_pull", 1300, "reel"),
        (HOSE, "rig", "holding_rating", 1200, "holding tool"),
        (HOSE, "piece", "fitting_rating", 1300, "hose past the pulleys"),
        (STEEL, "piece", "thread_design_factor", 8, "thread root, joint 1"),
        (STEEL, "rig", "drum_pull", 1200, "drum line pull"),
        (STEEL, "rig", "mast_rating", 3000, "mast"),
        (STEEL, "rig", "rope_breaking", 4000, "wire rope"),
        (STEEL, "rig", "hook_rating", 2000, "hook"),
    ],
)
def test_a_link_over_its_rating_is_a_stop_and_is_named(
    documents: tuple[dict[str, Any], ...], kind: str, name: str, value: float, governs: str
) -> None:
    """Line pull above the drum's rating is a stop: common practice, no published source."""
    check = look(with_value(documents, kind, name, value)).lift.check

    assert check.verdict is Verdict.STOP
    assert governs in check.governs


def test_a_known_overload_is_a_stop_even_when_something_is_missing() -> None:
    documents = tuple(d for d in STEEL if d["kind"] != "limit")
    job = without(documents, "rig", "mast_rating")
    record(job, says("rig", hook_rating=1000))

    assert look(job).lift.check.verdict is Verdict.STOP


def test_without_a_deepest_level_no_water_is_counted_on() -> None:
    answer = look(without(STEEL, "well", "deepest_level")).lift

    assert answer.loads is not None
    assert answer.loads.worst == answer.loads.design
    assert "no deepest level" in answer.check.note


def test_a_level_read_below_the_deepest_that_was_said_is_the_one_to_lift_by() -> None:
    """Hand calculation: 20 ft more of 2 in column, and of pipe and cable that no water carries."""
    job = job_of(*STEEL, says("level", water_level=250, level_state="static"))
    answer = look(job).lift

    assert answer.loads is not None
    bare = 20 * (3.68 * 62.409 / 489.6 + 0.30 * 0.30 * 62.409 / 62.4)
    assert lbf(answer.loads.full) == pytest.approx(1850.3 + 20 * 1.4543 + bare, abs=0.5)
    assert "250.0 ft, below the deepest said" in answer.check.note
    pumped = says("level", water_level=250, level_state="pumping", minutes_on=30, flow=9)
    record(job_before := job_of(*STEEL[:1], pumped, *STEEL[1:]), says("well", deepest_level=230))
    assert "below the deepest said" not in look(job_before).lift.check.note


def test_metal_couplings_on_plastic_displace_as_metal() -> None:
    """Hand calculation: 10 couplings of 0.7 lb under water lose 7 x 62.4 / 489.6 = 0.9 lbf."""
    pvc = says("piece", place=1, piece="joint", nps="1-1/4", schedule="80", joint_count=10,
               joint_length=20, tension_rating=1400, pressure_rating=260)  # fmt: skip
    base = [d for d in STEEL if d["kind"] not in ("piece", "level")]
    base[0] = says("job", job_number="P-1", line="pvc", work="pull")
    wet = says("well", deepest_level=0)
    bare, coupled = (
        look(job_of(*base, wet, joint)).lift.loads
        for joint in (
            pvc | {"values": pvc["values"] | {"coupling_weight": each}} for each in (0, 0.7)
        )
    )
    untyped = look(job_of(*base, wet, pvc)).lift

    assert bare is not None
    assert coupled is not None
    assert lbf(coupled.drained) - lbf(bare.drained) == pytest.approx(7.0 - 0.89, abs=0.05)
    assert untyped.loads == coupled, "the heaviest usual of 1-1/4 in stands where none is typed"
    assert "couplings: 0.7 lbf each" in untyped.check.note


def test_what_hangs_is_unknown_while_two_devices_are_at_odds_over_a_joint() -> None:
    """A tablet's late "joint 1 out" after joints went in must not make the string look short."""
    joints = [says("joint", joint_number=n, direction="out", joint_length=20.94) for n in (1, 2)]
    job = job_of(*STEEL, says("load", gauge_reading=900), *joints)
    assert look(job).lift.check.verdict is Verdict.WITHIN
    first = job.live("joint")[0]
    newest = job.entries[-1]
    job.add(first._replace(id=new_id(newest.time), seq=newest.seq + 1, device="d-tablet"))
    check = look(job).lift.check

    assert check.verdict is Verdict.UNKNOWN
    assert "which entry of joint 1 out counts: cross out the other" in check.missing
    strike = says("strike", reason="counted twice") | {"strikes": job.entries[-1].id}
    record(job, strike)
    assert look(job).lift.check.verdict is Verdict.WITHIN


def test_a_string_that_parted_is_unknown_until_all_of_it_is_out() -> None:
    """What let go once may have hurt rope, hook and threads, and less hangs than is described."""
    job = job_of(*STEEL, says("load", gauge_reading=900))
    record(job, says("finding", part="string", finding="let go", string_state="lost"))
    parted = look(job)

    assert parted.lift.check.verdict is Verdict.UNKNOWN
    assert any("lost or parted" in lack for lack in parted.lift.check.missing)
    assert parted.readings.expect_full is None
    assert parted.readings.ahead.lines() == []
    assert parted.readings.never is not None, "the crew's stop and the links still limit the pull"
    record(job, says("finding", part="string", finding="counted", string_state="recovered"))
    assert look(job).lift.check.verdict is Verdict.WITHIN


def test_the_weakest_joint_is_not_always_the_top_one() -> None:
    """The lower six joints are corroded to 0.100 in and govern, although less hangs on them."""
    corroded = says(
        "piece",
        place=1.5,
        piece="joint",
        nps="2",
        schedule="40",
        least_wall=0.100,
        steel_grade="A",
        thread_design_factor=4,
        joint_count=6,
        joint_length=21,
    )
    check = look(job_of(*STEEL, corroded)).lift.chain

    assert check.governs == "thread root, joint 19"


def test_the_load_falls_with_every_joint_and_ends_when_the_pump_is_out() -> None:
    job = job_of(*STEEL)
    watcher = Watcher(job)
    worst = []
    for number in range(1, 18):
        record(job, says("joint", direction="out", joint_number=number, joint_length=21))
        loads = watcher.look().lift.loads
        assert loads is not None
        worst.append(lbf(loads.worst))
    record(job, says("pump_out"))

    assert worst == sorted(worst, reverse=True)
    assert watcher.look().lift.loads is None
    assert "nothing hangs" in watcher.look().lift.check.governs
