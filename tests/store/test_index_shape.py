"""A line of the index of any shape: it is refused, or everything that reads summaries takes it."""

from __future__ import annotations

import copy
import datetime as dt
import json
import random
import zlib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from fieldbook.cli.main import main
from fieldbook.office.filing.localities import place_named
from fieldbook.office.reports.due import owed
from fieldbook.office.reports.wells import well_of
from fieldbook.office.samples import build_shelf
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.index import VERSION, _read
from fieldbook.store.shelf.query import Wanted
from fieldbook.store.shelf.shelf import INDEX, Shelf
from fieldbook.store.shelf.summary import words_of
from fieldbook.store.shelf.summary_shape import is_summary
from fieldbook.store.shelf.wells import wells
from tests.store.forging import ATOMS
from tests.store.unsynced import unsynced

ON = dt.date(2026, 5, 14)
VALUES: list[Any] = [
    *ATOMS, "9999-12-31", "0001-01-01", "2026-05-14T08:00:00", "level", "meter", "prior", "record",
    [1, "ft"], [1, "furlong"], [1e308, "ft"], [10**400, "ft"], [True, "ft"], ["1", "ft"],
    {"kind": "level", "time": "2026-05-14T08:00:00+00:00"}, [{}], [[1]], [{"kind": []}],
]  # fmt: skip
WANTED = Wanted(words=("x",), owner="x", well="x", pump="x", finding="x", since=ON)
COMMANDS = ("jobs", "wells --history", "due --locality MI", "find x --pump y --since 2020-01-01")
ROUNDS = 20


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    home = Home(tmp_path_factory.mktemp("home"))
    with unsynced():
        build_shelf(home, complete=True)
    shelf = Shelf(home)
    shelf.refresh()
    return shelf


def kept(shelf: Shelf) -> list[dict[str, Any]]:
    """The summaries as the index has them on disk."""
    return [{n: v for n, v in s.items() if n != "words"} for s in shelf.index.documents()]


def places(inner: Any, above: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Every place in a document, by the keys that lead to it."""
    keys = inner.keys() if isinstance(inner, dict) else range(len(inner))
    for key in keys:
        yield (*above, key)
        if isinstance(inner[key], dict | list):
            yield from places(inner[key], (*above, key))


def changed(document: dict[str, Any], place: tuple[Any, ...], value: Any) -> dict[str, Any]:
    found = copy.deepcopy(document)
    inner: Any = found
    for key in place[:-1]:
        inner = inner[key]
    inner[place[-1]] = copy.deepcopy(value)
    return found


def unlike(documents: list[dict[str, Any]]) -> Iterator[tuple[dict[str, Any], tuple[Any, ...]]]:
    """Each place once, however often it is counted through; in each kind of history by itself."""
    seen = set()
    for document in documents:
        for place in places(document):
            told = (
                document["history"][place[1]]["kind"] if place[0] == "history" and place[1:] else ""
            )
            what = told, tuple("*" if isinstance(key, int) else key for key in place)
            if what not in seen:
                seen.add(what)
                yield document, place


def use(shelf: Shelf, summary: dict[str, Any]) -> None:
    """Do with a summary what the shelf, the wells, the dues and the search do."""
    shelf.listing(summary)
    owed(shelf, ON, summaries=[summary], place=place_named("MI"))
    for jobs in wells([summary]).values():
        well_of(shelf, jobs, ON).document()
    WANTED.query()(summary | {"words": words_of(summary)})


def test_any_value_in_any_place_is_refused_or_of_use(shelf: Shelf) -> None:
    taken = refused = 0
    for document in kept(shelf):
        use(shelf, document)
    for document, place in unlike(kept(shelf)):
        for value in VALUES:
            summary = changed(document, place, value)
            if is_summary(summary):
                taken += 1
                use(shelf, summary)
            else:
                refused += 1

    assert taken
    assert refused > taken


def test_a_place_that_is_missing_is_refused_or_of_use(shelf: Shelf) -> None:
    for document in kept(shelf):
        for place in places(document):
            summary = copy.deepcopy(document)
            inner: Any = summary
            for key in place[:-1]:
                inner = inner[key]
            del inner[place[-1]]
            if is_summary(summary):
                use(shelf, summary)


@pytest.mark.timeout(120)
def test_no_command_ends_badly_over_such_lines(
    shelf: Shelf, capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(24)
    home = next(iter(shelf.index.documents()))
    where = shelf.folder_of(home).parent.parent
    sound = kept(shelf)
    for _ in range(ROUNDS):
        spoilt = (
            changed(document, chance.choice([*places(document)]), chance.choice(VALUES))
            for document in sound
        )
        written = b"".join(map(line, ({"version": VERSION, "jobs": len(sound)}, *spoilt)))
        for words in COMMANDS:
            for name in ("jobs.jsonl", "newest.jsonl"):
                Path(where, INDEX, name).write_bytes(written)
            Shelf(Home(where)).newest()
            assert main(["--home", str(where), *words.split()]) in (0, 1)
    capsys.readouterr()


def line(document: dict[str, Any]) -> bytes:
    raw = json.dumps(document, separators=(",", ":")).encode("ascii")
    return b"%08x %s\n" % (zlib.crc32(raw), raw)


@pytest.mark.parametrize("head", [{"version": VERSION - 1, "jobs": 3}, {"version": VERSION}])
def test_an_index_of_another_version_or_without_its_count_is_not_read(
    head: dict[str, Any], shelf: Shelf, tmp_path: Path
) -> None:
    path = tmp_path / "jobs.jsonl"
    sound = b"".join(map(line, kept(shelf)))
    path.write_bytes(line({"version": VERSION, "jobs": 3}) + sound)
    assert list(_read(path)[1]) == kept(shelf)

    path.write_bytes(line(head) + sound)
    found, summaries = _read(path)

    assert (found, list(summaries)) == ({"jobs": 0}, [])
