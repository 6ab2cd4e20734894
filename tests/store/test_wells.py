"""Jobs of one well are told by its tag, else by owner and name; never by a guess."""

from __future__ import annotations

import datetime as dt
import shutil

from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from fieldbook.store.shelf.wells import earlier_on_well, jobs_on_well, wells
from tests.store.shelves import FIRST, says


def put(home: Home, number: str, day: int, **values: str) -> Job:
    time = FIRST + dt.timedelta(days=day)
    draft = says("job", job_number=number, line="steel", work="pull", **values)
    folder = Shelf(home).create(draft, clock=lambda: time)
    with Book.open(folder, "", write=False) as book:
        return book.job


def fresh(home: Home) -> Shelf:
    shelf = Shelf(home)
    shelf.refresh()
    return shelf


def earlier(home: Home, job: Job) -> list[str]:
    return [summary["number"] for summary in jobs_on_well(fresh(home), job)]


def test_a_tag_is_the_well_however_it_is_written(home: Home) -> None:
    put(home, "1", 1, owner="Sallow Farm", well_name="Barn", well_id="K-0417")
    put(home, "2", 2, owner="New Owner", well_name="North", well_id="k 0417")
    put(home, "3", 3, owner="Sallow Farm", well_name="Barn", well_id="K-0418")
    newest = put(home, "4", 4, well_id="K0417")

    assert earlier(home, newest) == ["2", "1"]
    last = next(earlier_on_well(fresh(home), newest), None)
    assert last is not None
    assert last.text("job", "job_number") == "2"


def test_without_a_tag_owner_and_name_tell_the_well(home: Home) -> None:
    put(home, "1", 1, owner="Sallow Farm", well_name="Well 2")
    put(home, "2", 2, owner="Ketterby", well_name="Well 2")
    put(home, "3", 3, owner="Sallow Farm", well_name="Well 1")
    newest = put(home, "4", 4, owner="SALLOW  farm", well_name="well, 2")

    assert earlier(home, newest) == ["1"]


def test_half_a_name_tells_no_well(home: Home) -> None:
    put(home, "1", 1, well_name="Well 2")
    put(home, "2", 2, owner="Sallow Farm")

    for values in ({"well_name": "Well 2"}, {"owner": "Sallow Farm"}, {}):
        job = put(home, f"3{len(values)}{'o' in str(values)}", 4, **values)
        assert earlier(home, job) == []
        assert next(earlier_on_well(fresh(home), job), None) is None


def test_a_name_belongs_to_a_tag_only_while_there_is_one_such_tag(home: Home) -> None:
    put(home, "1", 1, owner="Sallow Farm", well_name="Barn")
    put(home, "2", 2, owner="Sallow Farm", well_name="Barn", well_id="K-1")
    newest = put(home, "3", 9, owner="Sallow Farm", well_name="Barn")
    assert earlier(home, newest) == ["2", "1"]

    put(home, "4", 3, owner="Sallow Farm", well_name="Barn", well_id="K-2")
    assert earlier(home, newest) == ["1"]
    assert {len(jobs) for jobs in wells(fresh(home).index.documents()).values()} == {1, 2}


def test_later_and_lost_jobs_are_passed_over(home: Home) -> None:
    tag = {"well_id": "K-1"}
    put(home, "1", 1, **tag)
    put(home, "2", 2, **tag)
    job = put(home, "3", 3, **tag)
    put(home, "4", 4, **tag)
    shelf = fresh(home)
    shutil.rmtree(shelf.find("2"))

    last = next(earlier_on_well(shelf, job), None)
    assert last is not None
    assert last.text("job", "job_number") == "1"
    assert next(earlier_on_well(shelf, last), None) is None
    assert next(earlier_on_well(shelf, Job()), None) is None


def test_a_tag_on_the_well_entry_counts_too(home: Home) -> None:
    put(home, "1", 1, well_id="K-1")
    job = put(home, "2", 2, owner="A", well_name="B")
    with Book.open(fresh(home).find("2"), home.device_id()) as book:
        book.record(says("well", well_id="K-1"))
        assert earlier(home, book.job) == ["1"]
    assert earlier(home, job) == ["1"]
