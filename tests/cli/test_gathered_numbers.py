"""A line from elsewhere whose number is absurd: named, and the newest reading stays the newest."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.record.codec import LARGEST_SEQ
from fieldbook.store.job.book import Book
from fieldbook.store.log.reader import FURTHEST_AHEAD
from tests.app.scenes import put_job, scratch_home
from tests.cli.enter import Script
from tests.store.forging import entry, header, log_of, write_log
from tests.watch.jobs import STEEL

READ = [*STEEL, {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}]
CALM = {"gauge_reading": {"text": "500", "number": 500.0, "unit": "lbf"}}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return put_job(scratch_home(tmp_path / "home"), READ, before="ready.load_check")


def gathered(folder: Path, stick: Path, *seqs: int, device: str = "d-zz") -> int:
    """Gather a copy of the job in which another device says 500 lbf under these numbers."""
    copy = shutil.copytree(folder, stick / folder.name)
    with Book.open(folder, "", write=False) as book:
        job = book.job_id
    lines = [
        entry(place, device=device, seq=seq, kind="load", values=CALM, note="")
        for place, seq in enumerate(seqs, 1)
    ]
    write_log(copy, log_of(header(device=device, job=job), *lines), device=device)
    return main(["gather", str(stick), "--into", str(folder.parents[1])])


@pytest.mark.parametrize("device", ["d-00", "d-zz"])
@pytest.mark.parametrize(
    "seqs",
    [
        [LARGEST_SEQ],
        [LARGEST_SEQ] * 3,
        [LARGEST_SEQ - 1, LARGEST_SEQ],
        [3, LARGEST_SEQ],
        [10**12],
        [FURTHEST_AHEAD + 1],
    ],
    ids=str,
)
def test_a_new_reading_is_judged_whatever_number_was_gathered(
    folder: Path,
    tmp_path: Path,
    seqs: list[int],
    device: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert gathered(folder, tmp_path / "stick", *seqs, device=device) == 1
    told = capsys.readouterr().out
    assert f"{device}-0001.jsonl, line {len(seqs) + 1}: its number {seqs[-1]} is beyond" in told

    script = Script(folder, monkeypatch, capsys)
    for reading, verdict in ((4000, "stop"), (900, "within"), (4000, "stop")):
        [answer] = script.enter(
            {"kind": "load", "by": "QA", "values": {"gauge_reading": reading}},
        )
        assert answer["seq"] < FURTHEST_AHEAD
        assert [c["verdict"] for c in answer["checks"] if c["name"] == "gauge"] == [verdict]
    with Book.open(folder, "", write=False) as book:
        assert book.job.entries[-1].id == answer["saved"]
        assert len({e.id for e in book.job.live("load")}) == 4 + len(seqs)  # nothing is dropped


def test_a_number_that_leaps_over_what_others_wrote_is_no_fault(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A device that saw a gauge's thousands of readings, which have not been gathered yet."""
    assert gathered(folder, tmp_path / "stick", 86_400, 86_401) == 0, capsys.readouterr().out


def test_a_job_that_an_absurd_number_had_blinded_counts_on_from_its_place(tmp_path: Path) -> None:
    """Entries that were told saved under the highest number there is stay, in their own order."""
    lines = [entry(1), entry(2)] + [entry(n, seq=LARGEST_SEQ) for n in (3, 4, 5)]
    write_log(tmp_path, log_of(header(), *lines))
    with Book.open(tmp_path, "d-truck") as book:
        assert [e.note for e in book.job.entries] == [f"entry {n}" for n in range(1, 6)]
        assert [e.seq for e in book.job.entries] == [1, 2, 3, 4, 5]
        assert [problem.line for problem in book.reports] == [4, 5, 6]
