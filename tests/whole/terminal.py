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
_BETWEEN_TRIES = 1.0  # longer than the quiet the book asks for between saving keys
_PATIENCE = 30.0  # how long to look before saying it will not come; nothing waits it out otherwise


class NotSeen(AssertionError):
    """What was waited for did not come; the message holds the screen."""


class Terminal:
    """`fieldbook` with arguments, or another program, in a terminal of `columns` x `rows`."""

    def __init__(
        self,
        *arguments: str,
        home: Path | None = None,
        columns: int = 80,
        rows: int = 24,
        extra: dict[str, str] | None = None,
        program: tuple[str, ...] = ("-m", "fieldbook"),
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
            [*program, *arguments],
            dimensions=(rows, columns),
            env=environment | (extra or {}),
            cwd=str(ROOT),
            timeout=_PATIENCE,
        )
        self._child.delaybeforesend = None  # a wait that helps with passwords only

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        try:
            self._child.close(force=True)
        except pexpect.ExceptionPexpect:  # killed, but on a busy machine not gone at once
            self._child.wait()

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

    def press_until(self, key: str, *words: str) -> str:
        """Press a saving key until it is taken: the book ignores it for a moment after a save."""
        return self.press_until_it(
            key, lambda text: all(word in text for word in words), f"{words}"
        )

    def press_until_it(self, key: str, holds: Callable[[str], bool], what: str) -> str:
        """Press a saving key until `holds` of the screen."""
        for _ in range(40):
            self.press(key)
            try:
                return self.until(holds, what, patience=_BETWEEN_TRIES)
            except NotSeen:
                continue
        raise NotSeen(f"{key} never brought {what}; the screen is\n{self.text}")

    def fill(self, label: str, text: str) -> None:
        """Go down to the line of `label`, type into it, and see the text stand there.

        One key at a time: a key that comes before the last one was acted on goes where that one
        stood.
        """
        self.go_to(label)
        self.type(text)
        self.until(
            lambda screen: any(
                label in line and f" {text} " in line for line in screen.split("\n")
            ),
            f"{text} beside {label}",
        )

    def go_to(self, label: str) -> None:
        """Go down, line by line, to the line of `label`."""
        for _ in range(24):
            self.settle()
            if self._cursor_line().startswith(label):
                return
            # Once more where the form that was just put up took the cursor back.
            before = self.screen.cursor.y
            self.press_until_it(
                "down",
                lambda _, at=before: self.screen.cursor.y != at,  # type: ignore[misc] # mypy does not see the default
                "the cursor to move",
            )
        raise NotSeen(f"no line of {label!r} was reached\n{self.text}")

    def _cursor_line(self) -> str:
        return str(self.screen.display[self.screen.cursor.y]).strip()

    def row_of(self, word: str) -> str:
        """The first line of the screen with `word` in it."""
        return next(line for line in self.text.split("\n") if word in line)

    def lit_row(self) -> str:
        """The first line of the row that the cursor is on, in a list in a frame: by its ground."""
        framed = [at for at, line in enumerate(self.screen.display) if line.startswith("│")]
        grounds = [self.screen.buffer[at][2].bg for at in framed]
        usual = max(grounds, key=grounds.count, default="")
        lit = (at for at, ground in zip(framed, grounds, strict=True) if ground != usual)
        return next((str(self.screen.display[at]) for at in lit), "")

    def see_no_more(self, word: str) -> str:
        """Wait until `word` has left the screen."""
        return self.until(lambda text: word not in text, f"{word!r} to go")

    def until(self, holds: Callable[[str], bool], what: str, *, patience: float = _PATIENCE) -> str:
        """Wait until `holds` of the screen."""
        last = time.monotonic() + patience
        while not holds(self.text):
            if time.monotonic() > last:
                raise NotSeen(f"waited for {what}; the screen is\n{self.text}")
            try:
                self.take_in()
            except pexpect.EOF:
                if holds(self.text):
                    break
                raise NotSeen(f"the program ended; waited for {what}\n{self.text}") from None
        return self.text

    def take_in(self, patience: float = 0.2) -> bool:
        """Take in what the program draws next; whether anything came.

        Raises:
            pexpect.EOF: The program has ended.
        """
        try:
            self.draw(self._child.read_nonblocking(65536, timeout=patience))
        except pexpect.TIMEOUT:
            return False
        return True

    def draw(self, drawn: bytes) -> None:
        """Draw on the screen what the program wrote."""
        self._stream.feed(drawn)

    def film(self, quiet: float) -> list[tuple[float, bytes]]:
        """What the program writes until it is quiet for so many seconds, and when by perf_counter.

        It is not drawn yet: drawing takes time, in which more comes.
        """
        frames: list[tuple[float, bytes]] = []
        while True:
            try:
                drawn = self._child.read_nonblocking(65536, timeout=quiet)
            except pexpect.TIMEOUT:
                return frames
            frames.append((time.perf_counter(), drawn))

    def last_drawn(self) -> bytes:
        """What the program writes from now on until it has ended."""
        drawn = b""
        try:
            while True:
                drawn += self._child.read_nonblocking(65536, timeout=_PATIENCE)
        except pexpect.EOF:
            return drawn

    def settle(self) -> None:
        """Wait until the program has drawn all that it is going to."""
        while self.take_in(0.3):
            pass

    def resize(self, columns: int, rows: int) -> None:
        """Make the window larger or smaller."""
        self.screen.resize(rows, columns)
        self._child.setwinsize(rows, columns)

    def hang_up(self) -> None:
        """Close the window: the program is told by the system, and by nobody else."""
        self._child.ptyproc.fileobj.close()  # type: ignore[attr-defined] # the stubs lack it

    def gone(self) -> None:
        """Wait until the program is gone, whatever ended it."""
        self._child.wait()

    def ended(self) -> int:
        """Wait for the program to end, and return its exit code."""
        self._child.expect(pexpect.EOF)
        self._child.close()
        return int(self._child.exitstatus if self._child.exitstatus is not None else -1)
