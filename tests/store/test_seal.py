"""A seal names every log as it was: what comes later is told apart, what was altered breaks it."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.record.entry import Draft, Entry
from fieldbook.store.book import Book
from fieldbook.store.line import encode, hash_of
from fieldbook.store.merge import merge_job
from fieldbook.store.reading import read_log
from fieldbook.store.seal import after_seal, broken_seals, seal_hash, sealed_heads
from fieldbook.store.verify import verify
from tests.store.conftest import Clock, note, wrote


def sealing(words: str = "") -> Draft:
    return draft_from({"kind": "seal", "by": "QA", "note": words})


@pytest.fixture
def sealed(cab: Path, clock: Clock) -> Entry:
    """The seal of a job that two devices wrote."""
    wrote(cab, "d-cab", note("cab 1"), note("cab 2"), clock=clock)
    wrote(cab, "d-office", note("office 1"), note("office 2"), clock=clock)
    [seal] = wrote(cab, "d-cab", sealing("all done"), clock=clock)
    return seal


def test_a_seal_names_the_last_line_of_every_log(cab: Path, sealed: Entry) -> None:
    heads = sealed_heads(sealed)

    assert heads.keys() == {path.name for path in cab.glob("*.jsonl")}
    assert heads["d-office-0001.jsonl"] == read_log(cab / "d-office-0001.jsonl").head
    lines = (cab / "d-cab-0001.jsonl").read_bytes().splitlines()
    assert heads["d-cab-0001.jsonl"] == hash_of(lines[-2])  # the seal itself is the last
    assert sealed.note.startswith("all done\n")
    assert broken_seals(cab, sealed) == []
    assert after_seal(cab, sealed) == []
    assert verify(cab).whole


def test_a_seal_is_the_same_when_it_is_read_again(cab: Path, sealed: Entry) -> None:
    with Book.open(cab, "", write=False) as book:
        [again] = book.job.live("seal")

    assert again == sealed
    assert seal_hash(again) == seal_hash(sealed)


def test_a_seal_takes_in_what_another_device_wrote_a_moment_ago(cab: Path, clock: Clock) -> None:
    with Book.open(cab, "d-cab", clock=clock) as book:
        wrote(cab, "d-office", note("just now"), clock=clock)
        seal = book.record(sealing())

    assert sealed_heads(seal)["d-office-0001.jsonl"] == read_log(cab / "d-office-0001.jsonl").head
    assert after_seal(cab, seal) == []


def test_what_arrives_after_the_seal_is_kept_and_shown_after_it(
    cab: Path, sealed: Entry, office: Path, clock: Clock
) -> None:
    # Written offline before the seal, by its number, and brought after it.
    offline = wrote(office, "d-tablet", note("offline"), clock=clock)
    merge_job(office, cab)
    late = wrote(cab, "d-office", note("the lab's result"), clock=clock)
    amended = wrote(cab, "d-cab", note("amendment"), clock=clock)

    assert broken_seals(cab, sealed) == []
    assert verify(cab).whole
    expected = sorted(offline + late + amended, key=lambda entry: entry.order)
    assert after_seal(cab, sealed) == expected
    assert offline[0].order < sealed.order
    [second] = wrote(cab, "d-cab", sealing("amended"), clock=clock)
    assert after_seal(cab, second) == []


def altered(log: Path, line: int) -> None:
    """Rewrite a line and all after it with right checksums and chain, as a forger would."""
    lines = log.read_bytes().splitlines()
    entries = dict(read_log(log).entries)
    for number in range(line, len(lines) + 1):
        entry = entries[number]
        text = "forged" if number == line else entry.note
        body = {"id": entry.id, "seq": entry.seq, "time": entry.time.isoformat(), "by": entry.by,
                "device": entry.device, "kind": entry.kind, "note": text}  # fmt: skip
        lines[number - 1] = encode(number, hash_of(lines[number - 2]), "entry", body)
    log.write_bytes(b"\n".join(lines) + b"\n")


def shortened(log: Path, line: int) -> None:
    """Take away a line and all after it."""
    log.write_bytes(b"".join(log.read_bytes().splitlines(keepends=True)[: line - 1]))


@pytest.mark.parametrize("line", [2, 3])
@pytest.mark.parametrize("forge", [altered, shortened, lambda log, _: log.unlink()])
def test_an_altered_a_shortened_and_a_missing_log_break_the_seal(
    cab: Path, sealed: Entry, line: int, forge: object
) -> None:
    log = cab / "d-office-0001.jsonl"
    assert callable(forge)
    forge(log, line)

    assert broken_seals(cab, sealed) == [log.name]
    found = verify(cab)
    assert not found.whole
    [problem] = found.problems
    assert problem.file == log.name
    assert "the seal of 2026-05-14 08:0" in str(problem)
    assert "by QA" in str(problem)


def test_one_altered_line_breaks_the_seal_though_the_sealed_line_still_stands(
    cab: Path, sealed: Entry
) -> None:
    log = cab / "d-office-0001.jsonl"
    first, _, *rest = log.read_bytes().splitlines()
    altered(log, 2)
    log.write_bytes(b"\n".join([first, log.read_bytes().splitlines()[1], *rest]) + b"\n")

    assert broken_seals(cab, sealed) == [log.name]


def test_the_seals_own_log_breaks_it_too(cab: Path, sealed: Entry) -> None:
    log = cab / "d-cab-0001.jsonl"
    altered(log, 2)

    assert broken_seals(cab, sealed) == [log.name]
    assert [problem.file for problem in verify(cab).problems] == [log.name]


def test_a_forged_seal_has_another_hash_than_the_printed_one(cab: Path, sealed: Entry) -> None:
    log = cab / "d-cab-0001.jsonl"
    printed = seal_hash(sealed)
    lines = read_log(log).lines
    altered(log, lines)
    with Book.open(cab, "", write=False) as book:
        [forged] = book.job.live("seal")

    assert seal_hash(forged) != printed


def test_the_command_verify_names_the_broken_seal(cab: Path, sealed: Entry) -> None:
    words = [sys.executable, "-m", "fieldbook", "verify", str(cab)]
    held = subprocess.run(words, capture_output=True, text=True, check=False)
    altered(cab / "d-office-0001.jsonl", 3)
    broken = subprocess.run(words, capture_output=True, text=True, check=False)

    assert held.returncode == 0, held.stdout
    assert broken.returncode == 1
    assert "d-office-0001.jsonl: the seal of" in broken.stdout
    assert "is broken" in broken.stdout


def test_over_many_jobs_each_seal_and_problem_names_its_folder(cab: Path, sealed: Entry) -> None:
    """A device's logs are called the same in every job of an office."""
    altered(cab / "d-office-0001.jsonl", 3)
    found = verify(cab.parent)

    assert f"{cab.name}: seal of" in str(found)
    assert f"{cab.name}/d-office-0001.jsonl: the seal of" in str(found)
    assert [seal["folder"] for seal in found.document()["seals"]] == [cab.name]
    assert {problem.file.partition("/")[0] for problem in found.problems} == {cab.name}
    assert sealed.id in str(found.document())


def test_a_seal_over_more_logs_than_a_note_holds_is_refused_not_lost(
    cab: Path, clock: Clock
) -> None:
    for number in range(60):
        wrote(cab, f"d-{number}", note("x"), clock=clock)
    with Book.open(cab, "d-cab", clock=clock) as book:
        with pytest.raises(Refused, match="longer than"):
            book.record(sealing())
        kept = book.record(note("and goes on"))
    with Book.open(cab, "d-cab") as again:
        assert again.reports == []
        assert again.job.entries[-1] == kept


def test_a_copy_of_a_sealed_folder_is_sealed(cab: Path, sealed: Entry, tmp_path: Path) -> None:
    copy = shutil.copytree(cab, tmp_path / "copy")

    assert broken_seals(copy, sealed) == []
