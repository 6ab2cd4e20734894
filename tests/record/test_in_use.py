"""Another rig, gauge, pump or cable keeps nothing of the first."""

from __future__ import annotations

import pytest

from fieldbook.record.in_use import takes_the_place
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, entry, job_of, record, says

FIRST = says("rig", library_item="Derrick 1", hoist="block and line", mast_rating=20000,
             hook_rating=9000)  # fmt: skip


@pytest.mark.parametrize(
    "other",
    [
        says("rig", library_item="Derrick 2", hoist="block and line"),
        says("rig", library_item="Derrick 2", drum_pull=3000),
        says("rig", rig_name="Derrick 2"),
    ],
)
def test_another_rig_keeps_no_figure_of_the_first(other: dict[str, object]) -> None:
    job = job_of(FIRST, says("rig", rope_breaking=13000), says("rig", rig_name="Derrick 1"), other)

    for name in ("mast_rating", "hook_rating", "rope_breaking"):
        assert job.value("rig", name) is None


def test_a_rig_out_of_the_library_keeps_nothing_that_was_typed_without_a_name() -> None:
    job = job_of(*STEEL)
    record(job, says("rig", library_item="Derrick 2", hoist="block and line", drum_pull=3500))

    missing = Watcher(job).look().lift.check.missing
    for lack in ("mast rating", "hook rating", "parts of line", "friction and break-out"):
        assert lack in missing


def test_a_rope_or_a_hook_of_the_rig_is_not_another_rig() -> None:
    job = job_of(FIRST, says("rig", library_item="Rope 7", rope_breaking=13000))
    record(job, says("rig", library_item="Hook 3", hook_rating=4000))

    assert job.text("rig", "mast_rating") == "20000"
    assert job.text("rig", "rope_breaking") == "13000"
    assert job.text("rig", "hook_rating") == "4000"


def test_the_same_rig_again_keeps_what_was_written_of_it() -> None:
    job = job_of(FIRST, says("rig", rig_name="derrick 1", parts_of_line=2), FIRST)

    assert job.text("rig", "parts_of_line") == "2"


@pytest.mark.parametrize(
    ("kind", "first", "second", "gone"),
    [
        ("pump", {"pump_model": "A", "pump_weight": 60}, {"pump_model": "B"}, "pump_weight"),
        ("pump", {"motor_model": "A", "service_amps": 9}, {"motor_model": "B"}, "service_amps"),
        ("cable", {"cable_size": "12", "cable_weight": 0.2}, {"cable_size": "8"}, "cable_weight"),
        ("gauge", {"gauge_name": "A", "gauge_zero": 5}, {"gauge_name": "B"}, "gauge_zero"),
        ("hose_sheet", {"library_item": "A", "least_ph": 5}, {"library_item": "B"}, "least_ph"),
    ],
)
def test_nor_does_another_thing_of_any_kind(
    kind: str, first: dict[str, object], second: dict[str, object], gone: str
) -> None:
    job = job_of(says(kind, **first))
    assert job.value(kind, gone) is not None
    record(job, says(kind, **second))

    assert job.value(kind, gone) is None


def test_a_struck_name_began_nothing() -> None:
    job = job_of(FIRST)
    wrong = record(job, says("rig", rig_name="Derrick 9", hoist="block and line"))
    assert job.value("rig", "mast_rating") is None
    record(job, says("strike", reason="wrong job") | {"strikes": wrong.id})

    assert job.text("rig", "mast_rating") == "20000"


def test_what_the_crew_allows_outlives_the_cable() -> None:
    job = job_of(says("cable", cable_size="12", allowed_drop="3 %"), says("cable", cable_size="8"))

    assert job.text("cable", "allowed_drop") == "3 %"


def test_a_reel_leaves_hook_rope_and_mast_in_the_chain_of_a_pipe_string() -> None:
    job = job_of(*STEEL)
    before = {link.check.name for link in Watcher(job).look().lift.links}
    record(job, says("rig", hoist="hose reel", reel_pull=9000))
    look = Watcher(job).look()

    assert {link.check.name for link in look.lift.links} == before
    assert "a hoist for joints (rig: hose reel)" in look.lift.check.missing


def test_what_would_speak_of_another_thing_is_known_before_it_is_recorded() -> None:
    job = job_of(FIRST)
    other = entry(says("rig", library_item="Derrick 2", hoist="block and line"), 9).values
    more = entry(says("rig", rope_breaking=13000), 9).values

    assert takes_the_place("rig", job.live("rig"), other)
    assert not takes_the_place("rig", job.live("rig"), more)
    assert not takes_the_place("well", job.live("rig"), other)
    assert not takes_the_place("rig", [], other)
