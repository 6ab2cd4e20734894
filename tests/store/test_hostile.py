"""Whatever stands in a file or comes in a line: it is named, nothing breaks, nothing is changed."""

from __future__ import annotations

import json
import os
import random
from pathlib import Path
from typing import Any

import pytest

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.strict_json import BadJson, read_json
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.amount import amount
from tests.store.conftest import note
from tests.store.forging import (
    DEVICE,
    JOB,
    entry,
    forged,
    forged_text,
    hash_of,
    header,
    hostile,
    log_of,
    nested,
    write_log,
)

TRIED = amount(2_000, whole=10_000)
JOINT = {"joint_number": {"text": "3", "number": 3}, "direction": {"text": "out"}}


def test_a_forged_log_that_says_nothing_wrong_is_read(tmp_path: Path) -> None:
    """The forger and the book agree on the format, so that what follows tests what it means to."""
    path = write_log(tmp_path, log_of(header(), entry(1), entry(2)))
    found = read_log(path)

    assert [e.note for _, e in found.entries] == ["entry 1", "entry 2"]
    assert found.findings == []


@pytest.mark.parametrize(
    "body",
    [
        None, [], "x", 7, {}, nested(300), {"id": nested(200)},
        entry(2, seq=-1), entry(2, seq=2**60), entry(2, seq=1.5), entry(2, seq="2"),
        entry(2, time="yesterday"), entry(2, time="2026-05-14T08:00:00"), entry(2, id="../x"),
        entry(2, by=""), entry(2, by=["QA"]), entry(2, kind="nonsense"), entry(2, kind=None),
        entry(2, device="d-other"), entry(2, note="\ud800"), entry(2, note="x" * 4001),
        entry(2, extra=1), entry(2, strikes="x"), entry(2, values=[1]),
        entry(2, values={"no_such": {"text": "1"}}),
        entry(2, kind="load", values={"gauge_reading": {"text": "1", "number": float("nan")}}),
        entry(2, kind="load", values={"gauge_reading": {"text": "1", "number": 10**400}}),
        entry(2, kind="load", values={"gauge_reading": {"text": "1", "number": "1"}}),
        entry(2, kind="load",
              values={"gauge_reading": {"text": "1", "number": 1e300, "unit": "lbf"}}),
        entry(2, kind="load", values={"gauge_reading": {"text": "1", "number": 5, "unit": "ft"}}),
    ],
)  # fmt: skip
def test_what_is_no_entry_is_named_by_its_line_and_the_rest_is_read(
    tmp_path: Path, body: Any
) -> None:
    path = write_log(tmp_path, log_of(header(), entry(1), body, entry(3)))
    found = read_log(path)

    assert [e.note for _, e in found.entries] == ["entry 1", "entry 3"]
    assert 3 in {problem.line for problem in found.findings}
    assert verify(tmp_path).whole is False


@pytest.mark.parametrize(
    "raw",
    [
        b'{"n":3,"prev":"0","entry":{},"sum":"0123456789abcdef"}',
        b"[" * 100_000,
        b"{" * 100_000,
        b'{"a":' * 40_000,
        b"\0" * 4096,
        b"\xff\xfe\x00",
        b"9" * 200_000,
        b"",
        b"null",
    ],
    ids=lambda raw: repr(raw[:12]),
)
def test_what_is_no_line_is_named_and_the_rest_is_read(tmp_path: Path, raw: bytes) -> None:
    lines = log_of(header(), entry(1), entry(2)).splitlines()
    path = write_log(tmp_path, b"\n".join([*lines[:2], raw, lines[2]]) + b"\n")
    found = read_log(path)

    assert [e.note for _, e in found.entries] == ["entry 1", "entry 2"]
    assert {problem.line for problem in found.findings} >= {3}


def test_a_right_line_of_bottomless_nesting_is_named(tmp_path: Path) -> None:
    whole = log_of(header(), entry(1))
    deep = forged_text(3, hash_of(whole.splitlines()[1]), "entry", "[" * 50_000 + "]" * 50_000)
    found = read_log(write_log(tmp_path, whole + deep + b"\n"))

    assert [problem.line for problem in found.findings] == [3]
    assert "nested too deep" in str(found.findings[0])


def test_a_key_that_stands_twice_is_no_line(tmp_path: Path) -> None:
    good = forged(2, "0" * 64, "entry", entry(1))
    raw = good.replace(b'"by":"QA"', b'"by":"QA","by":"ZZ"')
    with pytest.raises(BadJson, match="twice"):
        read_json(raw)
    path = write_log(tmp_path, log_of(header()) + raw + b"\n")
    assert read_log(path).entries == []


