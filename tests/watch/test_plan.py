"""How deep each line can go, held against the checks of a job in which it hangs that deep."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.check import Check, Verdict
from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.record.job import Job
from fieldbook.watch.planner.candidates import candidates
from fieldbook.watch.planner.deepest import FARTHEST
from fieldbook.watch.planner.document import plan_document
from fieldbook.watch.planner.plan import Plan, PlanRow, plan
from fieldbook.watch.planner.trial import PATH
from fieldbook.watch.planner.words import cells, details, heading
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import job_of, record, says, with_value, without
from tests.watch.plans import DUTY, HOSE_PLAN, SLOW_PLAN, STEEL_PLAN
from tests.watch.test_any_figures import documents


def line(found: Plan, name: str) -> PlanRow:
    return next(row for row in found.rows if row.candidate.name == name)


def one(job: Job, name: str) -> PlanRow:
    return line(plan(job, only=[name]), name)


def deepest(row: PlanRow, name: str) -> float:
    limit = next(limit for limit in row.limits if limit.name == name)
    assert limit.length is not None
    assert limit.missing == ()
    return limit.length


def shared(job: Job) -> Plan:
    """The plan for what every line shares."""
    return plan(job, only=["no line"])


@pytest.fixture(scope="module")
def steel() -> Plan:
    return plan(job_of(*STEEL_PLAN))


@pytest.fixture(scope="module")
def hose() -> Plan:
    return plan(job_of(*HOSE_PLAN))


def test_pressure_limit_of_threaded_pvc_by_hand() -> None:
    """Hand calculation: D1785 600 psi, threaded half of it, 55 psi at the top, 50 F water, 6 gpm.

    Bore 1.660 - 2.12 x 0.215 = 1.204 in, 1.139 in2: 6 x 0.32083 / 1.139 = 1.690 ft/s. Wave 4,720 /
    sqrt(1 + 300,000 x 1.23 / (400,000 x 0.215)) = 2,052 ft/s; surge 62.409 / 32.174 x 2,052 x 1.690
    / 144 = 46.7 psi. (300 - 55 - 46.7) psi x 144 / 62.409 lb/ft3 = 457.5 ft; dead-head 100 ft.
    """
    documents = tuple(d for d in SLOW_PLAN if d["kind"] != "curve_point")
    row = one(with_value(documents, "well", "shut_off_head", "100 ft"), "PVC 1-1/4 sch 120")

    assert deepest(row, "gross pressure") == pytest.approx(457.5, abs=0.5)


def test_dead_head_limit_of_threaded_pvc_by_hand() -> None:
    """Hand calculation: 500 ft shut-off, water at 168 ft: 300 psi is 692.2 ft of head.

    692.2 - 500 = 192.2 ft under water, 360.2 ft below the datum; 55 psi and surge allow 457.5.
    """
    row = one(job_of(*SLOW_PLAN), "PVC 1-1/4 sch 120")

    assert deepest(row, "gross pressure") == pytest.approx(360.2, abs=0.3)


def test_lift_path_limit_by_hand(steel: Plan) -> None:
    """Hand calculation for 2 in steel: lifting sub 5,000 less 400 lbf of friction is 4,600 lbf.

    Air weight 3.68 + 0.30 a foot; above 230 ft the bore, 3.356 in2, holds 1.4545 lbf a foot: 230
    ft weigh 1,249.9. Below, a foot weighs 3.98 less what pipe (3.68/489.6 ft3) and cable (30 % of
    0.30/62.4 ft3) displace: 3.98 - 0.469 - 0.090 = 3.421. Pump 104 less 14 %: 89.4; valve 5 less
    0.6. Under 230 ft: (4,600 - 1,249.9 - 93.9) / 3.421 = 951.8 ft, in all 1,181.8 ft of line.
    """
    row = line(steel, "steel 2 sch 40")

    assert deepest(row, "lift path") == pytest.approx(1181.8, abs=0.6)


def test_wall_in_service_by_hand(steel: Plan) -> None:
    """Hand calculation, 2 in steel, top joint, well dry, 55 psi at the top and the flow stopped.

    30 gpm run at 2.868 ft/s; 62.409 / 32.174 x 4,432 x 2.868 / 144 = 171.2 psi of surge. On 3.356
    in2 that is 759 lbf with the 55 psi; pipe and cable 3.98 L, column 1.4545 L, valve 5 and pump
    104: 5.4345 L + 868 = 3,093 gives L = 409.4 ft. The thread carries 7,500 psi on 0.4125 in2.
    Dead-head 500 ft lifts from the intake at the least: 500 x 1.4545 + 3.98 L + 109 is less there.
    """
    row = line(steel, "steel 2 sch 40")

    assert deepest(row, "wall, in service") == pytest.approx(409.4, abs=1.0)
    assert row.governs is not None
    assert row.governs.name in ("wall, in service", "gross pressure")


def real(documents: tuple[dict[str, Any], ...], row: PlanRow, length: float) -> Job:
    """The job with the candidate joint by joint, 20 ft each and a pup at the foot."""
    kept = [
        d
        for d in documents
        # The crew's stop and the gauge's scale are of the string that hangs, not of a plan.
        if d["kind"] not in ("line_choice", "piece", "limit", "gauge")
        or d["values"].get("piece") not in (None, "joint", "hose")
    ]
    if row.candidate.line == "hose":
        whole = next(d for d in documents if d["values"].get("piece") == "hose")
        return job_of(*kept, whole | {"values": whole["values"] | {"piece_length": length}})
    told = {
        "line": row.candidate.line,
        "nps": row.candidate.nps,
        "schedule": row.candidate.schedule,
        **{name: value.text for name, value in row.candidate.values.items()
           if name not in ("line", "nps", "schedule", "fitting_rating", "joint_length")},
    }  # fmt: skip
    count = int(length // 20.0)
    pieces = []
    if count:
        pieces.append(says("piece", place=0.1, piece="joint", joint_count=count, joint_length=20,
                           **told))  # fmt: skip
    if length - 20.0 * count > 0:
        pieces.append(says("piece", place=0.2, piece="pup", piece_length=length - 20.0 * count,
                           **{**told, "coupling_weight": 0}))  # fmt: skip
    return job_of(*kept, *pieces)


@pytest.mark.parametrize(
    ("which", "name"),
    [
        ("steel", "steel 1 sch 40"),
        ("steel", "steel 2 sch 40"),
        ("steel", "steel 4 sch 40"),
        ("hose", "hose 2.00 in"),
    ],
)
def test_the_checks_of_a_real_job_agree_on_both_sides_of_each_limit(
    which: str, name: str, request: pytest.FixtureRequest
) -> None:
    documents = STEEL_PLAN if which == "steel" else HOSE_PLAN
    row = line(request.getfixturevalue(which), name)
    sought = {"gross pressure": "pressure", "wall, lifted full": "lift", "lift path": "lift"}
    least = min(deepest(row, n) for n in ("wall, lifted full", "lift path"))
    proved = 0
    for limit, check in sought.items():
        length = deepest(row, limit)
        if not 0.0 < length < FARTHEST or (check == "lift" and length > least):
            continue
        verdicts = [
            next(c.verdict for c in Watcher(real(documents, row, at)).look().checks
                 if c.name == check)
            for at in (length - 0.5, length + 0.5)
        ]  # fmt: skip
        assert verdicts[0] is not Verdict.STOP, limit
        assert verdicts[1] is Verdict.STOP, limit
        proved += 1
    assert proved >= 1


def test_the_plan_hangs_what_the_job_hangs(steel: Plan) -> None:
    """The job's own string, planned for where it hangs, weighs what the lift check says."""
    watched = Watcher(job_of(*STEEL_PLAN)).look().lift.loads
    at = one(with_value(STEEL_PLAN, "setting", "setting_depth", "380.5 ft"), "steel 2 sch 40").at

    assert watched is not None
    assert at is not None
    planned = at.trial.lift.loads
    assert planned is not None
    assert at.trial.length == pytest.approx(378.0)  # 18 joints of 21 ft
    for case in ("full", "drained", "design"):
        assert getattr(planned, case).m_as("lbf") == pytest.approx(
            getattr(watched, case).m_as("lbf"), rel=1e-9
        )


