"""The shelf in SQLite and in a real PostgreSQL server: what is there is what the logs say."""

from __future__ import annotations

import datetime as dt
import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

pytest.importorskip("sqlalchemy", reason="the extra sql is not installed")

from sqlalchemy import create_engine, text

from fieldbook.cli import main
from fieldbook.office.sql.export import CannotExport, Exported, export
from fieldbook.office.sql.schema import METADATA
from fieldbook.record.entry import Draft
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.office.servers import postgresql, server_programs
from tests.store.conftest import note
from tests.store.shelves import many_jobs, says

COUNT = 6


@pytest.fixture(scope="module")
def server() -> Iterator[str]:
    programs = server_programs()
    if programs is None:
        pytest.skip("PostgreSQL is not installed")
    with postgresql(programs) as url:
        yield url


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'jobs.sqlite'}"
    server: str = request.getfixturevalue("server")
    engine = create_engine(server.replace("postgresql:", "postgresql+psycopg:"))
    METADATA.drop_all(engine)
    engine.dispose()
    return server


@pytest.fixture
def home(tmp_path: Path) -> Home:
    many_jobs(Home(tmp_path / "home"), COUNT)
    return Home(tmp_path / "home")


def run(home: Home, url: str) -> Exported:
    shelf = Shelf(home)
    shelf.refresh()
    return export(shelf, url)


def asked(url: str, question: str) -> list[tuple[Any, ...]]:
    engine = create_engine(url.replace("postgresql:", "postgresql+psycopg:"))
    try:
        with engine.connect() as connection:
            return [tuple(row) for row in connection.execute(text(question))]
    finally:
        engine.dispose()


def everything(url: str) -> dict[str, list[tuple[Any, ...]]]:
    """Every row of every table; where the logs lie on disk left out."""
    names = {"wells": "*", "jobs": "job, number, owner, sealed, heads", "entries": "*",
             "readings": "*"}  # fmt: skip
    return {t: sorted(asked(url, f"select {c} from {t}"), key=str) for t, c in names.items()}


def test_every_entry_and_every_reading_is_there(home: Home, url: str) -> None:
    done = run(home, url)

    assert (len(done.jobs), done.same, done.entries, done.clean) == (COUNT, 0, COUNT * 5, True)
    count = "select count(*) from "
    assert asked(url, count + "entries") == [(COUNT * 5,)]
    for listing in Shelf(home).jobs():
        with Book.open(listing.folder, "", write=False) as book:
            told = {
                (e.id, name, v.text, v.number, v.unit, v.origin.value)
                for e in book.job.entries
                for name, v in e.values.items()
            }
            where = f"where job = '{book.job_id}'"
        columns = "entry, quantity, text, number, unit, origin"
        assert set(asked(url, f"select {columns} from readings {where}")) == told


def test_questions_over_all_jobs_have_the_answer_of_the_logs(home: Home, url: str) -> None:
    level = says("level", water_level="54 m", level_state="static")
    with Book.open(Shelf(home).find("J-00003"), home.device_id()) as book:
        book.record(level)
    run(home, url)

    question = """
        select w.owner, w.name, max(r.value) from wells w join jobs j on j.well = w.well
        join readings r on r.job = j.job where r.quantity = 'water_level'
        group by w.owner, w.name order by 3 desc
    """
    (deepest, *others) = asked(url, question)
    # by hand: 54 m / 0.3048 = 177.17 ft; the others are at 150 to 155 ft
    assert deepest[:2] == ("Town of Brackle", "Well 1")
    assert round(deepest[2], 2) == 177.17
    assert [round(row[2]) for row in others] == [155, 154, 152, 151, 150]
    causes = "select text, count(*) from readings where quantity = 'cause' group by text"
    assert dict(asked(url, causes))["hole in line"] == 2


def test_run_again_it_changes_nothing(home: Home, url: str) -> None:
    run(home, url)
    before = everything(url)
    done = run(home, url)

    assert (done.jobs, done.same, done.entries) == ([], COUNT, 0)
    assert everything(url) == before


