"""How far long work is, on standard error: a bar on a terminal, a line now and then elsewhere."""

from __future__ import annotations

import sys
from contextlib import contextmanager
from typing import TYPE_CHECKING

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_LINES = 20


@contextmanager
def progress(words: str) -> Iterator[Callable[[int, int], None]]:
    """A call that takes how much of how much is done."""
    console = Console(stderr=True)
    if not console.is_terminal:
        yield _Lines(words)
        return
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    with Progress(*columns, TimeRemainingColumn(), console=console) as bar:
        task = bar.add_task(words, total=None)
        yield lambda done, of: bar.update(task, completed=done, total=of)


class _Lines:
    """A line at each twentieth of the work."""

    def __init__(self, words: str) -> None:
        self._words = words
        self._said = -1

    def __call__(self, done: int, of: int) -> None:
        share = done * _LINES // of if of else 0
        if share > self._said and done:
            self._said = share
            print(f"{self._words}: {done:,} of {of:,}", file=sys.stderr, flush=True)