def test_light_hose_is_held_at_the_first_depth_that_is_too_much() -> None:
    """Hose lighter than water loads most with its end at the level; deeper is no way out."""
    light = with_value(HOSE_PLAN, "piece", "hose_density", 0.9)
    light = job_of(*_with(_documents(light), "piece", "line_weight", 2.0))
    row = one(with_value(_documents(light), "rig", "lifting_sub_rating", 1400), "hose 2.00 in")

    length = deepest(row, "lift path")
    assert 100.0 < length < 240.0


def _documents(job: Job) -> tuple[dict[str, Any], ...]:
    return tuple(
        {"kind": e.kind, "by": e.by, "values": {n: v.text for n, v in e.values.items()}}
        for e in job.entries
    )


def _with(
    documents: tuple[dict[str, Any], ...], kind: str, name: str, value: Any
) -> tuple[dict[str, Any], ...]:
    return _documents(with_value(documents, kind, name, value))


@pytest.mark.parametrize(
    ("kind", "name", "lacks", "of"),
    [
        ("cable", "cable_weight", "cable weight", "steel 2 sch 40"),
        ("pump", "pump_weight", "pump and motor weight", "steel 2 sch 40"),
        ("well", "surface_pressure", "pressure at the top", "steel 2 sch 40"),
        ("rig", "dry_friction", "friction and break-out", "steel 2 sch 40"),
        ("rig", "mast_rating", "mast rating", "steel 2 sch 40"),
        ("rig", "sheave_factor", "sheave factor", "steel 2 sch 40"),
        ("line_choice", "steel_grade", "steel grade", "steel 3 sch 40"),
        ("line_choice", "fitting_rating", "rating of the check valve", "steel 3 sch 40"),
        ("line_choice", "tension_rating", "working tensile load", "PVC 1-1/4 sch 120"),
        ("well", "water_temperature", "water temperature", "PVC 1-1/4 sch 120"),
    ],
)
def test_what_is_left_out_makes_it_unknown_and_is_named(
    kind: str, name: str, lacks: str, of: str
) -> None:
    shallow = _with(SLOW_PLAN, "setting", "setting_depth", "200 ft")
    whole, row = one(job_of(*shallow), of), one(without(shallow, kind, name), of)

    assert whole.verdict in (Verdict.WITHIN, Verdict.CAUTION)
    assert row.verdict is Verdict.UNKNOWN
    assert lacks in " / ".join(row.missing)


