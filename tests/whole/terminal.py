"""A real program in a real pseudo-terminal, read as a person reads the screen."""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Self

import pexpect
import pyte

ROOT = Path(__file__).parents[2]
KEYS = {
    "enter": "\r",
    "escape": "\x1b",
    "tab": "\t",
    "up": "\x1b[A",
    "down": "\x1b[B",
    "right": "\x1b[C",
    "left": "\x1b[D",
    "pageup": "\x1b[5~",
    "pagedown": "\x1b[6~",
    "backspace": "\x7f",
    "f1": "\x1bOP",
    "f10": "\x1b[21~",
    "space": " ",
}
_PATIENCE = 30.0  # how long to look before saying it will not come; nothing waits it out otherwise


class NotSeen(AssertionError):
    """What was waited for did not come; the message holds the screen."""


class Terminal:
    """`fieldbook` with arguments, in a terminal of `columns` x `rows`."""

    def __init__(
        self,
        *arguments: str,
        home: Path | None = None,
        columns: int = 80,
        rows: int = 24,
        extra: dict[str, str] | None = None,
    ) -> None:
        self.screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self.screen)
        kept = ("PATH", "HOME", "LANG", "PYTHONPATH", "VIRTUAL_ENV", "TMPDIR")
        environment = {name: os.environ[name] for name in kept if name in os.environ}
        environment |= {"TERM": "xterm-256color", "TEXTUAL_ANIMATIONS": "none", "LANG": "C.UTF-8"}
        if home is not None:
            environment["FIELDBOOK_HOME"] = str(home)
        self._child: pexpect.spawn[bytes] = pexpect.spawn(
            sys.executable,
            ["-m", "fieldbook", *arguments],
            dimensions=(rows, columns),
            env=environment | (extra or {}),
            cwd=str(ROOT),
            timeout=_PATIENCE,
        )

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._child.close(force=True)

    @property
    def pid(self) -> int:
        assert self._child.pid is not None
        return self._child.pid

    @property
    def text(self) -> str:
        """The screen, line by line."""
        return "\n".join(line.rstrip() for line in self.screen.display)

    def press(self, *keys: str) -> None:
        """Press keys by name, or a character each."""
        for key in keys:
            self._child.send(KEYS.get(key, key))

    def type(self, text: str) -> None:
        """Type text as it is."""
        self._child.send(text)

    def see(self, *words: str) -> str:
        """Wait until every one of `words` is on the screen, and return the screen."""
        return self.until(lambda text: all(word in text for word in words), f"{words}")

    def see_no_more(self, word: str) -> str:
        """Wait until `word` has left the screen."""
        return self.until(lambda text: word not in text, f"{word!r} to go")

    def until(self, holds: Callable[[str], bool], what: str) -> str:
        """Wait until `holds` of the screen."""
        last = time.monotonic() + _PATIENCE
        while not holds(self.text):
            if time.monotonic() > last:
                raise NotSeen(f"waited for {what}; the screen is\n{self.text}")
            try:
                self._stream.feed(self._child.read_nonblocking(65536, timeout=1))
            except pexpect.TIMEOUT:
                continue
            except pexpect.EOF:
                if holds(self.text):
                    break
                raise NotSeen(f"the program ended; waited for {what}\n{self.text}") from None
        return self.text

    def resize(self, columns: int, rows: int) -> None:
        """Make the window larger or smaller."""
        self.screen.resize(rows, columns)
        self._child.setwinsize(rows, columns)

    def ended(self) -> int:
        """Wait for the program to end, and return its exit code."""
        self._child.expect(pexpect.EOF)
        self._child.close()
        return int(self._child.exitstatus if self._child.exitstatus is not None else -1)
