"""Where the folder is remembered that was chosen at the first start.

A small file in the platform's folder for settings holds the path and nothing else. It is
outside the book, since it says where the book is.
"""

from __future__ import annotations

import os
from pathlib import Path

import platformdirs

from fieldbook.small_file import read_small
from fieldbook.store.log.disk import make_folders, write_whole

_NAME = "home"
_LONGEST = 4096


class HomeGone(Exception):
    """The folder that was chosen is not there; the message says which and what can be done."""


def pointer_file() -> Path:
    """The file that remembers the choice."""
    return Path(platformdirs.user_config_dir("fieldbook", appauthor=False)) / _NAME


def chosen_folder() -> Path | None:
    """The folder that was chosen; None where nobody chose another than the platform's.

    Raises:
        HomeGone: It is not there. A new book in its place would look as if all jobs were lost.
    """
    file = pointer_file()
    try:
        raw = read_small(file, _LONGEST, links=True)
    except FileNotFoundError:
        return None
    except OSError as problem:
        raise HomeGone(f"cannot read {file}: {problem.strerror}") from problem
    folder = Path(os.fsdecode(raw.strip()).replace("\0", "?"))
    if not folder.is_absolute() or not folder.is_dir():
        raise HomeGone(
            f"the book's folder {folder}, chosen at first, is not there: plug in the drive,"
            f" or give --home; to choose again, remove {file}"
        )
    return folder


def remember(folder: Path) -> None:
    """Remember `folder` as the book's.

    Raises:
        OSError: It is not remembered.
    """
    file = pointer_file()
    make_folders(file.parent)
    write_whole(file, os.fsencode(folder) + b"\n")
