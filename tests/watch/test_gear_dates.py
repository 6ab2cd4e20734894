"""Gear past its date warns by name; what has no date is named and never called good."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.record.job import Job
from fieldbook.watch.site.gear_dates import gear_dates
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, record, says

TODAY = dt.date(2026, 10, 2)
ITEM = {"inspected": "2025-10-01", "inspection_due": "2026-10-01"}


def check(*documents: dict[str, Any], today: dt.date = TODAY) -> Check:
    seen = gear_dates(job_of(*documents), today)
    assert seen is not None
    return seen


def test_gear_past_its_date_is_a_caution_that_names_piece_and_day() -> None:
    hook = says("rig", hook_rating="4000 lbf", library_item="Hook 3", **ITEM)

    seen = check(hook)
    assert seen.verdict is Verdict.CAUTION
    assert seen.governs == "Hook 3: inspection was due 2026-10-01"
    assert check(hook, today=dt.date(2026, 10, 1)).verdict is Verdict.WITHIN


def test_no_date_at_all_is_unknown_and_names_the_gear() -> None:
    seen = check(says("rig", hook_rating="4000 lbf", rope_breaking="13120 lbf"))

    assert seen.verdict is Verdict.UNKNOWN
    assert seen.missing == ("due date of rig", "due date of wire rope")


def test_what_has_no_date_is_named_beside_what_has_one() -> None:
    seen = check(
        says("rig", rig_inspection_due="2027-01-01"),
        says("gauge", gauge_name="Pin 3"),
        says("redirect", place=1, part="corner pulley"),
    )

    assert seen.verdict is Verdict.WITHIN
    assert seen.governs == "rig: inspection due 2027-01-01"
    assert seen.note == "no due date written: Pin 3, corner pulley"


@pytest.mark.parametrize("due", ["rig_inspection_due", "rope_inspection_due"])
def test_dates_written_by_hand_on_the_forms_count(due: str) -> None:
    assert check(says("rig", **{due: "2026-10-01"})).verdict is Verdict.CAUTION
    assert check(says("rig", **{due: "2026-10-02"})).verdict is Verdict.WITHIN


def test_a_gauge_calibrated_more_than_a_year_ago_is_past() -> None:
    """Alberta OHS 768: by the maker's rule or yearly."""
    assert check(says("gauge", calibrated="2025-10-02")).verdict is Verdict.WITHIN
    assert check(says("gauge", calibrated="2025-10-01")).verdict is Verdict.CAUTION


def test_a_gauge_calibrated_anew_is_past_no_more() -> None:
    taken = says("gauge", library_item="Pin 3", calibrated="2025-01-02", gauge_capacity=5000)
    zero = says("gauge", gauge_zero=30)

    assert check(taken, zero).verdict is Verdict.CAUTION
    anew = says("gauge", calibrated="2026-09-30")
    assert check(taken, zero, anew).governs.startswith("Pin 3: calibration due 2027-09-30")


def test_another_gauge_takes_nothing_from_the_first() -> None:
    first = says("gauge", library_item="Pin 3", calibration_due="2027-01-02")
    second = says("gauge", library_item="Pin 4", gauge_capacity="5000 lbf")

    seen = check(first, second)
    assert seen.verdict is Verdict.UNKNOWN
    assert seen.missing == ("due date of Pin 4",)


DERRICK = says(
    "rig", library_item="Derrick 1", hoist="block and line", mast_rating="12000 lbf", **ITEM
)
ROPE = says("rig", library_item="Rope 7", rope_breaking="13120 lbf", inspection_due="2027-01-01")


def test_each_item_on_the_rig_has_its_own_date() -> None:
    seen = check(DERRICK, ROPE)

    assert seen.verdict is Verdict.CAUTION
    assert "Rope 7" not in seen.governs
    assert check(ROPE).verdict is Verdict.WITHIN


def test_an_item_that_another_took_the_place_of_is_in_use_no_more() -> None:
    other = DERRICK["values"] | {"library_item": "Derrick 2", "inspection_due": "2027-02-01"}

    assert check(DERRICK, ROPE, says("rig", **other)).verdict is Verdict.WITHIN


def test_figures_written_again_by_hand_do_not_hide_the_item_they_came_from() -> None:
    """The form of a step records what stands in it, so the item's figures come twice."""
    again = says("rig", hoist="block and line", mast_rating="12000 lbf")
    otherwise = says("rig", hoist="block and line", mast_rating="9000 lbf", parts_of_line=2)

    assert check(DERRICK, again).verdict is Verdict.CAUTION
    assert check(DERRICK, says("rig", mast_rating="9000 lbf")).verdict is Verdict.CAUTION
    by_reel = otherwise | {"values": otherwise["values"] | {"hoist": "hose reel"}}
    assert "Derrick 1" not in check(DERRICK, by_reel, says("gauge", calibrated="2026-01-01")).note


def test_pulleys_and_pieces_count_one_by_one() -> None:
    seen = check(
        says("redirect", place=1, part="head roller", inspection_due="2027-01-01"),
        says("redirect", place=2, library_item="Pulley 2", **ITEM),
        says("piece", place=1, piece="joint"),
        says("piece", place=2, piece="hose", library_item="Hose A", **ITEM),
    )

    assert seen.note == (
        "Pulley 2: inspection was due 2026-10-01; Hose A: inspection was due 2026-10-01"
    )


@pytest.mark.parametrize(
    ("kind", "figure"),
    [
        ("pump", {"pump_weight": 90}),
        ("cable", {"cable_weight": 0.3}),
        ("hose_sheet", {"least_ph": 5}),
    ],
)
def test_pump_cable_and_sheet_count_where_they_have_a_date(
    kind: str, figure: dict[str, Any]
) -> None:
    undated = says(kind, library_item="Thing 1", **figure)

    assert gear_dates(job_of(undated), TODAY) is None
    seen = check(says(kind, library_item="Thing 1", **figure, **ITEM))
    assert seen.governs == "Thing 1: inspection was due 2026-10-01"


def test_a_job_without_gear_is_not_asked_about_it() -> None:
    assert gear_dates(job_of(says("job", job_number="1", line="pvc", work="check")), TODAY) is None


def test_the_day_is_that_of_the_newest_entry_and_not_of_the_reader() -> None:
    """The entries of the test are of 2026-05-14."""
    job = job_of(*STEEL, says("rig", rig_inspection_due="2026-05-13"))
    assert _gear(job).verdict is Verdict.CAUTION

    record(job, says("rig", rig_inspection_due="2026-05-14"))
    assert _gear(job).verdict is Verdict.WITHIN


def test_gear_past_its_date_bars_no_lift() -> None:
    job = job_of(*STEEL, says("rig", rig_inspection_due="2020-01-01"))

    assert all(stop.name != "gear" for stop in Watcher(job).look().stops)


def _gear(job: Job) -> Check:
    return next(check for check in Watcher(job).look().checks if check.name == "gear")
