"""Every cut and every flipped bit is found; nothing acknowledged is lost from what is left."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from fieldbook.record.entry import Entry
from fieldbook.store.job.book import Book
from fieldbook.store.log.line import VERSION, encode, hash_of
from fieldbook.store.log.reader import read_log
from fieldbook.store.log.upgrades import upgraded
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from tests.amount import amount
from tests.store.conftest import note


@pytest.fixture
def log(book: Book, folder: Path) -> Path:
    for number in range(8):
        book.record(note(f"entry {number} [/] \u20ac"))
    book.close()
    return next(folder.glob("*.jsonl"))


def entries_of(raw: bytes, path: Path) -> list[Entry]:
    path.write_bytes(raw)
    return [entry for _, entry in read_log(path).entries]


def test_a_cut_at_every_byte_keeps_every_whole_line(log: Path, home: Home) -> None:
    whole = log.read_bytes()
    device = home.device_id()
    written = entries_of(whole, log)
    for cut in range(len(whole) + 1):
        log.write_bytes(whole[:cut])
        lines = whole[:cut].count(b"\n")
        found = read_log(log)

        assert [entry for _, entry in found.entries] == written[: max(lines - 1, 0)]
        assert bool(found.torn) == (cut > 0 and whole[cut - 1 : cut] != b"\n")
        assert not found.damaged
    # Opening to write is dearer, so it is tried at every line end and around it.
    ends = [i + 1 for i, byte in enumerate(whole) if byte == 0x0A]
    for cut in sorted({end + off for end in ends for off in (-2, -1, 0, 1, 7)} - {len(whole) + 1}):
        if not 0 <= cut <= len(whole):
            continue
        for stray in log.parent.glob("*.torn-*"):
            stray.unlink()
        for later in log.parent.glob("*-0002.jsonl"):
            later.unlink()
        log.write_bytes(whole[:cut])
        with Book.open(log.parent, device) as book:
            saved = book.record(note("after the cut"))
        with Book.open(log.parent, device, write=False) as again:
            assert saved in again.job.entries
            assert all(not problem.damage for problem in again.reports)
        aside = b"".join(path.read_bytes() for path in log.parent.glob("*.torn-*"))
        assert aside == whole[whole.rfind(b"\n", 0, cut) + 1 : cut]


def test_every_flipped_bit_is_found_and_the_rest_is_read(log: Path) -> None:
    whole = log.read_bytes()
    written = entries_of(whole, log)
    chance = random.Random(20260514)
    for position in sorted(chance.sample(range(len(whole)), 400)):
        flipped = bytearray(whole)
        flipped[position] ^= 1 << chance.randrange(8)
        log.write_bytes(flipped)
        found = read_log(log)

        assert found.problems, f"a flip at byte {position} was not found"
        kept = [entry for _, entry in found.entries]
        assert all(entry in written for entry in kept)
        assert len(kept) >= len(written) - 2  # a flipped line end takes two lines with it


def test_damage_is_named_by_line_and_the_device_goes_on_in_a_next_file(
    log: Path, home: Home
) -> None:
    raw = log.read_bytes().splitlines(keepends=True)
    raw[4] = raw[4].replace(b"entry 2", b"entry 4")
    log.write_bytes(b"".join(raw))
    damaged = log.read_bytes()
    with Book.open(log.parent, home.device_id()) as book:
        assert [(p.line, p.damage) for p in book.reports] == [(5, True)]
        saved = book.record(note("goes on"))
        assert len(book.job.entries) == 9

    later = log.with_name(log.name.replace("0001", "0002"))
    header = read_log(later).header
    assert header is not None
    assert header["after"] == {"file": log.name, "hash": read_log(log).head}
    assert log.read_bytes() == damaged
    assert not verify(log.parent).whole
    with Book.open(log.parent, home.device_id()) as again:
        assert saved in again.job.entries


@pytest.mark.parametrize("change", ["taken out", "put in", "swapped", "rewritten"])
def test_an_altered_chain_is_found(log: Path, change: str) -> None:
    lines = log.read_bytes().splitlines()
    if change == "taken out":
        del lines[4]
    elif change == "put in":
        lines.insert(4, lines[4])
    elif change == "swapped":
        lines[4], lines[5] = lines[5], lines[4]
    else:  # a line with a right checksum of its own, as somebody who knows the format would make
        entry = read_log(log).entries[3][1]
        body = {"id": entry.id, "seq": entry.seq, "time": entry.time.isoformat(), "by": "ZZ",
                "device": entry.device, "kind": "note", "note": "altered"}  # fmt: skip
        lines[4] = encode(5, hash_of(lines[3]), "entry", body)
    log.write_bytes(b"\n".join(lines) + b"\n")

    assert any(problem.damage for problem in read_log(log).problems)


def test_a_newer_format_is_refused_and_the_book_not_written(log: Path, home: Home) -> None:
    header = {"format": "fieldbook log", "version": VERSION + 1, "device": "d-other", "job": "x"}
    newer = log.with_name("d-other-0001.jsonl")
    newer.write_bytes(encode(1, "0" * 64, "head", header) + b"\n")
    with Book.open(log.parent, home.device_id()) as book:
        assert book.holder is not None
        assert "newer fieldbook" in book.holder
        assert any("newer fieldbook" in str(problem) for problem in book.reports)


def test_an_older_format_is_brought_up_step_by_step() -> None:
    steps = {
        0: lambda d: {**d, "kind": d["type"]} | {"type": None},
        1: lambda d: {k: v for k, v in d.items() if k != "type"},
    }

    assert upgraded({"type": "note"}, 0, upgrades=steps, target=2) == {"kind": "note"}


def test_foreign_files_and_links_are_left_alone(log: Path, home: Home, tmp_path: Path) -> None:
    secret = tmp_path / "secret.jsonl"
    secret.write_bytes(log.read_bytes())
    (log.parent / "d-link-0001.jsonl").symlink_to(secret)
    (log.parent / "notes.txt").write_text("hello", encoding="utf-8")
    (log.parent / "d-dir-0001.jsonl").mkdir()
    with Book.open(log.parent, home.device_id()) as book:
        assert len(book.job.entries) == 9
        assert {p.file for p in book.reports} == {"d-link-0001.jsonl", "d-dir-0001.jsonl"}


def mutations(raw: bytes, chance: random.Random) -> bytes:
    """One of the ways in which a file goes wrong, or is made to."""
    lines = raw.splitlines(keepends=True)
    at = chance.randrange(len(lines))
    junk = bytes(chance.randrange(256) for _ in range(chance.randrange(1, 60)))
    kind = chance.randrange(8)
    if kind == 0:
        lines[at] = junk + b"\n"
    elif kind == 1:
        lines[at] = lines[at].replace(b'"number"', b'"number":NaN,"x"', 1)
    elif kind == 2:
        lines[at] = b'{"n":' + b"[" * chance.choice([10, 5000]) + b"\n"
    elif kind == 3:
        lines[at] = b"\0" * chance.randrange(1, 5000)
    elif kind == 4:
        lines.insert(at, junk)
    elif kind == 5:
        body = {"id": chance.choice([1, None, "x", []]), "seq": chance.choice([-1, 2**80, "1"])}
        lines[at] = encode(at + 1, hash_of(lines[at - 1].rstrip(b"\n")), "entry", body) + b"\n"
    elif kind == 6:
        del lines[at:]
    else:
        spot = chance.randrange(max(len(raw), 1))
        return raw[:spot] + junk + raw[spot + len(junk) :]
    return b"".join(lines)


def test_spoiled_logs_are_read_without_a_traceback(log: Path) -> None:
    whole = log.read_bytes()
    written = {entry.id for entry in entries_of(whole, log)}
    chance = random.Random(41)
    for _ in range(amount(2_000, whole=10_000)):
        log.write_bytes(mutations(whole, chance))
        found = read_log(log)

        assert {entry.id for _, entry in found.entries} <= written
        if log.read_bytes() != whole:
            assert found.problems or found.whole_bytes < len(whole)


def test_a_line_without_end_fills_no_memory(log: Path) -> None:
    with log.open("ab") as file:
        for _ in range(64):
            file.write(b"x" * 2**20)
    found = read_log(log)

    assert len(found.entries) == 9
    assert found.problems
