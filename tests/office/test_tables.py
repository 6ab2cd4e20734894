"""The tables open right in a spreadsheet, and nothing in them runs."""

from __future__ import annotations

import csv
import datetime as dt
import io

import pytest

from fieldbook.office.export.tables import TABLES, bill_table, defused, events, table
from fieldbook.quantities.plain import plain
from tests.watch.jobs import STEEL, job_of, record, says


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text)))


def test_a_tally_gives_every_figure_in_the_unit_of_its_head() -> None:
    job = job_of(
        *STEEL,
        says("joint", direction="out", joint_number=1, joint_length="21' 3\"", gauge_reading=900),
        says("joint", direction="out", joint_number=2, joint_length="6.4 m", pipe_condition="pit"),
    )
    tally = rows(table(job, "tally"))

    assert [row["joint_length [ft]"] for row in tally] == ["21.25", "20.9974"]
    assert [row["gauge_reading [lbf]"] for row in tally] == ["900", ""]
    assert [row["pipe_condition"] for row in tally] == ["", "pit"]


def test_what_was_struck_is_in_the_events_and_not_in_the_tally() -> None:
    job = job_of(*STEEL)
    twice = record(job, says("joint", direction="out", joint_number=1, joint_length=21))
    record(job, says("strike", reason="written twice") | {"strikes": twice.id})

    assert rows(table(job, "tally")) == []
    struck = next(row for row in rows(events(job)) if row["id"] == twice.id)
    assert struck["struck by"].startswith("QA")
    assert len(rows(events(job))) == len(job.entries)


def test_a_cell_that_would_run_is_defused() -> None:
    job = job_of(
        *STEEL,
        says("finding", part='=HYPERLINK("x")', finding="@SUM(1)\n-2+3"),
        says("note") | {"note": "+1\x1b[2J"},
    )
    finding = rows(table(job, "findings"))[0]

    assert finding["part"] == '\'=HYPERLINK("x")'
    assert finding["finding"] == "'@SUM(1) -2+3"
    assert rows(events(job))[-1]["note"] == "'+1?[2J"


def test_a_negative_figure_stays_a_number() -> None:
    job = job_of(*STEEL, says("level", water_level=-3.5))

    assert rows(table(job, "readings"))[-1]["water_level [ft]"] == "-3.5"


def test_every_kind_of_a_table_exists() -> None:
    job = job_of(*STEEL)

    assert all(table(job, name).startswith("seq,time [local],zone,by,kind") for name in TABLES)


def test_a_time_is_one_that_a_spreadsheet_reads_and_its_zone_stands_beside_it() -> None:
    job = job_of(*STEEL, says("approval") | {"note": "new cap"})
    entry = job.entries[-1]
    approved = rows(bill_table(job))[0]

    for row in (rows(events(job))[-1], approved):
        assert dt.datetime.strptime(row["time [local]"], "%Y-%m-%d %H:%M:%S")  # noqa: DTZ007
        assert row["zone"].startswith("UTC")
        told = f"{row['time [local]'].replace(' ', 'T')}{row['zone'].removeprefix('UTC')}"
        assert dt.datetime.fromisoformat(told) == entry.time.replace(microsecond=0)


@pytest.mark.parametrize(
    "sign", ["=", "+", "-", "@", "\uff1d", "\uff0b", "\uff0d", "\uff20", "\ufe66"]
)
@pytest.mark.parametrize(
    "before", ["", " ", "   ", "\t", "\r", "\n", "\r\n ", "\u00a0", "\u3000", "\u200b", "\ufeff"]
)
def test_a_sign_that_a_spreadsheet_runs_is_defused_whatever_blanks_stand_before_it(
    before: str, sign: str
) -> None:
    shown = defused(f"{before}{sign}1+1")

    assert shown[0] == "'"
    assert shown.endswith(f"{sign}1+1")
    assert defused(f"{before}a{sign}1") == plain(f"{before}a{sign}1")
