"""The commands that draw a screen are those that every terminal of today is documented to take.

Source: Microsoft Learn, "Console Virtual Terminal Sequences" (what the console of Windows, and with
it Windows Terminal, takes), read 2026-11; the forms of commands by ECMA-48, section 5.4. What goes
beyond that page asks for a mode, a report or a name, and a terminal that does not know it draws
the same.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from fieldbook.office.samples import build_job
from fieldbook.store.shelf.home import Home, Settings
from tests.store.unsynced import unsynced
from tests.whole.terminal import Terminal

_JOB = "26-127"
_COMMAND = re.compile(
    rb"\x1b(?:\[(?P<parameters>[0-?]*)(?P<final>[ -/]*[@-~])"
    rb"|(?P<told>[\]P^_X])[^\x07\x1b]*(?:\x07|\x1b\\))"
)
# "Cursor positioning", "text modification", "cursor visibility", "alternate screen buffer".
_DRAWS = {b"H": rb"\d+;\d+", b"K": rb"[012]?", b"h": rb"\?(25|1049)", b"l": rb"\?(25|1049)"}
# A mode of keys, mouse, paste or the last column; a question whether one is known.
_ASKS = {
    b"h": rb"\?(7|1000|1003|1004|1006|1015|2004)",
    b"l": rb"\?(7|1000|1003|1004|1006|1015|2004)",
    b"u": rb"[<>]\d*",
    b"$p": rb"\?\d+",
}
_LOOKS = {0, 1, 22, 4, 24, 7, 27, *range(30, 38), 39, *range(40, 48), 49, *range(90, 98)} | {
    *range(100, 108)
}


class Filmed(Terminal):
    """A terminal that keeps what it was told to draw."""

    film_so_far = b""

    def draw(self, drawn: bytes) -> None:
        """Draw, and keep."""
        self.film_so_far += drawn
        super().draw(drawn)


@pytest.mark.parametrize("name", ["xterm-256color", "xterm-16color", "screen"])
def test_a_screen_is_drawn_with_documented_commands_alone(tmp_path: Path, name: str) -> None:
    home = Home(tmp_path)
    with unsynced():
        build_job(home, "26-127-steel")
    home.keep(Settings(initials="LM", safety_seen=True))
    with Filmed(home=tmp_path, extra={"TERM": name}) as terminal:
        terminal.until(lambda _: _JOB in terminal.lit_row(), "the cursor on the job")
        terminal.settle()
        terminal.press("enter")
        terminal.see("Limits", "Esc: more keys")
        for key, word in (("escape", "F1 help"), ("t", "Gauge over"), ("escape", "Limits")):
            terminal.settle()
            terminal.press(key)
            terminal.see(word)
        terminal.settle()
        terminal.press("f1")
        terminal.see("Keys here")
        terminal.press("f10")
        assert terminal.ended() == 0
        film = terminal.film_so_far

    assert set(strange(film)) == set()
    left = _COMMAND.sub(b"", film)
    assert b"\x1b" not in left, "a command of another form"
    assert not any(byte < 0x20 and byte not in b"\r\n\t" for byte in left)


def strange(film: bytes) -> Iterator[str]:
    """Each command that is neither documented nor without effect on what is drawn."""
    for command in _COMMAND.finditer(film):
        parameters, final = command["parameters"], command["final"]
        if command["told"]:
            continue  # a name, as of a title or of the pointer: a string that ends is passed over
        known = looks(parameters) if final == b"m" else fits(parameters, final)
        if not known:
            yield repr(command[0])


def fits(parameters: bytes, final: bytes) -> bool:
    forms = (table[final] for table in (_DRAWS, _ASKS) if final in table)
    return any(re.fullmatch(form, parameters) for form in forms)


def looks(parameters: bytes) -> bool:
    """Whether a look is made of documented ones: no faint, italic or blinking text."""
    rest = [int(number or b"0") for number in parameters.split(b";")]
    while rest:
        head = rest.pop(0)
        if head in (38, 48) and rest[:1] in ([2], [5]):
            del rest[: 4 if rest[0] == 2 else 2]  # the kind, and a colour of three or of one
        elif head not in _LOOKS:
            return False
    return True


def test_what_no_page_documents_is_found() -> None:
    assert list(strange(b"\x1b[1;2H\x1b[38;2;1;2;3;48;5;7;1m\x1b[?25l\x1b]0;title\x07")) == []
    assert len(list(strange(b"\x1b[3m\x1b[2m\x1b[5A\x1b[?1005h\x1b[1;2;3H\x1b[58;2;1;2;3m"))) == 6
