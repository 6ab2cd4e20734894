"""The demo's scratch folder is gone once the demo is, however it ends; a real book stays."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from fieldbook.cli import scratch
from fieldbook.cli.errors import CannotGoOn
from fieldbook.office.samples import build_job
from fieldbook.store.shelf.home import Home, Settings
from tests.whole.terminal import Terminal

_PATIENCE = 30.0  # how long to look before saying that a folder stays; nothing waits it out
JOB = "26-131"


def hang_up(terminal: Terminal) -> None:
    terminal.hang_up()


def killed_by(number: int) -> Callable[[Terminal], None]:
    return lambda terminal: os.kill(terminal.pid, number)


ENDS = {
    "closed terminal": hang_up,
    "SIGHUP": killed_by(signal.SIGHUP),
    "SIGTERM": killed_by(signal.SIGTERM),
    "SIGKILL": killed_by(signal.SIGKILL),
}


@pytest.fixture
def temporary(tmp_path: Path) -> Path:
    """Where the program makes what is temporary."""
    folder = tmp_path / "temporary"
    folder.mkdir()
    return folder


def demo(temporary: Path) -> Terminal:
    return Terminal("demo", extra={"TMPDIR": str(temporary)})


def see_empty(folder: Path) -> None:
    """Wait until nothing is left in a folder."""
    last = time.monotonic() + _PATIENCE
    while left := list(folder.iterdir()):
        assert time.monotonic() < last, f"{left} stay"
        time.sleep(0.01)


@pytest.mark.parametrize("end", ENDS.values(), ids=ENDS)
def test_it_is_removed_whatever_ends_the_demo(
    temporary: Path, end: Callable[[Terminal], None]
) -> None:
    with demo(temporary) as terminal:
        terminal.see("Enter")  # the first screen
        assert list(temporary.glob("*/jobs/*"))
        end(terminal)
        terminal.gone()
        see_empty(temporary)


@pytest.mark.parametrize("end", [hang_up, killed_by(signal.SIGTERM)], ids=["closed", "SIGTERM"])
def test_it_is_removed_while_the_sample_jobs_are_still_written(
    temporary: Path, end: Callable[[Terminal], None]
) -> None:
    with demo(temporary) as terminal:
        terminal.until(lambda _: any(temporary.glob("*/jobs/*")), "the first sample job")
        end(terminal)
        terminal.gone()
        see_empty(temporary)


def test_a_closed_terminal_ends_it_though_what_began_it_ignores_that(temporary: Path) -> None:
    deaf = (
        "import os, signal, sys; signal.signal(signal.SIGHUP, signal.SIG_IGN); "
        "os.execv(sys.executable, [sys.executable, '-m', 'fieldbook', 'demo'])"
    )
    with Terminal(program=("-c", deaf), extra={"TMPDIR": str(temporary)}) as terminal:
        terminal.see("Enter")
        terminal.hang_up()
        terminal.gone()
        see_empty(temporary)


def test_it_is_gone_before_the_demo_that_is_left(temporary: Path) -> None:
    with demo(temporary) as terminal:
        terminal.see("Enter")
        terminal.press("f10")
        assert terminal.ended() == 0
        assert list(temporary.iterdir()) == []


def test_where_none_can_be_made_it_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    makes_none = tmp_path / "makes_none.py"
    makes_none.write_text("raise SystemExit(1)")
    monkeypatch.setattr(scratch, "__file__", str(makes_none))

    with pytest.raises(CannotGoOn, match="no scratch folder"), scratch.scratch_folder(lambda: None):
        pass


def files_of(home: Home) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in home.jobs_folder.rglob("*.jsonl")}


@pytest.mark.parametrize("arguments", [(), ("demo",)], ids=["book", "demo on a book"])
def test_a_book_that_somebody_named_stays(
    tmp_path: Path, temporary: Path, arguments: tuple[str, ...]
) -> None:
    home = Home(tmp_path / "home")
    build_job(home, f"{JOB}-hose")
    home.keep(Settings(initials="LM", safety_seen=True))
    before = files_of(home)
    assert before
    given = (*arguments, "--home", str(home.path))
    with Terminal(*given, extra={"TMPDIR": str(temporary)}) as terminal:
        terminal.see("the shelf", JOB, "Enter open job")
        terminal.press("enter")
        terminal.see("STOP AT")
        terminal.hang_up()
        terminal.gone()
    assert files_of(home) == before
    assert list(temporary.iterdir()) == []