def test_a_rating_of_pvc_is_never_made_up(steel: Plan) -> None:
    for row in steel.rows:
        if row.candidate.line == "pvc" and row.candidate.name != "PVC 1-1/4 sch 120":
            assert "working tensile load" in row.missing
            assert row.verdict in (Verdict.UNKNOWN, Verdict.STOP)


def test_without_a_sheet_the_hose_is_unknown_and_says_what_its_sheet_must_give(
    steel: Plan,
) -> None:
    row = line(steel, "hose")

    assert row.verdict is Verdict.UNKNOWN
    for lack in ("line weight", "hose bore", "hose specific gravity", "swell of the bore"):
        assert row.missing.count(lack) == 1
    assert "a hose reel (rig: block and line)" in row.missing


def test_a_window_that_the_water_is_outside_of_forbids_the_hose() -> None:
    row = one(with_value(HOSE_PLAN, "well", "water_temperature", "130 F"), "hose 2.00 in")

    assert row.verdict is Verdict.STOP
    assert row.governs is not None
    assert (row.governs.name, row.governs.length) == ("hose window", 0.0)


def test_friction_of_a_hose_by_its_sheet() -> None:
    """Engineering ToolBox: 200 gpm, 3.048 in, C 140: 9.007 ft per 100 ft; no valve here."""
    documents = _with(HOSE_PLAN, "piece", "hose_bore", "3.048 in")
    documents = _with(documents, "piece", "hose_swell", "0 %")
    documents = tuple(d for d in documents if d["values"].get("piece") != "check valve")
    at = one(with_value(documents, "duty", "duty_flow", "200 gpm"), "hose 3.05 in").at

    assert at is not None
    friction = at.flowing.friction.value
    assert friction is not None
    assert friction.m_as("ft") == pytest.approx(9.007 * at.trial.length / 100, rel=1e-4)


def test_swell_lessens_the_friction_of_a_hose(hose: Plan) -> None:
    """Hand calculation: 15 % more bore loses 1 / 1.15 ** 4.8655 = 0.5066 of it, valve aside."""
    documents = tuple(d for d in HOSE_PLAN if d["values"].get("piece") != "check valve")
    rows = [
        one(with_value(documents, "piece", "hose_swell", swell), "hose 2.00 in").at
        for swell in ("0 %", "15 %")
    ]
    lost = [at.flowing.friction.value for at in rows if at is not None]
    assert lost[0] is not None
    assert lost[1] is not None

    assert lost[1].m_as("ft") / lost[0].m_as("ft") == pytest.approx(0.5066, abs=1e-3)
    assert hose.possible


