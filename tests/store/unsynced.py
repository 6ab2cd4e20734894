"""Writing that does not wait for the disk, for what a test begins with and never cuts off."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator

import pytest

from fieldbook.store.log.disk import DISK


@contextlib.contextmanager
def unsynced() -> Iterator[None]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(DISK, "sync", lambda _descriptor: None)
        patch.setattr(DISK, "sync_folder", lambda _folder: None)
        yield
