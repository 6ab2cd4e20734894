"""Files that belong to a job: copied into its folder, named by what they hold."""

from __future__ import annotations

import hashlib
import re
from typing import TYPE_CHECKING

from fieldbook.store.disk import write_whole

if TYPE_CHECKING:
    from pathlib import Path

_NAME = re.compile(r"[0-9a-f]{64}")
LARGEST = 64 * 1024 * 1024


def attach(folder: Path, source: Path) -> str:
    """Copy a file into a job's folder and return the hash that names it there.

    Record the hash in an `attachment` entry afterwards; attaching the same file again changes
    nothing.

    Raises:
        OSError: It cannot be read, or the copy is not on disk.
        ValueError: It is larger than an attachment may be.
    """
    raw = _read(source)
    name = hashlib.sha256(raw).hexdigest()
    target = folder / name
    if not target.exists():
        write_whole(target, raw)
    return name


def attachments_of(folder: Path) -> list[Path]:
    """The attachments in a job's folder.

    Raises:
        OSError: The folder cannot be read.
    """
    named = (path for path in sorted(folder.iterdir()) if _NAME.fullmatch(path.name))
    return [path for path in named if path.is_file() and not path.is_symlink()]


def copy_attachment(path: Path, folder: Path) -> bool:
    """Copy an attachment into another folder of its job; False when it is there already.

    Raises:
        OSError: It cannot be read, or the copy is not on disk.
        ValueError: It is too large, or not what its name says.
    """
    target = folder / path.name
    if target.exists():
        return False
    raw = _read(path)
    if hashlib.sha256(raw).hexdigest() != path.name:
        raise ValueError("it does not hold what its name says: not taken")
    write_whole(target, raw)
    return True


def _read(path: Path) -> bytes:
    with path.open("rb") as file:
        raw = file.read(LARGEST + 1)
    if len(raw) > LARGEST:
        raise ValueError(f"larger than {LARGEST // 2**20} MB: not taken")
    return raw
