"""How long a program in a terminal takes, seen from outside: to its first screen, to an echo."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from tests.whole.terminal import NotSeen, Terminal

BLANK = """
from textual.app import App
from textual.widgets import Footer, Header, Input

class Blank(App):
    BINDINGS = [("f2", "bell", "Bell")]

    def compose(self):
        yield Header()
        field = Input(placeholder="blank")
        field.cursor_blink = False
        yield field
        yield Footer()

Blank().run()
"""
"""A Textual app that does nothing: what every app made with it has to bear."""

_AT_REST = 0.4  # seconds without a stroke after which what was drawn is looked at
_PATIENCE = 30.0


def blank(columns: int, rows: int, extra: dict[str, str]) -> Terminal:
    """The app that does nothing, started."""
    return Terminal(program=("-c", BLANK), columns=columns, rows=rows, extra=extra)


def seconds_to_start(start: Callable[[], Terminal], *words: str) -> float:
    """Seconds from the start of a program until all `words` stand on its screen."""
    since = time.perf_counter()
    with start() as terminal:
        while time.perf_counter() < since + _PATIENCE:
            for came, drawn in terminal.film(_AT_REST):
                terminal.draw(drawn)
                if all(word in terminal.text for word in words):
                    return came - since
        raise NotSeen(terminal.text)


def seconds_to_echo(terminal: Terminal, key: str) -> float:
    """Seconds from a key until the screen first changes."""
    return _changes(terminal, key)[0]


def seconds_to_rest(terminal: Terminal, key: str, *words: str) -> float:
    """Seconds from a key until the screen changes no more; then all `words` are on it."""
    last = _changes(terminal, key)[-1]
    if not all(word in terminal.text for word in words):
        raise NotSeen(terminal.text)
    return last


def _changes(terminal: Terminal, key: str) -> list[float]:
    """When, in seconds after a key, the text on the screen changed."""
    terminal.settle()
    shown, changes = terminal.text, []
    since = time.perf_counter()
    terminal.press(key)
    for came, drawn in terminal.film(_AT_REST):
        terminal.draw(drawn)
        if terminal.text != shown:
            shown = terminal.text
            changes.append(came - since)
    if not changes:
        raise NotSeen(terminal.text)
    return changes


def resident(terminal: Terminal) -> int:
    """Kilobytes of memory that the program holds."""
    status = Path(f"/proc/{terminal.pid}/status").read_text(encoding="ascii")
    return int(next(line for line in status.splitlines() if line.startswith("VmRSS")).split()[1])
