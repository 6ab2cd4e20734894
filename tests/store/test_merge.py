"""Folders of one job that several devices wrote come together without loss, in any order."""

from __future__ import annotations

import itertools
import shutil
from pathlib import Path

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft, Entry
from fieldbook.store.gather.merge import _is_same, merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.folder import read_folder
from fieldbook.store.job.lock import Hold
from fieldbook.store.log.line import encode, hash_of
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.store.conftest import Clock, files, ids, joint, note, opening, wrote


def strike(entry: Entry, by: str = "QA") -> Draft:
    values = {"reason": "written twice"}
    return draft_from({"kind": "strike", "by": by, "values": values, "strikes": entry.id})


def test_both_wrote_and_both_have_everything(cab: Path, office: Path, clock: Clock) -> None:
    ours = wrote(cab, "d-cab", note("cab 1"), note("cab 2"), clock=clock)
    theirs = wrote(office, "d-office", note("office 1"), clock=clock)

    assert merge_job(cab, office).new == ["d-cab-0001.jsonl"]
    assert merge_job(office, cab).new == ["d-office-0001.jsonl"]
    assert ids(cab) == ids(office)
    assert {entry.id for entry in ours + theirs} < ids(cab)
    assert files(cab) == files(office)


def test_any_order_and_any_number_of_times_gives_the_same(
    cab: Path, tmp_path: Path, clock: Clock
) -> None:
    places = [shutil.copytree(cab, tmp_path / name) for name in ("one", "two", "three")]
    for place in places:
        wrote(place, f"d-{place.name}", joint(1), note(place.name), clock=clock)
    results = []
    for number, order in enumerate(itertools.permutations(places)):
        into = tmp_path / f"into{number}"
        for place in (*order, *order, order[0]):
            merge_job(place, into)
        with Book.open(into, "", write=False) as book:
            results.append((files(into), list(book.job.entries), book.heads()))

    assert all(result == results[0] for result in results)
    assert len(results[0][1]) == 1 + 2 * 3
    again = merge_job(places[0], tmp_path / "into0")
    assert (again.new, again.grown) == ([], [])


def test_theirs_goes_on_from_ours_and_ours_from_theirs(
    cab: Path, office: Path, clock: Clock
) -> None:
    wrote(cab, "d-cab", note("one"), clock=clock)
    merge_job(cab, office)
    before = files(office)
    wrote(cab, "d-cab", note("two"), clock=clock)

    assert merge_job(office, cab).grown == []  # ours goes on from theirs: it stays
    assert merge_job(cab, office).grown == ["d-cab-0001.jsonl"]
    assert files(office)["d-cab-0001.jsonl"].startswith(before["d-cab-0001.jsonl"])
    assert files(office) == files(cab)


def test_a_torn_tail_is_not_taken_and_what_came_of_it_is(
    cab: Path, office: Path, clock: Clock
) -> None:
    told = wrote(cab, "d-cab", note("one"), note("two"), clock=clock)
    log = cab / "d-cab-0001.jsonl"
    whole = log.read_bytes()
    log.write_bytes(whole[:-40])  # as a sync tool found it while it was being written
    report = merge_job(cab, office)

    assert report.clean
    assert [problem.line for problem in report.problems] == [3]
    assert told[0].id in ids(office)
    assert told[1].id not in ids(office)
    log.write_bytes(whole)
    assert merge_job(cab, office).grown == [log.name]
    assert told[1].id in ids(office)


def test_a_torn_tail_of_ours_is_set_aside_when_theirs_goes_on(
    cab: Path, office: Path, clock: Clock
) -> None:
    told = wrote(cab, "d-cab", note("one"), note("two"), clock=clock)
    whole = (cab / "d-cab-0001.jsonl").read_bytes()
    (office / "d-cab-0001.jsonl").write_bytes(whole[:-40])  # brought by a sync tool
    merge_job(cab, office)

    assert {entry.id for entry in told} <= ids(office)
    assert verify(office).whole
    aside = [path.read_bytes() for path in office.glob("*.torn-*")]
    assert aside == [whole[:-40].rpartition(b"\n")[2]]


