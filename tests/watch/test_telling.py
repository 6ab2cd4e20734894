"""What the gauge is telling: its shape, what it refuses to claim, and single hand-made cases."""

from __future__ import annotations

from typing import Any

import pytest
from scipy.stats import chi2  # type: ignore[import-untyped]

from calc.drop_line.fill import Fill
from calc.units import quantity
from fieldbook.record.job import Job
from fieldbook.watch.document import look_document
from fieldbook.watch.listen.families import EXPECTED, FAMILIES
from fieldbook.watch.listen.telling import Telling, _chance
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says, without


def told(job: Job) -> Telling:
    return Watcher(job).look().telling


def shown(job: Job, *, fill: Fill = Fill.FULL, raised: float = 0.0) -> float:
    """The reading at the middle of what friction leaves, for the job as it stands."""
    look = Watcher(job).look()
    tool_zero, per = (48.0, 0.5) if look.now.record.hose_ft == 0.0 else (30.0, 2**0.5)
    load = look.now.load(look.now.level, fill, raised=quantity(raised, "ft"))
    return tool_zero + per * float(load.m_as("lbf"))


def pull(job: Job, joints: range, *, fill: Fill = Fill.FULL, off: float = 0.0) -> None:
    for number in joints:
        read = round(shown(job, fill=fill) + off)
        record(
            job,
            says(
                "joint", direction="out", joint_number=number, joint_length=21, gauge_reading=read
            ),
        )


def begun() -> Job:
    job = job_of(*STEEL)
    record(job, says("load", gauge_reading=round(shown(job))))
    pull(job, range(1, 5))
    return job


def test_readings_on_the_curve_are_as_expected() -> None:
    telling = told(begun())

    assert (telling.verdict, telling.best and telling.best.name) == (EXPECTED, EXPECTED)
    assert not telling.decided


def test_nothing_is_told_without_a_reading_or_with_the_pump_out() -> None:
    assert told(job_of(*STEEL)).missing == ("a gauge reading",)
    assert told(job_of(*STEEL, says("pump_out"))).verdict == "nothing to tell"


@pytest.mark.parametrize(
    ("kind", "name"),
    [
        ("gauge", "gauge_error"), ("gauge", "gauge_zero"), ("gauge", "gauge_place"),
        ("rig", "parts_of_line"), ("pump", "pump_weight"), ("cable", "cable_weight"),
        ("piece", "joint_length"),
    ],
)  # fmt: skip
def test_what_is_missing_is_named_and_nothing_is_claimed(kind: str, name: str) -> None:
    job = without(STEEL, kind, name)
    record(job, says("load", gauge_reading=900))
    telling = told(job)

    assert telling.verdict == "unknown"
    assert telling.best is None
    assert telling.missing


def test_without_a_level_nothing_is_claimed() -> None:
    job = job_of(*(d for d in STEEL if d["kind"] != "level"), says("load", gauge_reading=900))

    assert told(job).missing == ("depth to water",)


def test_half_the_reading_from_the_start_is_the_parts_of_line() -> None:
    """5,000 lbf on two parts reads 2,500 where one was written: common practice."""
    job = job_of(*STEEL)
    for raised in (0.0, 10.0, 20.0):
        read = 48 + (shown(job, raised=raised) - 48) / 2
        record(job, says("load", gauge_reading=round(read), raised=raised))
    telling = told(job)

    assert telling.best is not None
    assert telling.best.name == "gauge read on the wrong parts of line"


def test_a_lost_line_of_pipe_is_named_by_its_joint() -> None:
    """Parted below joint 9 of 18: what hangs from then on is what the statics give for nine."""
    job = begun()
    whole = Watcher(job).look().now.record
    for number in range(5, 8):
        hung = whole.joint_ends[8] - whole.joint_ends[number - 2]
        weight = sum(p.numbers.weight for p in whole.pieces[: whole.joint_ends[8]][-hung:])
        buoyed = max((9 - number + 1) * 21.0 - 168.0, 0.0)
        assert buoyed == 0.0
        says_it = says(
            "joint", direction="out", joint_number=number, joint_length=21,
            gauge_reading=round(48 + weight / 2),
        )  # fmt: skip
        record(job, says_it)
    telling = told(job)

    assert telling.decided
    assert telling.best is not None
    assert (telling.best.name, telling.best.detail) == ("parted", "below joint 9")
    assert "Cable" in telling.look_at