def test_total_head_by_hand(steel: Plan) -> None:
    """Hand calculation for 2 in steel, 30 gpm, C 120, 297.5 ft of line, one valve of K 4.6.

    0.2083 (100/120)^1.852 30^1.852 / 2.067^4.8655 = 2.3628 ft per 100 ft: 7.03 ft. Velocity 2.868
    ft/s, 0.1279 ft of head, x 4.6 = 0.588 ft. 210 + 55 x 144 / 62.409 + 7.62 = 344.5 ft.
    """
    at = line(steel, "steel 2 sch 40").at

    assert at is not None
    assert at.flowing.velocity.value is not None
    assert at.flowing.velocity.value.m_as("ft/s") == pytest.approx(2.868, abs=0.002)
    assert at.flowing.friction.value is not None
    assert at.flowing.friction.value.m_as("ft") == pytest.approx(7.62, abs=0.02)
    assert at.flowing.total_head.value is not None
    assert at.flowing.total_head.value.m_as("ft") == pytest.approx(344.5, abs=0.1)


def test_the_operating_point_lies_on_both_curves(steel: Plan) -> None:
    """The level is 168 ft at rest and 210 ft at 30 gpm: 1.4 ft down for each gpm (by hand)."""
    at = line(steel, "steel 2 sch 40").at
    assert at is not None
    point = at.flowing.point.value
    assert point is not None
    flow = point.flow.m_as("gpm")
    assert 30.0 < flow < 40.0
    lost = 0.2083 * (100 / 120) ** 1.852 * flow**1.852 / 2.067**4.8655 * at.trial.length / 100
    lost += 4.6 * (0.4085 * flow / 2.067**2) ** 2 / 64.348

    assert point.head.m_as("ft") == pytest.approx(
        168 + 1.4 * flow + 55 * 144 / 62.409 + lost, abs=0.05
    )


def test_cable_by_drop() -> None:
    """REFERENCES W6.4, NEC Table 8: 12 A, 600 ft of 10 AWG, three phases: 15.46 V, of 460 V."""
    documents = _with(STEEL_PLAN, "pump", "service_amps", "12 A")
    documents = _with(documents, "pump", "motor_voltage", "460 V")
    at = (600 - 10) / 1.02
    found = shared(with_value(documents, "setting", "setting_depth", f"{at:.6f} ft")).supply

    assert found is not None
    assert found.length.m_as("ft") == pytest.approx(600)
    drops = {step.size: step.drop for step in found.steps.value or ()}
    assert drops["10"] == pytest.approx(15.46 / 460, abs=3e-5)
    assert found.size.value is not None
    assert found.size.value.size == "10"
    assert found.allowed_by.startswith("common practice")


def test_the_crews_own_drop_goes_before_the_usual_one() -> None:
    found = shared(job_of(*STEEL_PLAN, says("cable", allowed_drop="3 %"))).supply
    usual = shared(job_of(*STEEL_PLAN)).supply
    assert found is not None
    assert usual is not None

    assert found.allowed == pytest.approx(0.03)
    assert found.allowed_by == "your figure"
    sizes = [step.size for step in found.steps.value or ()]
    assert found.size.value is not None
    assert usual.size.value is not None
    assert sizes.index(found.size.value.size) > sizes.index(usual.size.value.size)


@pytest.mark.parametrize("name", ["service_amps", "motor_voltage", "motor_phase"])
def test_cable_needs_the_nameplate(name: str) -> None:
    found = shared(without(STEEL_PLAN, "pump", name)).supply

    assert found is not None
    assert found.size.value is None
    assert found.size.missing


def test_cooling_by_hand(steel: Plan) -> None:
    """Hand calculation: 30 gpm past 3.75 in in 6 in is 0.0668 / 0.1197 ft2 = 0.559 ft/s."""
    assert steel.cooling.verdict is Verdict.WITHIN
    assert steel.cooling.allowable is not None
    assert steel.cooling.allowable.m_as("ft/s") == pytest.approx(0.559, abs=0.002)
    for kind, figure in (("pump", "motor_diameter"), ("well", "casing_diameter"),
                         ("duty", "duty_flow"), ("well", "screen_top")):  # fmt: skip
        assert shared(without(STEEL_PLAN, kind, figure)).cooling.verdict is Verdict.UNKNOWN


def test_the_wells_room_by_hand(steel: Plan) -> None:
    """210 ft + 10 ft; 460 ft from the ground is 461.2 from the casing, less 10 and 2.5 ft."""
    assert steel.room.least.value is not None
    assert steel.room.most.value is not None
    assert steel.room.least.value.m_as("ft") == pytest.approx(220.0)
    assert steel.room.most.value.m_as("ft") == pytest.approx(448.7)


