"""A merge that fails or is killed at any call leaves both folders whole."""

from __future__ import annotations

import itertools
import shutil
from pathlib import Path

import pytest

from fieldbook.store.gather.merge import merge_job
from fieldbook.store.log.verify import verify
from tests.store.conftest import Clock, files, ids, note, wrote
from tests.store.failing_disk import FailingDisk
from tests.store.model_disk import ModelDisk, ProcessDied


@pytest.mark.parametrize("lasting", [False, True])
def test_a_merge_that_fails_at_any_call_leaves_both_folders_whole(
    cab: Path, office: Path, tmp_path: Path, clock: Clock, *, lasting: bool
) -> None:
    wrote(cab, "d-cab", note("one"), clock=clock)
    wrote(office, "d-office", note("office"), clock=clock)
    merge_job(cab, office)
    wrote(cab, "d-cab", note("two"), clock=clock)
    wrote(cab, "d-second", note("second"), clock=clock)
    theirs, kept = files(cab), ids(office)
    for first in itertools.count(1):
        into = shutil.copytree(office, tmp_path / f"at{first}")
        disk = FailingDisk(range(first, first + (1000 if lasting else 1)).__contains__, 28)
        with pytest.MonkeyPatch.context() as patch:
            disk.install(patch)
            if not stopped(cab, into):
                assert not disk.failed
                break
        assert files(cab) == theirs
        assert verify(into).whole
        assert kept <= ids(into)
        merge_job(cab, into)
        assert ids(into) == kept | ids(cab)
    assert first > 8


def stopped(theirs: Path, ours: Path) -> bool:
    try:
        merge_job(theirs, ours)
    except (OSError, ProcessDied):
        return True
    return False


def test_a_merge_killed_at_any_call_leaves_both_folders_whole(
    cab: Path, office: Path, tmp_path: Path, clock: Clock
) -> None:
    wrote(cab, "d-cab", note("one"), clock=clock)
    merge_job(cab, office)
    wrote(cab, "d-cab", note("two"), clock=clock)
    theirs, kept = files(cab), ids(office)
    for call in itertools.count(1):
        into = shutil.copytree(office, tmp_path / f"at{call}")
        with pytest.MonkeyPatch.context() as patch:
            ModelDisk(into, dies_at=call).install(patch)
            if not stopped(cab, into):
                break
        assert files(cab) == theirs
        assert verify(into).whole
        assert kept <= ids(into)
        merge_job(cab, into)
        assert ids(into) == ids(cab)
    assert call > 4
