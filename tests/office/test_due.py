"""What is owed is told until an answer names it, and never earlier forgotten."""

from __future__ import annotations

import datetime as dt
import json
from pathlib import Path

import pytest

from fieldbook.cli import main
from fieldbook.office.filing.localities import place_named
from fieldbook.office.reports.due import DueState, Owed, owed
from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.shelves import FIRST, says

ON = dt.date(2026, 5, 16)


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return Home(tmp_path / "home")


def put(home: Home, number: str, *drafts: Draft) -> Path:
    opening = says("job", job_number=number, line="steel", work="set", owner="A", well_name="B")
    folder = Shelf(home).create(opening, clock=lambda: FIRST)
    with Book.open(folder, home.device_id(), clock=lambda: FIRST) as book:
        for draft in drafts:
            book.record(draft)
    return folder


def told(home: Home) -> list[Owed]:
    shelf = Shelf(home)
    shelf.refresh()
    return owed(shelf, ON)


def test_late_first_then_without_a_day_then_what_comes(home: Home) -> None:
    put(home, "1", says("follow_up", "look at the amps", item="amps", due="2026-05-20"))
    put(home, "2", says("sample", sample_id="B-7", sample_tests="coliform", laboratory="county"))
    put(home, "3", says("permit", record_duty="pump record to the state", due="2026-05-01"))
    put(home, "4", says("follow_up", "today", due="2026-05-16"))

    found = told(home)
    assert [(o.job_number, o.state, o.days) for o in found] == [
        ("3", DueState.LATE, -15),
        ("2", DueState.NO_DAY, None),
        ("4", DueState.DUE, 0),
        ("1", DueState.DUE, 4),
    ]
    assert [o.what for o in found] == ["record to file", "lab result", "follow-up", "follow-up"]
    assert [o.words for o in found] == [
        "pump record to the state",
        "B-7, coliform, county",
        "today",
        "amps",
    ]


def test_an_answer_settles_it_after_the_seal_too_and_can_be_struck(home: Home) -> None:
    folder = put(home, "1", says("sample", sample_id="B-7", due="2026-05-20"), Draft("seal", "QA"))
    (lab,) = told(home)
    with Book.open(folder, home.device_id()) as book:
        answer = book.record(
            says("answer", answers=lab.id, done_on="2026-05-19", outcome="coliform absent")
        )
    assert told(home) == []
    with Book.open(folder, home.device_id()) as book:
        reason = says("note", "x", reason="of another bottle").values
        book.record(Draft("strike", "QA", reason, "", answer.id))
    assert told(home) == [lab]


def test_an_answer_settles_only_what_it_names(home: Home) -> None:
    folder = put(home, "1", says("follow_up", "a"), says("follow_up", "b"))
    first, second = told(home)
    with Book.open(folder, home.device_id()) as book:
        book.record(says("answer", answers=first.id, done_on="2026-05-19", outcome="done"))
        book.record(says("answer", answers="something", done_on="2026-05-19", outcome="done"))
    assert told(home) == [second]


@pytest.mark.parametrize(
    ("duty", "is_owed"),
    [
        ("repair in kind: no new record", False),
        ("none", False),
        ("None here", False),
        ("not required", False),
        ("none, same pump back in", False),
        ("None is needed for a pull.", False),
        ("pump record: none", False),
        ("completion record to the board", True),
        ("pump record to the county, no new well", True),
        ("pump record to the county, none for the well", True),
        ("pump record: no new permit", True),
        ("pump record within 30 days; nothing for the state", True),
        ("none for the well, but a pump record to the county", True),
        ("none for the pull; record when the pump is set", True),
        ("nothing filed yet: pump record to the county", True),
        ("well log, pump record: none", True),
        ("file no. 12 with the county", True),
    ],
)
def test_a_record_to_file_is_owed_unless_the_words_say_there_is_none(
    home: Home, duty: str, is_owed: bool
) -> None:
    put(home, "1", says("permit", licence="P-1", record_duty=duty))

    assert [o.words for o in told(home)] == ([duty] if is_owed else [])


