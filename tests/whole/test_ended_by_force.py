"""Ended from outside: what was saved is never half typed, what was not comes back."""

from __future__ import annotations

import json
import os
import signal
from collections.abc import Callable
from pathlib import Path

import pytest

from fieldbook.office.samples import build_job
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home, Settings
from tests.whole.terminal import Terminal

JOB = "26-142"


def hang_up(terminal: Terminal) -> None:
    terminal.hang_up()


def killed_by(number: int) -> Callable[[Terminal], None]:
    return lambda terminal: os.kill(terminal.pid, number)


ASKS = {
    "closed terminal": hang_up,
    "HUP": killed_by(signal.SIGHUP),
    "TERM": killed_by(signal.SIGTERM),
}
ENDS = ASKS | {"KILL": killed_by(signal.SIGKILL)}


@pytest.fixture
def home(tmp_path: Path) -> Home:
    home = Home(tmp_path / "home")
    build_job(home, f"{JOB}-steel")
    home.keep(Settings(initials="LM", safety_seen=True))
    return home


def drafts(home: Home) -> Path:
    return home.path / "drafts" / f"{JOB}.json"


def half_typed_on_disk(terminal: Terminal, home: Home, *texts: str) -> None:
    """Wait until what is half typed is on disk, as it is after a few seconds."""

    def is_kept(_: str) -> bool:
        try:
            kept = json.loads(drafts(home).read_bytes())
        except (OSError, ValueError):
            return False
        return any(set(texts) <= set(said.values()) for said in kept["steps"].values())

    terminal.until(is_kept, f"{texts} on disk")


def open_job(terminal: Terminal) -> None:
    terminal.see(JOB, "Enter open job")
    terminal.settle()
    terminal.press("enter")
    terminal.see("STOP AT", "Joint *")
    terminal.settle()


def joints(home: Home) -> list[str]:
    with Book.open(home.jobs_folder / JOB, "d-reader", write=False) as book:
        going_in = (e for e in book.job.live("joint") if e.text("direction") == "in")
        return [entry.text("joint_number") for entry in going_in]


def form_on(terminal: Terminal) -> str:
    """The form of a joint, without what stands beside it and below."""
    lines = [line.partition("│")[0] for line in terminal.see("Joint *", "Ties").split("\n")]
    first = next(at for at, line in enumerate(lines) if "Joint *" in line)
    last = next(at for at, line in enumerate(lines) if "Ties" in line)
    return "\n".join(lines[first : last + 1])


@pytest.mark.parametrize("end", ENDS.values(), ids=ENDS)
def test_a_saved_joint_is_not_half_typed_for_the_next(
    home: Home, end: Callable[[Terminal], None]
) -> None:
    before = joints(home)
    with Terminal(home=home.path, columns=110, rows=40) as terminal:
        open_job(terminal)
        terminal.type("20.98")
        terminal.press("enter")
        terminal.settle()
        terminal.type("284")
        half_typed_on_disk(terminal, home, "20.98", "284")
        terminal.press_until("enter", "Joint 6 in saved")
        assert not drafts(home).exists()
        end(terminal)
        terminal.gone()

    assert joints(home) == [*before, "6"]
    assert not drafts(home).exists()
    with Terminal(home=home.path, columns=110, rows=40) as terminal:
        open_job(terminal)
        form = form_on(terminal)
        assert "7" in form.split("\n")[0]
        assert "284" not in form
        assert "20.98" not in form
        terminal.press("f10")
        assert terminal.ended() == 0


@pytest.mark.parametrize("end", ASKS.values(), ids=ASKS)
def test_what_is_half_typed_is_kept_at_once_where_the_system_asks_to_end(
    home: Home, end: Callable[[Terminal], None]
) -> None:
    with Terminal(home=home.path, columns=110, rows=40) as terminal:
        open_job(terminal)
        terminal.type("20.98")
        terminal.settle()
        end(terminal)
        terminal.gone()

    assert drafts(home).exists()
    assert not list(home.jobs_folder.glob("*/.*.holder")), "the book was not closed"
    with Terminal(home=home.path, columns=110, rows=40) as terminal:
        open_job(terminal)
        assert "20.98" in form_on(terminal)
        terminal.press("f10")
        assert terminal.ended() == 0
    assert "6" not in joints(home)


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP], ids=["TERM", "HUP"])
def test_the_terminal_is_given_back_as_it_was(home: Home, number: int) -> None:
    with Terminal(home=home.path, columns=110, rows=40) as terminal:
        open_job(terminal)
        os.kill(terminal.pid, number)
        shown = terminal.last_drawn()
        assert terminal.ended() == 0

    assert b"\x1b[?1049l" in shown, "the other screen"
    assert b"\x1b[?25h" in shown, "the cursor"
    for mouse in (b"\x1b[?1000l", b"\x1b[?1003l", b"\x1b[?1006l"):
        assert mouse in shown
    assert b"Traceback" not in shown


def test_a_second_signal_does_no_harm(home: Home) -> None:
    with Terminal(home=home.path, columns=110, rows=40) as terminal:
        open_job(terminal)
        terminal.type("20.98")
        terminal.settle()
        for number in (signal.SIGTERM, signal.SIGHUP, signal.SIGTERM):
            os.kill(terminal.pid, number)
        assert terminal.ended() == 0

    assert drafts(home).exists()
