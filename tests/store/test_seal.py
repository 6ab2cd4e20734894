"""A seal names every log as it was: what comes later is told apart, what was altered breaks it."""

from __future__ import annotations

import errno
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Draft, Entry
from fieldbook.store.gather.merge import merge_job
from fieldbook.store.job.book import Book
from fieldbook.store.job.errors import NotSaved
from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.disk import DISK
from fieldbook.store.log.line import encode, hash_of
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.seal import after_seal, broken_seals, seal_hash, sealed_heads
from fieldbook.store.log.verify import verify
from tests.store.conftest import Clock, note, wrote
from tests.store.forging import entry, header, log_of, write_log


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


@pytest.fixture
def crowded(cab: Path, request: pytest.FixtureRequest) -> Path:
    """A job with logs of many devices."""
    job = read_folder(cab).job_id
    for number in range(request.param):
        device = f"d-{number:04d}"
        raw = log_of(header(device=device, job=job), entry(1, device=device))
        write_log(cab, raw, device=device)
    return cab


@pytest.mark.parametrize("crowded", [45, 46, 60, 500], indirect=True)
@pytest.mark.parametrize("words", ["all done", "w" * 3700], ids=len)
def test_any_number_of_logs_seals(crowded: Path, clock: Clock, words: str) -> None:
    names = {path.name for path in crowded.glob("*.jsonl")} | {"d-cab-0001.jsonl"}
    [seal] = wrote(crowded, "d-cab", note("before"), sealing(words), clock=clock)[1:]
    logs = read_folder(crowded)

    assert seal.note.startswith(words)
    assert sealed_heads(seal, logs.entries()).keys() == names
    assert verify(crowded).whole
    assert broken_seals(crowded, seal) == []
    assert after_seal(crowded, seal) == []
    [later] = wrote(crowded, "d-0007", note("later"), clock=clock)
    assert after_seal(crowded, seal) == [later]
    assert verify(crowded).whole
    merge_job(crowded, crowded.with_name("merged"))
    assert verify(crowded.with_name("merged")).whole


@pytest.mark.parametrize("crowded", [500], indirect=True)
@pytest.mark.parametrize("device", ["d-0000", "d-0250", "d-0499", "d-cab"])
def test_each_of_many_logs_breaks_the_seal(crowded: Path, clock: Clock, device: str) -> None:
    [_, seal] = wrote(crowded, "d-cab", note("before"), sealing(), clock=clock)
    log = crowded / f"{device}-0001.jsonl"
    altered(log, 2)

    assert broken_seals(crowded, seal) == [log.name]
    assert not verify(crowded).whole
    log.unlink()
    if device != "d-cab":  # with that log the seal is gone too
        assert [problem.file for problem in verify(crowded).problems] == [log.name]


@pytest.mark.parametrize("crowded", [60], indirect=True)
def test_a_list_that_another_log_forges_is_not_taken_for_the_seals(
    crowded: Path, clock: Clock
) -> None:
    [seal] = wrote(crowded, "d-cab", sealing(), clock=clock)
    [(line, listed)] = [
        (line, e)
        for line, e in read_log(crowded / "d-cab-0001.jsonl").entries
        if e.kind == "sealed_logs"
    ]
    victim = crowded / "d-0003-0001.jsonl"
    altered(victim, 2)
    head = read_log(victim).head
    words = "\n".join(
        f"{victim.name}={head}" if said.startswith(victim.name) else said
        for said in listed.note.splitlines()
    )
    forged = entry(1, id=listed.id, device="d-00", kind="sealed_logs", note=words)
    job = read_folder(crowded).job_id
    write_log(crowded, log_of(header(device="d-00", job=job), forged), device="d-00")

    assert line == 2
    assert victim.name in broken_seals(crowded, seal)


@pytest.mark.parametrize("crowded", [60], indirect=True)
def test_a_list_that_is_not_there_breaks_the_seal(crowded: Path, clock: Clock) -> None:
    wrote(crowded, "d-cab", sealing(), clock=clock)
    log = crowded / "d-cab-0001.jsonl"
    lines = log.read_bytes().splitlines()
    log.write_bytes(b"\n".join([lines[0], lines[2]]) + b"\n")

    assert any(
        "a list of logs that it names is not here" in p.words for p in verify(crowded).problems
    )


@pytest.mark.parametrize("crowded", [100], indirect=True)
@pytest.mark.parametrize("fails_at", [1, 2, 3, 4])
def test_a_seal_of_many_logs_that_is_not_saved_is_saved_when_it_is_tried_again(
    crowded: Path, monkeypatch: pytest.MonkeyPatch, fails_at: int
) -> None:
    """Its first line, each of its two lists, and the seal itself meet a full disk once."""
    draft, real, calls = sealing("all done"), DISK.write, []

    def write(descriptor: int, raw: bytes) -> None:
        calls.append(raw)
        if len(calls) == fails_at:
            raise OSError(errno.ENOSPC, "full")
        real(descriptor, raw)

    with Book.open(crowded, "d-cab") as book:
        monkeypatch.setattr(DISK, "write", write)
        with pytest.raises(NotSaved, match="full") as problem:
            book.record(draft)
        assert problem.value.draft is draft
        seal = book.record(draft)
    assert broken_seals(crowded, seal) == []
    assert verify(crowded).whole


def test_a_copy_of_a_sealed_folder_is_sealed(cab: Path, sealed: Entry, tmp_path: Path) -> None:
    copy = shutil.copytree(cab, tmp_path / "copy")

    assert broken_seals(copy, sealed) == []