def test_a_day_makes_it_owed_whatever_the_words_say(home: Home) -> None:
    put(home, "1", says("permit", record_duty="none known", due="2026-06-01"))

    assert [o.state for o in told(home)] == [DueState.DUE]


def test_the_command_lists_them(home: Home, capsys: pytest.CaptureFixture[str]) -> None:
    put(home, "26-1", says("follow_up", "[b]look\x1b[2J", due="2026-05-15"))
    put(home, "26-2", says("follow_up", "later", due="2026-07-15"))
    given = ["due", "--on", "2026-05-16", "--home", str(home.path)]
    assert main([*given]) == 0
    out = capsys.readouterr().out
    assert "2026-05-15  1 d late      26-1        follow-up: [b]look?[2J" in out
    assert "in 60 d" in out
    assert main([*given, "--within", "30", "--json"]) == 0
    (document,) = json.loads(capsys.readouterr().out)
    assert (document["job"], document["state"], document["days"]) == ("26-1", "late", -1)
    assert main(["due", "--on", "soon"]) == 2
    assert main(["due", "--home", str(home.path / "none")]) == 0
    assert capsys.readouterr().out == "Nothing is owed: the shelf is empty.\n"


LEVEL = says("level", water_level="90 ft", level_state="static")
CLOSED = says("hold", step="close.record", role="crew lead")


def by_the_rule(home: Home, place: str = "MI") -> list[Owed]:
    shelf = Shelf(home)
    shelf.refresh()
    return owed(shelf, ON, place=place_named(place))


def test_the_rule_of_the_place_gives_the_day_that_the_crew_did_not_name(home: Home) -> None:
    """60 days in Michigan, by R 325.1676: from the last day at the well."""
    put(home, "1", says("permit", record_duty="pump record"), LEVEL, CLOSED)
    put(home, "2", says("permit", record_duty="pump record", due="2026-06-01"), LEVEL, CLOSED)
    put(home, "3", says("permit", record_duty="pump record"), LEVEL)

    found = by_the_rule(home)
    assert [(o.job_number, o.due) for o in found] == [
        ("1", FIRST.date() + dt.timedelta(days=60)),
        ("3", None),  # not over yet
        ("2", dt.date(2026, 6, 1)),
    ]
    assert found[0].words == "pump record, Michigan, 60 days after the work"


def test_a_record_nobody_spoke_of_is_asked_for_where_the_place_asks_for_one(home: Home) -> None:
    folder = put(home, "1", LEVEL, CLOSED)
    put(home, "2", LEVEL)
    put(home, "3", says("permit", record_duty="repair in kind: no new record"), LEVEL, CLOSED)

    assert told(home) == by_the_rule(home, "NE") == []  # Nebraska names no number of days
    (record,) = by_the_rule(home)
    assert (record.job_number, record.what) == ("1", "record to file")
    assert record.words == "Michigan, 60 days after the work"
    with Book.open(folder, home.device_id()) as book:
        book.record(says("answer", answers=record.id, done_on="2026-05-19", outcome="filed"))
        book.record(Draft("seal", "QA"))
    assert by_the_rule(home) == []


def test_the_company_names_its_place_once(home: Home, capsys: pytest.CaptureFixture[str]) -> None:
    put(home, "1", LEVEL, CLOSED)
    given = ["due", "--on", "2026-05-16", "--home", str(home.path)]
    (home.path / "locality.txt").write_text("MI\n", encoding="utf-8")
    assert main(given) == 0
    assert "record to file: Michigan, 60 days after the work" in capsys.readouterr().out
    assert main([*given, "--locality", "NE"]) == 0
    assert capsys.readouterr().out == "Nothing is owed.\n"
    (home.path / "locality.txt").write_text("Atlantis", encoding="utf-8")
    assert main(given) == 2
    assert "no place 'Atlantis' is known" in capsys.readouterr().err
