"""A scratch folder that is gone once this program is, however it ends.

A program that is ended by a closed terminal or by a signal can remove nothing: its threads may
still be writing, and some signals ask nobody. So another process makes the folder, and removes it
at the end of a pipe that only this program holds. This file is what that process runs.
"""

from __future__ import annotations

import contextlib
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

_PREFIX = "fieldbook-demo-"
_NO_WINDOW = getattr(subprocess, "CREATE_NO_WINDOW", 0)  # on Windows: closed with no console


@contextlib.contextmanager
def scratch_folder(meanwhile: Callable[[], None]) -> Iterator[Path]:
    """A new and empty folder.

    Args:
        meanwhile: What to do while the other process starts, such as to load what is needed next.

    Raises:
        CannotGoOn: It cannot be made.
    """
    keeper = subprocess.Popen(  # noqa: S603 - this very file, nothing that anybody typed
        [sys.executable, "-I", "-X", "utf8", __file__],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        encoding="utf-8",
        errors="surrogateescape",
        start_new_session=True,  # what ends all programs of a terminal does not end this one
        creationflags=_NO_WINDOW,
    )
    with keeper:  # closes its pipe at the end, and waits until it is gone
        meanwhile()
        if keeper.stdout is None or not (made := keeper.stdout.readline().rstrip("\n")):
            from fieldbook.cli.errors import CannotGoOn  # noqa: PLC0415 - not for the other process

            raise CannotGoOn(f"no scratch folder can be made in {tempfile.gettempdir()}")
        yield Path(made)


def _keep() -> None:
    """Make a folder, say where it is, and remove it when nobody is there any more to use it."""
    with tempfile.TemporaryDirectory(prefix=_PREFIX, ignore_cleanup_errors=True) as made:
        print(made, flush=True)
        sys.stdin.read()


if __name__ == "__main__":
    _keep()