def test_a_setting_on_the_other_datum_is_brought_over() -> None:
    moved = shared(with_value(STEEL_PLAN, "setting", "datum", "ground")).setting
    lost = shared(
        without(_with(STEEL_PLAN, "setting", "datum", "ground"), "well", "stick_up")
    ).setting

    assert moved.value is not None
    assert moved.value.m_as("ft") == pytest.approx(301.2)
    assert lost.value is None
    assert lost.missing == ("stick-up",)


def test_a_setting_that_its_stick_up_puts_above_the_ground_is_no_setting() -> None:
    above = job_of(*STEEL_PLAN, says("well", datum="ground", stick_up="310 ft"))
    found = plan(above, only=["steel 2 sch 40"])

    assert found.setting.value is None
    assert found.setting.missing == ("a setting below the ground (stick-up 310.0 ft)",)
    assert found.supply is None


def test_anchors_by_hand(hose: Plan) -> None:
    """Two pulleys of K 1.05: 1.05 W on the first; at 60 deg the anchor carries the pull itself."""
    at = line(hose, "hose 2.00 in").at
    assert at is not None
    loads = at.trial.lift.loads
    assert loads is not None
    pull = (loads.worst.m_as("lbf") + 300) * 1.05
    head, corner = at.anchors

    assert head.load.m_as("lbf") == pytest.approx(pull * 2**0.5)
    assert corner.load.m_as("lbf") == pytest.approx(pull * 1.05)
    assert [load.m_as("lbf") / pull for load in head.by_angle] == pytest.approx(
        [0.5176, 1.0, 1.4142, 1.7321, 1.9319, 2.0], abs=1e-4
    )


def test_nothing_is_possible_where_nothing_is_known() -> None:
    found = plan(job_of(says("job", job_number="P", line="pvc", work="check")))

    assert not found.possible
    assert all(row.verdict is Verdict.UNKNOWN for row in found.rows)
    assert found.setting.missing


def test_the_words_tell_every_line_and_figure(steel: Plan, hose: Plan) -> None:
    for found in (steel, hose):
        told = "\n".join(" ".join(pair) for pair in heading(found))
        assert "300.0 ft" in told
        assert len({cells(row)[0] for row in found.rows}) == len(found.rows)
        for row in found.rows:
            words = "\n".join(" ".join(pair) for pair in details(found, row))
            for lack in row.missing:
                assert lack in words
    document = plan_document(steel)
    assert document["possible"] is True
    assert [entry["name"] for entry in document["lines"]] == [
        row.candidate.name for row in steel.rows
    ]


@pytest.mark.parametrize("base", [STEEL_PLAN, HOSE_PLAN], ids=["steel", "hose"])
@settings(max_examples=20, deadline=None)
@given(st.lists(documents(("duty", "setting", "curve_point", "line_choice", "hose_sheet")),
                max_size=5))  # fmt: skip
def test_no_figure_breaks_the_plan(
    base: tuple[dict[str, Any], ...], written: list[dict[str, Any]]
) -> None:
    job = job_of(*base)
    for document in written:
        try:
            draft_from(document)
        except Refused:
            continue
        record(job, document)
    names = [c.name for c in candidates(job)]
    found = plan(job, only=[*names[:1], *names[14:16], *names[-1:]])
    assert plan_document(found)["lines"]
    for row in found.rows:
        assert list(details(found, row))


def test_every_kind_the_plan_reads_is_in_the_fixture() -> None:
    assert {d["kind"] for d in DUTY} >= {"duty", "setting", "curve_point", "line_choice"}


def test_couplings_that_nobody_weighed_are_counted_at_every_joint_of_a_plan() -> None:
    """300 ft of 1-1/4 in pipe in joints of 20 ft has 15 couplings, each 0.7 lbf at the most."""

    def lifted(**told: Any) -> Check:
        choice = says("line_choice", line="pvc", nps="1-1/4", schedule="80", joint_length=20,
                      tension_rating=1400, fitting_rating=1900, **told)  # fmt: skip
        row = plan(job_of(*STEEL_PLAN, choice), only=["PVC 1-1/4 sch 80"]).rows[0]
        assert row.at is not None
        return row.at.trial.limits[PATH]

    usual, typed, none = (lifted(**each) for each in ({}, {"coupling_weight": 0.7},
                                                      {"coupling_weight": 0}))  # fmt: skip
    assert usual.demand is not None
    assert none.demand is not None
    assert usual.demand == typed.demand
    assert 8.0 < (usual.demand - none.demand).m_as("lbf") < 10.5