@pytest.mark.parametrize(
    "change",
    [
        {"version": None}, {"version": 0}, {"version": -(10**30)}, {"version": True},
        {"version": "1"}, {"version": [1]}, {"version": float("nan")}, {"format": "other"},
        {"device": "d-other"}, {"device": 3}, {"job": None}, {"job": ["x"]}, {"job": "x" * 100_000},
        {"job": "../../x"}, {"after": 3}, {"after": {"file": ["x"], "hash": {}}},
        {"after": {"file": "../../etc/passwd", "hash": "x"}}, {"not_saved": {"a": 1}},
        {"not_saved": [[1], None, "x" * 200_000]}, {"file": "x"},
    ],
    ids=str,
)  # fmt: skip
def test_any_first_line_leaves_the_crew_able_to_record(
    tmp_path: Path, change: dict[str, Any]
) -> None:
    folder = tmp_path / "job"
    path = write_log(folder, log_of(header(**change), entry(1)))
    before = path.read_bytes()
    with Book.open(folder, DEVICE) as book:
        saved = [book.record(note(f"goes on {number}")) for number in range(2)]
    with Book.open(folder, DEVICE) as again:
        assert list(again.job.entries)[-2:] == saved
    assert path.read_bytes().startswith(before)
    merge_job(folder, tmp_path / "office")
    with Book.open(tmp_path / "office", "", write=False) as office:
        assert list(office.job.entries)[-2:] == saved


def test_a_log_that_has_counted_to_the_end_stops_nobody(tmp_path: Path) -> None:
    write_log(tmp_path, log_of(header(), entry(1, seq=2**53 - 1)))
    with Book.open(tmp_path, "d-other") as book:
        first, second = book.record(note("one")), book.record(note("two"))
    with Book.open(tmp_path, "d-other") as again:
        assert [str(p) for p in again.reports if "beyond what any job holds" in p.words]
        assert [e.id for e in again.job.entries][1:] == [first.id, second.id]


def test_a_pipe_or_a_link_in_the_folder_hangs_and_leads_nowhere(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    write_log(folder, log_of(header(), entry(1)))
    outside = tmp_path / "outside"
    outside.mkdir()
    write_log(outside, log_of(header(), entry(1, note="outside")), device="d-x")
    (folder / "d-x-0001.jsonl").symlink_to(outside / "d-x-0001.jsonl")
    (folder / "away").symlink_to(outside, target_is_directory=True)
    if hasattr(os, "mkfifo"):
        os.mkfifo(folder / "d-pipe-0001.jsonl")
    merge_job(folder, tmp_path / "office")
    with Book.open(folder, DEVICE) as book:
        assert [e.note for e in book.job.entries] == ["entry 1"]
    assert [path.name for path in (tmp_path / "office").glob("*.jsonl")] == [f"{DEVICE}-0001.jsonl"]
    assert len(verify(folder).logs) == 1


def test_a_file_of_nothing_but_bad_lines_is_told_briefly(tmp_path: Path) -> None:
    path = write_log(tmp_path, b"bad\n" * 200_000)
    found = verify(path)

    assert len(found.problems) < 200
    assert len(str(found)) < 20_000


def test_forged_logs_break_nothing(tmp_path: Path) -> None:
    """Numbers, chain and checksums are right; the figures and words in them are not."""
    chance = random.Random(260514)
    home = Home(tmp_path / "home")
    folder = home.jobs_folder / "26-1"
    good = [entry(1), entry(2, kind="joint", values=JOINT), entry(3, note="keep")]
    for number in range(TRIED):
        head, bodies = header(), list[Any](good)
        if chance.random() < 0.2:
            head = hostile(head, chance)
        else:
            bodies[1] = hostile(bodies[1], chance)
        raw = log_of(head, *bodies)
        found = read_log(write_log(folder, raw))

        assert len(found.findings) <= 5
        assert all(len(str(problem)) < 1000 for problem in found.findings)
        if isinstance(head, dict) and head.get("version") == 1:
            assert {"entry 1", "keep"} <= {e.note for _, e in found.entries}
        if number % 40 == 0:
            Shelf(home).jobs()
            assert len(str(verify(home.path))) < 10_000
        if number % 250 == 0:
            merge_job(folder, tmp_path / f"office{number}")


LINES: list[dict[str, Any]] = [
    {"kind": "note", "by": "QA", "note": "words"},
    {"kind": "job", "by": "QA", "values": {"job_number": "26-1", "line": "steel", "work": "pull"}},
    {"kind": "load", "by": "QA",
     "values": {"gauge_reading": {"value": 742, "unit": "lbf", "origin": "measured"}}},
    {"kind": "strike", "by": "QA", "strikes": JOB, "values": {"reason": "typed wrong"}},
]  # fmt: skip


def test_hostile_lines_are_taken_or_refused_in_words(tmp_path: Path) -> None:
    chance = random.Random(4)
    refused: list[str] = []
    with Book.open(tmp_path, DEVICE) as book:
        for _ in range(TRIED):
            line = json.dumps(hostile(chance.choice(LINES), chance)).encode("ascii")
            if chance.random() < 0.3:
                spot = chance.randrange(len(line))
                line = line[:spot] + chance.randbytes(3) + line[spot + chance.randrange(4) :]
            try:
                draft = draft_from(read_json(line))
                if chance.random() < 0.05:
                    book.record(draft)
            except (BadJson, Refused) as why:
                refused.append(str(why))
        recorded = list(book.job.entries)

    assert len(refused) > TRIED // 2
    assert all(0 < len(why) < 1000 for why in refused)
    with Book.open(tmp_path, DEVICE) as again:
        assert list(again.job.entries) == recorded
        assert again.reports == []
