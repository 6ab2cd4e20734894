"""The half-done hose pull, finished by hand in a real terminal, and handed to the office."""

from __future__ import annotations

import csv
import json
import subprocess
import sys
from pathlib import Path

import pytest

from fieldbook.record.job import Job
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.amount import amount
from tests.whole.terminal import ROOT, NotSeen, Terminal

JOB = "26-131"


def job_on_disk(home: Path) -> Job:
    """What is on disk, read as another program reads it while the app is up."""
    with Book.open(Shelf(Home(home)).find(JOB), "d-reader", write=False) as book:
        assert [str(report) for report in book.reports] == []
        return book.job


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "fieldbook", *arguments],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
    )


def open_job(terminal: Terminal) -> None:
    terminal.see("Before you start")
    terminal.press_until("enter", "the shelf", "Enter open job")
    choose_job(terminal)
    terminal.see("Limits", "STOP AT")


def choose_job(terminal: Terminal) -> None:
    """Go to the job by the digit before it, see the cursor there, and open it.

    The shelf is sorted anew once what changed was read, so the digit may be another's by then.
    """
    for _ in range(10):
        terminal.see(JOB)
        terminal.settle()
        row = terminal.row_of(JOB)
        terminal.press(row[: row.index(JOB)].split()[-1])
        terminal.settle()
        if JOB in terminal.lit_row():
            terminal.press("enter")
            return
    raise NotSeen(f"the cursor never came to {JOB}\n{terminal.text}")


def release(terminal: Terminal, key: str, *words: str) -> None:
    terminal.see("Sign:", "Role")
    terminal.press_until(key, *words)


def drain(terminal: Terminal) -> None:
    """Break the plug and prove it by the fall of the load."""
    full = terminal.see("Break the plug", "Hook load 913 lbf", "Line: not drained yet")
    assert "To read 1,038 to 1,291 lbf full" in full
    terminal.settle()
    terminal.fill("Gauge before", "1170")
    terminal.fill("Gauge after", "670")
    terminal.press("down")
    terminal.settle()
    terminal.type("y")
    terminal.see("[yes]")
    terminal.press("down")
    terminal.fill("Draining took", "4")
    terminal.press_until("enter", "Sign: ", "draining OK")
    terminal.press("c")
    release(terminal, "enter", "From the bail to the reel")
    drained = terminal.see("drained", "Hook load 478 lbf")
    assert "To read 577 to 743 lbf drained" in drained
    terminal.press_until("enter", "Sign: ")
    release(terminal, "enter", "Hose on to the reel", "Reel counter")


def footage(terminal: Terminal, home: Path, feet: int, reading: int) -> None:
    """Write the counter and the gauge; what the screen calls saved is on disk."""
    terminal.see("Reel counter")
    terminal.settle()
    terminal.fill("Reel counter", str(feet))
    terminal.fill("Gauge ", str(reading))
    terminal.press_until_it("enter", lambda text: says_saved(text, home, feet), f"{feet} ft saved")


def says_saved(text: str, home: Path, feet: int) -> bool:
    """Whether the newest footage is `feet`, and the screen says when that was saved."""
    newest = job_on_disk(home).live("footage")[-1:]
    return [entry.text("footage") for entry in newest] == [str(feet)] and (
        f"Hose footage out saved {newest[0].time:%H:%M:%S}" in text
    )


def counters(home: Path) -> list[str]:
    """The reel counter of every entry that stands."""
    return [entry.text("footage") for entry in job_on_disk(home).live("footage")]


@pytest.mark.long
@pytest.mark.parametrize(("columns", "rows"), amount([(80, 24)], whole=[(80, 24), (120, 36)]))
def test_a_hose_pull_is_finished_by_hand(tmp_path: Path, columns: int, rows: int) -> None:
    home = tmp_path / "home"
    with Terminal("demo", "--home", str(home), columns=columns, rows=rows) as terminal:
        open_job(terminal)
        drain(terminal)

        footage(terminal, home, 50, 620)
        footage(terminal, home, 100, 565)
        loads = [e.text("gauge_reading") for e in job_on_disk(home).live("footage")]
        assert loads == ["620", "565"]

        # A slip of the finger, 51 for 510. It is struck, and stays in the log.
        before = len(job_on_disk(home).entries)
        footage(terminal, home, 150, 51)
        terminal.press_until("-", "Cross out", "Reason")
        terminal.settle()
        terminal.type("slip")
        terminal.press_until_it("enter", lambda _: counters(home) == ["50", "100"], "a strike")
        job = job_on_disk(home)
        assert len(job.entries) == before + 2

        stop_the_pull(terminal, home)

        # The program is closed in the middle of it, and opens where it stood.
        terminal.press("f10")
        assert terminal.ended() == 0

    with Terminal("--home", str(home), columns=columns, rows=rows) as terminal:
        terminal.see("Enter open job")
        choose_job(terminal)
        terminal.see("STOP", "2,600")
        finish_the_pull(terminal, home)
        terminal.press("f10")
        assert terminal.ended() == 0

    check_the_office_has_it(home, tmp_path / "file")


def stop_the_pull(terminal: Terminal, home: Path) -> None:
    """A load over the limit stops the pull, and no key of the form gets past it."""
    terminal.see_no_more("Reason")
    terminal.settle()
    terminal.fill("Reel counter", "150")
    terminal.fill("Gauge ", "2600")
    terminal.press_until_it(
        "enter",
        lambda text: "STOP" in text and "2,600" in text and "Reel counter" not in text,
        "a stop in the form's place",
    )
    entries = len(job_on_disk(home).entries)
    terminal.type("160\r\r\r=")
    terminal.press("pagedown", "pageup", "escape", "d", "enter")
    terminal.see("STOP")
    assert counters(home) == ["50", "100", "150"]
    assert len(job_on_disk(home).entries) == entries


def finish_the_pull(terminal: Terminal, home: Path) -> None:
    """Only a lower reading clears the stop; then the rest of the hose comes in."""
    terminal.settle()
    terminal.press("g")
    terminal.see("Gauge reading")
    terminal.settle()
    terminal.type("540")
    terminal.press("down")
    terminal.press_until("enter", "Reel counter")
    footage(terminal, home, 250, 420)
    footage(terminal, home, 400, 90)
    terminal.settle()
    terminal.press("escape")
    terminal.see("step done")
    terminal.settle()
    terminal.press("d")
    terminal.see("Hose on to the reel: done")


def check_the_office_has_it(home: Path, folder: Path) -> None:
    """The tables say what was recorded, the struck line only as struck."""
    done = run("--home", str(home), "jobfile", JOB, "--out", str(folder))
    assert done.returncode == 0, done.stderr
    with (folder / "tally.csv").open(encoding="utf-8-sig", newline="") as file:
        tally = list(csv.DictReader(file))
    assert [row["footage [ft]"] for row in tally] == ["50", "100", "150", "250", "400"]
    assert [row["gauge_reading [lbf]"] for row in tally] == ["620", "565", "2600", "420", "90"]
    whole = json.loads((folder / "everything.json").read_text(encoding="utf-8"))
    assert len(whole["struck"]) == 1
    assert [e["id"] for e in whole["entries"]] == [e.id for e in job_on_disk(home).entries]
    assert run("verify", str(home)).returncode == 0
