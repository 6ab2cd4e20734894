"""The office's tests begin with whole jobs and cut nothing off, so none waits for the disk."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.store.unsynced import unsynced


@pytest.fixture(autouse=True)
def _unsynced() -> Iterator[None]:
    with unsynced():
        yield
