"""Looks at many folders at once: reading and checking lines is work for every core.

The other processes only read, and what they tell is small. Each has a pipe of its own to this one,
so that it ends when this one ends, however that happens.
"""

from __future__ import annotations

import contextlib
import errno
import multiprocessing
import os
import signal
from collections import deque
from itertools import islice
from typing import TYPE_CHECKING

from fieldbook.store.gather.folder_scan import FolderScan, look_at

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator
    from multiprocessing.connection import Connection
    from pathlib import Path

_MANY = 100
_MOST_PROCESSES = 4
_AT_ONCE = 8
_AHEAD = 2


def looks(folders: Iterable[Path], of: int) -> Iterator[tuple[Path, FolderScan | OSError]]:
    """What a look at each folder tells, in order; the error where it cannot be read.

    Args:
        folders: The folders.
        of: About how many they are; other processes are only started for many.
    """
    processes = min(_cores(), _MOST_PROCESSES)
    if of < _MANY or processes < 2:
        yield from ((folder, _look(folder)) for folder in folders)
        return
    with contextlib.ExitStack() as stack:
        starting = [stack.enter_context(_process()) for _ in range(processes)]
        yield from _spread(iter(folders), starting)


def _spread(
    folders: Iterator[Path], starting: list[Connection]
) -> Iterator[tuple[Path, FolderScan | OSError]]:
    """Hand the folders out a few at a time, to each in turn, and take the answers in that order.

    Until the first process is up, folders are looked at here.
    """
    pipes: deque[Connection] = deque()
    asked: deque[tuple[Connection, list[Path]]] = deque()
    while True:
        for pipe in [pipe for pipe in starting if _says_something(pipe)]:
            starting.remove(pipe)
            if _is_up(pipe):
                pipes.append(pipe)
        while len(asked) < len(pipes) * _AHEAD and (few := list(islice(folders, _AT_ONCE))):
            with contextlib.suppress(OSError):  # it died: what it does not answer is done here
                pipes[0].send(few)
            asked.append((pipes[0], few))
            pipes.rotate(-1)
        if asked:
            pipe, few = asked.popleft()
            yield from zip(few, _answers(pipe, few), strict=True)
        elif folder := next(folders, None):
            yield folder, _look(folder)
        else:
            return


def _says_something(pipe: Connection) -> bool:
    try:
        return pipe.poll()
    except OSError:  # on Windows, that the process died
        return True


def _is_up(pipe: Connection) -> bool:
    """Whether a process that said something is there to be asked, and has not died instead."""
    try:
        pipe.recv()
    except (EOFError, OSError):
        return False
    return True


def _answers(pipe: Connection, few: list[Path]) -> list[FolderScan | OSError]:
    try:
        found: list[FolderScan | OSError] = pipe.recv()
    except (EOFError, OSError):
        return [_look(folder) for folder in few]
    return found


@contextlib.contextmanager
def _process() -> Iterator[Connection]:
    # Forking a program that runs threads may stop the child at a lock that nobody will free.
    spawn = multiprocessing.get_context("spawn")
    here, there = spawn.Pipe()
    process = spawn.Process(target=_answer, args=(there,), daemon=True)
    process.start()
    there.close()
    try:
        yield here
    finally:
        here.close()
        process.join()


def _answer(pipe: Connection) -> None:
    """Say that this process is up, then answer until nobody asks any more."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the one that asks
    with contextlib.suppress(EOFError, OSError):
        pipe.send(None)
        while True:
            pipe.send([_look(folder) for folder in pipe.recv()])


def _look(folder: Path) -> FolderScan | OSError:
    try:
        return look_at(folder)
    except OSError as error:
        return error
    except MemoryError:
        return OSError(errno.ENOMEM, "more than this machine's memory holds", str(folder))


def _cores() -> int:
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
