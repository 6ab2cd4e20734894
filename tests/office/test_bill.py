"""The bill sums what was written and nothing else. Hand calculations."""

from __future__ import annotations

import csv
import io

from fieldbook.office.export.bill import HEADS, NOBODY, bill
from fieldbook.office.export.tables import bill_table
from tests.watch.jobs import STEEL, job_of, record, says


def test_hours_are_summed_a_person_and_miles_in_all() -> None:
    job = job_of(
        *STEEL,
        says("hours", crew="LM", hours="7 h", miles="26 mi"),
        says("hours", crew="lm ", hours="30 min"),
        says("hours", crew="TK", hours="6.5"),
        says("hours", hours="1 h", miles="10 km"),
    )
    lines = [(line.what, line.item, line.amount, line.unit) for line in bill(job)]

    assert lines == [
        ("hours", "LM", "7.5", "hour"),
        ("hours", "TK", "6.5", "hour"),
        ("hours", NOBODY, "1", "hour"),
        ("miles", "driven", "32.2137", "mile"),  # 26 + 10 / 1.609344
    ]


def test_materials_of_one_name_and_unit_are_summed_and_others_stand_apart() -> None:
    job = job_of(
        *STEEL,
        says("material", item="Splice kit", amount=1, amount_unit="each"),
        says("material", item="splice kit", amount=2, amount_unit="each"),
        says("material", item="cable", amount=40, amount_unit="ft"),
        says("material", item="cable", amount=2, amount_unit="lb"),
    )
    record(job, says("strike", reason="came back") | {"strikes": job.entries[-1].id})

    told = [(line.item, line.amount, line.unit) for line in bill(job)]
    assert told == [("Splice kit", "3", "each"), ("cable", "40", "ft")]


def test_an_approval_says_who_approved_it_and_when() -> None:
    job = job_of(*STEEL, says("approval", approved_by="owner, by telephone") | {"note": "camera"})
    (line,) = bill(job)

    assert (line.what, line.item, line.approved_by) == (
        "approval",
        "camera",
        "owner, by telephone",
    )
    assert line.time.startswith("2026-05-14T08:")


def test_an_approval_by_nobody_says_so() -> None:
    (line,) = bill(job_of(*STEEL, says("approval") | {"note": "new cap"}))

    assert line.approved_by == "nobody named"


def test_the_table_is_defused_and_has_a_head_for_every_column() -> None:
    job = job_of(*STEEL, says("material", item="=1+1", amount=1))
    rows = list(csv.reader(io.StringIO(bill_table(job))))

    assert tuple(rows[0]) == HEADS
    assert rows[1][:3] == ["material", "'=1+1", "1"]
    assert all(len(row) == len(HEADS) for row in rows)


def test_hours_that_name_no_figure_are_not_lost() -> None:
    (line,) = bill(job_of(*STEEL, says("hours", crew="TK") | {"note": "to be asked"}))

    assert (line.item, line.amount, line.note) == ("TK", "", "to be asked")
