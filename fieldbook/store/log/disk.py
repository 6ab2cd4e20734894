"""The few calls that put bytes on disk so that they stay there.

Every write in the store goes through `DISK`, so that tests can make any one of them fail and can
keep a model of what a power cut would leave.
"""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import sys
from typing import TYPE_CHECKING

from fieldbook.small_file import refuse_special

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

_NO_SUCH_CALL = {errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP}
_HAS_MODES = (
    os.name != "nt"
)  # there a mode says nothing, or narrows who may read in ways of its own


class Disk:
    """The real file system.

    What is made is for its owner alone. A folder that is there keeps the mode that it has; a
    stricter umask takes away more. On Windows modes have no effect.

    Attributes:
        shared: Whether the group may read and write what is made too.
        durable: Whether what is written has to stay after a power cut; not in a scratch folder.
    """

    shared = False
    durable = True

    @property
    def file_mode(self) -> int:
        """The mode of a new file, before the umask."""
        return (0o660 if self.shared else 0o600) if _HAS_MODES else 0o644

    @property
    def folder_mode(self) -> int:
        """The mode of a new folder, before the umask."""
        return (0o770 if self.shared else 0o700) if _HAS_MODES else 0o777

    def close_to_others(self, path: Path) -> None:
        """Give a file that a library has just made the mode that we would have given it."""
        if _HAS_MODES:
            path.chmod(path.stat().st_mode & self.file_mode)

    @contextlib.contextmanager
    def scratch(self) -> Iterator[None]:
        """Write without waiting for the disk meanwhile: to a folder that is gone at the end."""
        self.durable = False
        try:
            yield
        finally:
            self.durable = True

    def open_append(self, path: Path, *, new: bool) -> int:
        """A descriptor that appends to `path`; a new file must not exist yet."""
        flags = os.O_WRONLY | os.O_APPEND | (os.O_CREAT | os.O_EXCL if new else 0)
        flags |= getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
        flags |= getattr(os, "O_NONBLOCK", 0)  # a pipe in its place is not waited for
        if not new:
            refuse_special(path)
        return os.open(path, flags, self.file_mode)

    def write(self, descriptor: int, raw: bytes) -> None:
        """Write all of `raw`."""
        rest = memoryview(raw)
        while rest:
            rest = rest[os.write(descriptor, rest) :]

    def sync(self, descriptor: int) -> None:
        """Return only when the file's bytes are on the disk."""
        if not self.durable:
            return
        if sys.platform == "darwin":
            import fcntl  # noqa: PLC0415 - only there

            # There fsync leaves the bytes in the drive's cache.
            fcntl.fcntl(descriptor, fcntl.F_FULLFSYNC)
        else:
            os.fsync(descriptor)

    def sync_folder(self, folder: Path) -> None:
        """Return only when the folder's list of names is on the disk."""
        if os.name == "nt" or not self.durable:
            return  # Windows has no such call; a new name is durable with its file
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        except OSError as error:
            # File systems that cannot sync a folder say so; any other error means not saved.
            if error.errno not in _NO_SUCH_CALL:
                raise
        finally:
            os.close(descriptor)

    def is_unchanged(self, descriptor: int, path: Path, size: int | None = None) -> bool:
        """Whether `path` still names the open file, and it is as long as we left it."""
        try:
            named, opened = path.lstat(), os.fstat(descriptor)
        except FileNotFoundError:
            return False
        return os.path.samestat(named, opened) and size in (None, opened.st_size)

    def truncate(self, descriptor: int, size: int) -> None:
        """Cut the file to `size` bytes."""
        os.ftruncate(descriptor, size)

    def close(self, descriptor: int) -> None:
        """Close a descriptor."""
        os.close(descriptor)

    def replace(self, source: Path, target: Path) -> None:
        """Give `source` the name `target`, at once or not at all; a folder, where none is."""
        source.replace(target)

    def remove(self, path: Path) -> None:
        """Take away a file that holds nothing that was acknowledged."""
        path.unlink()

    def remove_folder(self, path: Path) -> None:
        """Take away a folder, and what is in it, that was never acknowledged."""
        shutil.rmtree(path)

    def make_folder(self, path: Path) -> None:
        """Make one folder in a folder that is there."""
        path.mkdir(self.folder_mode, exist_ok=True)


DISK = Disk()


def write_whole(path: Path, raw: bytes) -> None:
    """Write a whole file so that it is there in full or not at all, and stays.

    What is in its place is replaced only where it is a plain file. Others may write the folder
    too, so nothing that they put there is followed, opened or waited for.

    Raises:
        NotPlain: A link, a pipe, a device or a folder is in its place.
        OSError: It could not be written; an earlier file of that name is as it was.
    """
    refuse_special(path)
    beside = path.with_name(f".{path.name}.{os.getpid()}.next")
    with contextlib.suppress(FileNotFoundError):
        DISK.remove(beside)
    try:
        write_new(beside, raw)
        DISK.replace(beside, path)
    except OSError:
        with contextlib.suppress(OSError):
            DISK.remove(beside)
        raise
    DISK.sync_folder(path.parent)


def write_new(path: Path, raw: bytes) -> None:
    """Write a file that is not there yet, so that its bytes stay; its name may not.

    Raises:
        OSError: It is there, or could not be written; a piece of it may be there.
    """
    descriptor = DISK.open_append(path, new=True)
    try:
        DISK.write(descriptor, raw)
        DISK.sync(descriptor)
    finally:
        DISK.close(descriptor)


def make_folders(path: Path, *, stay: bool = True) -> None:
    """Make a folder, and those above it that are missing, so that they stay.

    Those that are there already are made sure of too: a program that was killed may have left a
    folder whose name never reached the disk.

    Args:
        path: The folder.
        stay: Whether it matters after a power cut; it does not for a scratch folder.

    Raises:
        OSError: One could not be made.
    """
    for folder in (*reversed(path.parents), path):
        if not folder.is_dir():
            DISK.make_folder(folder)
        if not stay:
            continue
        with contextlib.suppress(PermissionError):  # not ours to read, so not ours that made it
            DISK.sync_folder(folder.parent)