def altered(log: Path, words: str) -> None:
    """Rewrite the last line with right checksums, as somebody who knows the format could."""
    *lines, last = log.read_bytes().splitlines()
    entry = read_log(log).entries[-1][1]
    body = {"id": entry.id, "seq": entry.seq, "time": entry.time.isoformat(), "by": entry.by,
            "device": entry.device, "kind": "note", "note": words}  # fmt: skip
    lines.append(encode(len(lines) + 1, hash_of(lines[-1]), "entry", body))
    assert lines[-1] != last
    log.write_bytes(b"\n".join(lines) + b"\n")


def test_files_that_differ_are_both_kept_and_a_person_is_told(
    cab: Path, office: Path, tmp_path: Path, clock: Clock
) -> None:
    wrote(cab, "d-cab", note("one"), note("two"), clock=clock)
    merge_job(cab, office)
    altered(office / "d-cab-0001.jsonl", "not what was written")
    mine = files(office)
    report = merge_job(cab, office)

    assert not report.clean
    assert any("both are kept" in clash for clash in report.clashes)
    assert any("says two different things" in clash for clash in report.clashes)
    assert mine.items() <= files(office).items()
    assert (cab / "d-cab-0001.jsonl").read_bytes() in files(office).values()
    once = files(office)
    assert merge_job(cab, office).clashes == report.clashes
    assert files(office) == once
    # The one that is right goes on, and its second file in the office goes on with it.
    wrote(cab, "d-cab", note("three"), clock=clock)
    merge_job(cab, office)
    assert len(files(office)) == len(once)
    assert "three" in {entry.note for entry in read_folder(office).entries()}


def test_strikes_and_joints_that_clash_are_told(cab: Path, office: Path, clock: Clock) -> None:
    [wrong] = wrote(cab, "d-cab", joint(1), clock=clock)
    merge_job(cab, office)
    _, two, _ = wrote(cab, "d-cab", strike(wrong, "AB"), joint(2), joint(3), clock=clock)
    _, other, _ = wrote(
        office, "d-office", strike(wrong, "CD"), joint(2), joint(3, "in"), clock=clock
    )
    report = merge_job(cab, office)

    assert sorted(report.clashes) == [
        f"entry {wrong.seq} of d-cab was crossed out twice, by AB and CD",
        "joint 2 out is recorded more than once: "
        + "; ".join(
            f"{e.text('joint_length')} by QA at {e.time:%Y-%m-%d %H:%M},"
            f" entry {e.seq} of {e.device}"
            for e in (two, other)
        ),
    ]
    assert report.problems == []
    assert not report.clean


def test_another_job_is_refused_and_nothing_of_it_is_taken(
    cab: Path, tmp_path: Path, clock: Clock
) -> None:
    other = Shelf(Home(tmp_path / "elsewhere")).create(opening("26-2"), clock=clock)
    before = files(cab)
    report = merge_job(other, cab)

    assert [problem.words for problem in report.problems] == ["belongs to another job: not taken"]
    assert not report.clean
    assert files(cab) == before


def test_a_log_that_is_being_written_is_left_for_later(
    cab: Path, office: Path, clock: Clock
) -> None:
    wrote(cab, "d-cab", note("one"), clock=clock)
    hold = Hold(office, "d-cab")
    assert hold.take(clock())
    report = merge_job(cab, office)
    hold.release()

    assert any("gather again later" in problem.words for problem in report.problems)
    assert not report.clean
    assert merge_job(cab, office).new == ["d-cab-0001.jsonl"]


def test_two_folders_are_the_same_only_where_each_byte_of_their_logs_is(
    folder: Path, cab: Path
) -> None:
    assert _is_same(read_folder(cab), folder)
    log = next(path for path in folder.iterdir() if path.suffix == ".jsonl")
    raw = log.read_bytes()
    log.write_bytes(raw.replace(b"26-1", b"26-2"))
    assert log.stat().st_size == len(raw)

    assert not _is_same(read_folder(cab), folder)
