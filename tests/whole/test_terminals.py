"""Other terminals: no colour at all, sixteen colours, the console of a bare machine."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from fieldbook.office.samples import build_job
from fieldbook.store.shelf.home import Home, Settings
from tests.store.unsynced import unsynced
from tests.whole.terminal import Terminal

JOB = "26-131"
TERMINALS = {
    "no colour": {"NO_COLOR": "1"},
    "sixteen": {"TERM": "xterm-16color"},
    "console": {"TERM": "linux"},
    "ssh": {"TERM": "xterm", "SSH_CONNECTION": "198.51.100.7 51000 198.51.100.8 22"},
}


@pytest.mark.parametrize("extra", TERMINALS.values(), ids=TERMINALS)
def test_verdicts_are_told_by_word_in_any_terminal(tmp_path: Path, extra: dict[str, str]) -> None:
    home = Home(tmp_path)
    with unsynced():
        build_job(home, "26-131-hose")
    home.keep(Settings(initials="LM", safety_seen=True))
    with Terminal(home=tmp_path, extra=extra) as terminal:
        terminal.see("the shelf", JOB, "Enter open job")
        terminal.settle()
        terminal.press("enter")
        terminal.see("Hook load 913 lbf OK", "Weakest:", "STOP AT", "Pressure")
        terminal.see("Esc: more keys")  # the form is up
        terminal.settle()
        terminal.press("escape")
        terminal.see("l lift check", "F1 help")
        terminal.press("g")
        terminal.see("Gauge reading")
        terminal.settle()
        terminal.type("2600")
        terminal.press("down")
        terminal.press_until("enter", "Gauge read 2,600 lbf STOP")
        terminal.press("f10")
        assert terminal.ended() == 0


def test_no_color_draws_no_colour(tmp_path: Path) -> None:
    Home(tmp_path).keep(Settings(initials="LM", safety_seen=True))
    with Terminal(home=tmp_path, extra={"NO_COLOR": "1"}) as terminal:
        frames = terminal.film(2.0)
        for _, drawn in frames:
            terminal.draw(drawn)
        assert "The shelf is empty" in terminal.text
        grey = b"".join(drawn for _, drawn in frames)
        assert not any(coloured(code) for code in re.findall(rb"\x1b\[([\d;]+)m", grey))


@pytest.mark.parametrize("name", ["xterm-16color", "linux", "screen"])
def test_a_field_that_is_not_typed_into_has_a_box_in_sixteen_colours(
    tmp_path: Path, name: str
) -> None:
    Home(tmp_path).keep(Settings(initials="LM", safety_seen=True))
    with Terminal(home=tmp_path, extra={"TERM": name}) as terminal:
        terminal.see("The shelf is empty")
        terminal.settle()
        terminal.press("n")
        terminal.see("Drop line", "Job *", "Esc cancel")
        terminal.settle()
        row = next(y for y, line in enumerate(terminal.screen.display) if "Job *" in line)
        at = terminal.screen.display[row].index("Job *")
        papers = [terminal.screen.buffer[row][x].bg for x in (at, at + 20)]
        assert papers[0] != papers[1]
        assert "cyan" in papers


@pytest.mark.parametrize("name", ["vt100", "xterm-mono"])
def test_a_terminal_without_colours_is_shown_none(tmp_path: Path, name: str) -> None:
    pytest.importorskip("curses")
    Home(tmp_path).keep(Settings(initials="LM", safety_seen=True))
    with Terminal(home=tmp_path, extra={"TERM": name}) as terminal:
        frames = terminal.film(2.0)
    shown = b"".join(drawn for _, drawn in frames)
    assert b"The shelf is empty" in shown
    assert not any(coloured(code) for code in re.findall(rb"\x1b\[([\d;]+)m", shown))


def coloured(code: bytes) -> bool:
    """Whether a colour command asks for a colour that is no shade of grey."""
    parts = [int(part) for part in code.split(b";")]
    for at, part in enumerate(parts):
        if part in (38, 48) and parts[at + 1 : at + 2] == [2]:
            return len(set(parts[at + 2 : at + 5])) > 1
        if part in (38, 48) and parts[at + 1 : at + 2] == [5]:
            return not (parts[at + 2] >= 232 or parts[at + 2] in (0, 7, 8, 15, 16, 231))
    return any(part in (*range(31, 37), *range(41, 47), *range(91, 97)) for part in parts)