def test_only_what_changed_is_written_and_as_if_all_had_been_anew(
    home: Home, url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run(home, url)
    with Book.open(Shelf(home).find("J-00002"), home.device_id()) as book:
        (finding,) = book.job.live("finding")
        reason = says("note", "x", reason="wrong").values
        strike = book.record(Draft("strike", "QA", reason, "", finding.id))
        book.record(Draft("seal", "QA"))
    opened: list[str] = []
    real = Book.open

    def watched(folder: Path, device: str, **how: Any) -> Book:
        opened.append(folder.name)
        return real(folder, device, **how)

    shelf = Shelf(home)
    shelf.refresh()
    monkeypatch.setattr("fieldbook.office.sql.export.Book.open", watched)
    done = export(shelf, url)
    assert (done.jobs, done.same, done.entries, opened) == (["J-00002"], COUNT - 1, 2, ["J-00002"])
    struck = f"select struck from entries where entry = '{finding.id}'"
    assert [bool(row[0]) for row in asked(url, struck)] == [True]
    with real(Shelf(home).find("J-00002"), home.device_id()) as book:
        book.record(Draft("strike", "QA", reason, "", strike.id))
    run(home, url)
    assert [bool(row[0]) for row in asked(url, struck)] == [False]

    anew = f"sqlite:///{tmp_path / 'anew.sqlite'}"
    run(home, anew)
    if url.startswith("sqlite"):
        assert everything(url) == everything(anew)


def test_a_well_that_gets_a_tag_later_is_one_well(home: Home, url: str) -> None:
    for number in ("1", "2"):
        opening = says(
            "job", job_number=number, line="steel", work="pull", owner="A", well_name="B"
        )
        Shelf(home).create(opening)
    run(home, url)
    assert asked(url, "select well, tag from wells where owner = 'A'") == [("name:a:b", "")]
    with Book.open(Shelf(home).find("2"), home.device_id()) as book:
        book.record(says("well", well_id="K-1"))
    run(home, url)
    assert asked(url, "select well, tag from wells where owner = 'A'") == [("tag:k1", "K-1")]
    assert asked(url, "select well from jobs where owner = 'A'") == [("tag:k1",)] * 2


def test_a_shelf_that_is_behind_takes_nothing_away(home: Home, url: str, tmp_path: Path) -> None:
    old = Home(shutil.copytree(home.path, tmp_path / "old"))
    with Book.open(Shelf(home).find("J-00002"), home.device_id()) as book:
        book.record(note("newer"))
    run(home, url)
    before = everything(url)
    done = run(old, url)

    assert (done.behind, done.clean) == (["J-00002"], False)
    assert everything(url) == before


def test_hostile_words_are_text(home: Home, url: str) -> None:
    words = "'); drop table jobs; -- \0 \x1b[2J \U0001f6b0 %s :x"
    with Book.open(Shelf(home).find("J-00001"), home.device_id()) as book:
        saved = book.record(Draft("note", "QA", note=words))
    run(home, url)

    (kept,) = asked(url, f"select note from entries where entry = '{saved.id}'")
    assert kept[0] == words.replace("\0", "\ufffd")


def test_stopped_anywhere_it_leaves_whole_jobs_and_goes_on(home: Home, url: str) -> None:
    shelf = Shelf(home)
    shelf.refresh()

    def stop(done: int, of: int) -> None:
        if done == 3:
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        export(shelf, url, on_progress=stop)
    assert asked(url, "select count(*) from jobs") == [(3,)]
    assert asked(url, "select count(*) from entries") == [(15,)]
    done = run(home, url)
    assert (len(done.jobs), done.same) == (COUNT - 3, 3)


def test_another_format_is_refused(home: Home, url: str) -> None:
    run(home, url)
    engine = create_engine(url.replace("postgresql:", "postgresql+psycopg:"))
    with engine.begin() as connection:
        connection.execute(text("update fieldbook_about set format = 99"))
    engine.dispose()
    with pytest.raises(CannotExport, match="format 99"):
        run(home, url)


def test_times_are_utc_with_the_offset_beside(home: Home, url: str) -> None:
    zone = dt.timezone(dt.timedelta(hours=-5))
    time = dt.datetime(2026, 5, 14, 23, 30, tzinfo=zone)
    with Book.open(Shelf(home).find("J-00001"), home.device_id(), clock=lambda: time) as book:
        saved = book.record(note("late"))
    run(home, url)

    (row,) = asked(url, f"select time, utc_offset from entries where entry = '{saved.id}'")
    told = dt.datetime.fromisoformat(row[0]) if isinstance(row[0], str) else row[0]
    told = told.replace(tzinfo=dt.UTC) if told.tzinfo is None else told.astimezone(dt.UTC)
    assert (told, row[1]) == (time, -300)


def test_the_command(home: Home, url: str, capsys: pytest.CaptureFixture[str]) -> None:
    given = ["export", "--to", url, "--home", str(home.path)]
    assert main([*given]) == 0
    told = capsys.readouterr()
    assert f"{COUNT} jobs written, {COUNT * 5} entries added" in told.out
    assert told.err.splitlines()[-1] == f"exported: {COUNT} of {COUNT}"
    assert "secret" not in told.out + told.err
    assert main([*given, "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["same"] == COUNT


@pytest.mark.parametrize(
    ("to", "words"),
    [
        ("nonsense", "no address of a database"),
        ("sqlite:////nowhere/at/all.sqlite", "unable to open"),
        ("nothing://x", "no driver"),
        ("postgresql://crew:secret@/x?host=/nowhere", "cannot export"),
    ],
)
def test_a_database_that_cannot_be_reached_is_one_line(
    home: Home, to: str, words: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["export", "--to", to, "--home", str(home.path)]) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert words in said
    assert "secret" not in said


def test_without_an_address_it_is_a_file_in_the_home(
    home: Home, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["export", "--home", str(home.path)]) == 0
    assert asked(f"sqlite:///{home.path / 'fieldbook.sqlite'}", "select count(*) from jobs") == [
        (COUNT,)
    ]
