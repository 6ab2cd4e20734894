"""Reads the small files that people, and the book itself, keep beside the logs.

A file may be anything by the time it is read: a pipe that never ends, a device, a link, a number of
a million digits, brackets a hundred thousand deep. Whatever it is, reading it ends, and what is
wrong is one line.
"""

from __future__ import annotations

import errno
import os
import stat
import tomllib
from typing import TYPE_CHECKING, Any, BinaryIO

if TYPE_CHECKING:
    from pathlib import Path

_DEEPEST = 32
"""Tables and lists within each other; more than any file of ours needs, and far from what a message
about them could not be written of."""
_LARGEST_WHOLE = 2**63 - 1  # TOML v1.0.0 asks for 64-bit integers and no more
_KINDS = (
    (stat.S_ISLNK, "a link"),
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISSOCK, "a socket"),
)
_READ = (
    os.O_RDONLY
    | getattr(os, "O_CLOEXEC", 0)
    | getattr(os, "O_BINARY", 0)
    | getattr(os, "O_NONBLOCK", 0)  # a pipe that takes the file's place is not waited for
)


class BadToml(ValueError):
    """The bytes are no TOML that a file of ours can hold; the message says why."""


class NotPlain(OSError):
    """There is something else than a plain file; `strerror` says what and where."""


def refuse_special(path: Path, *, links: bool = False) -> None:
    """Refuse a link, a pipe, a device or a folder where a plain file belongs, or nothing yet.

    Args:
        path: The file.
        links: Whether a link to a plain file may stand there.

    Raises:
        NotPlain: It is something else.
        OSError: Its folder cannot be read.
    """
    try:
        mode = os.stat(path, follow_symlinks=links).st_mode  # noqa: PTH116 - Path.stat is the same
    except FileNotFoundError:
        return
    if not stat.S_ISREG(mode):
        what = next((words for is_it, words in _KINDS if is_it(mode)), "a device")
        words = f"{path.name} is {what} and no plain file: it is left alone; take it away"
        raise NotPlain(errno.EEXIST, words)


def refuse_linked(folder: Path) -> None:
    """Refuse a link where the book's own folder belongs: what is written there stays in the home.

    Raises:
        NotPlain: It is one.
    """
    if folder.is_symlink():
        words = f"{folder.name} is a link and no folder: it is left alone; take it away"
        raise NotPlain(errno.EEXIST, words)


def open_plain(path: Path, *, links: bool = False) -> BinaryIO:
    """Open a plain file to be read; nothing else is opened, and nothing is waited for.

    Args:
        path: The file.
        links: Whether a link to it may be followed: yes for what people write, no for what the
            book writes itself.

    Raises:
        NotPlain: It is something else.
        OSError: It is not there, or cannot be read.
    """
    refuse_special(path, links=links)
    follow = 0 if links else getattr(os, "O_NOFOLLOW", 0)
    file = os.fdopen(os.open(path, _READ | follow), "rb")
    if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):  # it took the file's place just now
        file.close()
        raise NotPlain(errno.EEXIST, f"{path.name} is no plain file")
    return file


def read_small(path: Path, most: int, *, links: bool = False) -> bytes:
    """What a plain file holds; of one that is larger, `most` bytes and one more.

    Args:
        path: The file.
        most: The most bytes that such a file can have.
        links: As in `open_plain`.

    Raises:
        NotPlain: It is something else.
        OSError: It is not there, or cannot be read.
    """
    with open_plain(path, links=links) as file:
        return file.read(most + 1)


def read_toml(raw: bytes) -> dict[str, Any]:
    """The tables that a file holds, none deeper and no whole number larger than can be used.

    Raises:
        BadToml: The message says why.
    """
    try:
        tables = tomllib.loads(raw.decode("utf-8"))
    except UnicodeDecodeError as error:
        raise BadToml(f"not UTF-8 text, from byte {error.start + 1} on") from error
    except tomllib.TOMLDecodeError as error:
        raise BadToml(f"not TOML: {error}") from error
    except RecursionError as error:
        raise BadToml("not TOML: nested too deep") from error
    except ValueError as error:  # a number of more digits than Python reads, a day that is none
        raise BadToml("not TOML: a number or a day in it that cannot be read") from error
    _look_through(tables)
    return tables


def _look_through(tables: dict[str, Any]) -> None:
    """Refuse what later steps could not take: they know nothing of numbers that overflow."""
    level: list[object] = [tables]
    for _ in range(_DEEPEST):
        inner: list[object] = []
        for found in level:
            if isinstance(found, int) and abs(found) > _LARGEST_WHOLE:
                raise BadToml("not TOML: a whole number of more than 19 digits")
            if isinstance(found, dict):
                inner += found.values()
            elif isinstance(found, list):
                inner += found
        if not inner:
            return
        level = inner
    raise BadToml(f"not TOML: nested more than {_DEEPEST} deep")