def test_a_frozen_gauge_is_found_while_joints_come_out() -> None:
    job = begun()
    status = round(shown(job))
    for number in range(5, 10):
        record(
            job,
            says("joint", direction="out", joint_number=number, joint_length=21,
                 gauge_reading=status),
        )  # fmt: skip
    telling = told(job)

    assert telling.best is not None
    assert telling.best.name == "gauge dead"


def test_draining_told_by_the_crew_is_as_expected_when_the_load_fell() -> None:
    def after(fill: Fill) -> Telling:
        """A dead gauge would not fall either: so the string is raised, and the needle moves."""
        job = job_of(*HOSE)
        before = round(shown(job))
        record(job, says("load", gauge_reading=before))
        drain: dict[str, Any] = {"drained_by": "plug and bar", "load_before": before}
        record(job, says("drain", **drain, load_after=round(shown(job, fill=fill)) + 12))
        for raised in (9, 18):
            read = round(shown(job, fill=fill, raised=raised)) - 9
            record(job, says("load", gauge_reading=read, raised=raised))
        return told(job)

    fell, stayed = after(Fill.DRAINED), after(Fill.FULL)

    assert fell.verdict == EXPECTED
    assert fell.best is not None
    assert fell.best.detail == "no water held above the level"
    assert stayed.decided
    assert stayed.best is not None
    assert stayed.best.name == "not drained"


def test_a_fall_below_the_gauge_s_error_is_said_to_prove_nothing() -> None:
    job = job_of(*HOSE, says("gauge", gauge_error=300), says("load", gauge_reading=1150))

    assert "cannot be proved by load" in told(job).cannot_prove
    assert told(job_of(*HOSE, says("load", gauge_reading=1150))).cannot_prove == ""


def test_a_reading_that_nothing_explains_is_never_decided() -> None:
    job = begun()
    for number, read in ((5, 2100), (6, 150), (7, 1700)):
        record(
            job,
            says("joint", direction="out", joint_number=number, joint_length=21,
                 gauge_reading=read),
        )  # fmt: skip
        telling = told(job)
        assert telling.best is not None
        assert telling.best.name != EXPECTED


def test_a_struck_reading_is_not_heard() -> None:
    job = begun()
    calm = told(job)
    watcher = Watcher(job)
    wrong = record(job, says("load", gauge_reading=90))
    assert watcher.telling().verdict != EXPECTED
    record(job, says("strike", reason="slip of the finger") | {"strikes": wrong.id})

    assert watcher.telling() == calm == told(job)


def test_hearing_on_is_hearing_anew() -> None:
    job = job_of(*STEEL)
    watcher = Watcher(job)
    record(job, says("load", gauge_reading=round(shown(job))))
    for number in range(1, 8):
        pull(job, range(number, number + 1), off=12.0 if number % 2 else -9.0)
        assert watcher.telling() == told(job)


def test_the_document_holds_it_and_the_lines_say_it() -> None:
    telling = told(begun())
    document = look_document(Watcher(begun()).look())["telling"]

    assert document["best"]["name"] == EXPECTED
    assert document["verdict"] == EXPECTED
    assert telling.brief() == {
        "name": "telling",
        "verdict": EXPECTED,
        "best": "as expected: line full",
    }
    assert telling.lines()[0].startswith("best: as expected: line full")


def test_every_explanation_but_as_expected_says_what_to_look_at() -> None:
    assert all(f.look_at for f in FAMILIES.values() if f.name != EXPECTED)


@pytest.mark.parametrize("misses", [(0.5,), (3.84,), (1.0, 2.0, 0.3), (4.0,) * 6, (0.1,) * 10])
def test_the_chance_of_a_misfit_is_that_of_chi_square(misses: tuple[float, ...]) -> None:
    """Wilson and Hilferty's cube root against the tail of scipy's own distribution."""
    assert _chance(misses) == pytest.approx(chi2.sf(sum(misses), len(misses)), abs=0.012)


@pytest.mark.parametrize(("count", "chi"), [(4, 9.488), (10, 18.307), (30, 43.773)])
def test_the_fit_is_the_chance_of_a_chi_square(count: int, chi: float) -> None:
    """Against the 5 % points of the printed tables."""
    assert _chance((chi / count,) * count) == pytest.approx(0.05, abs=0.002)
