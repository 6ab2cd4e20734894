"""Programs killed at random instants: every entry they told saved is there, and nothing half."""

from __future__ import annotations

import contextlib
import json
import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from fieldbook.store.job.folder import read_folder
from fieldbook.store.log.verify import verify
from fieldbook.store.shelf.home import Home
from fieldbook.store.shelf.shelf import Shelf
from tests.amount import amount
from tests.store.conftest import opening
from tests.store.kill_run import kill_often

pytestmark = pytest.mark.skipif(
    not hasattr(os, "fork"), reason="the quick killing needs a system that forks"
)
KILLS = int(os.environ.get("FIELDBOOK_KILLS", amount("60", whole="5000")))
KILLS_OF_ENTER = amount(3, whole=6)


@pytest.mark.long
@pytest.mark.timeout(60 + KILLS)
def test_a_program_killed_at_random_instants_loses_nothing_it_told_saved(tmp_path: Path) -> None:
    figures = kill_often(tmp_path, KILLS, seed=20260514)
    print(figures)

    assert figures.lost == []
    assert figures.kills == KILLS
    assert figures.told > KILLS


def test_enter_killed_at_random_instants_loses_nothing_it_answered(tmp_path: Path) -> None:
    home = Home(tmp_path)
    folder = Shelf(home).create(opening())
    chance, told = random.Random(7), set[str]()
    for run in range(KILLS_OF_ENTER):
        told |= answered_before_the_kill(tmp_path, run, chance)
        there = {entry.id: entry for entry in read_folder(folder).entries()}

        assert told <= there.keys()
        assert verify(folder).whole
        assert all(entry.note.endswith(" end") or entry.kind == "job" for entry in there.values())
    assert len(told) > KILLS_OF_ENTER


def answered_before_the_kill(home: Path, run: int, chance: random.Random) -> set[str]:
    """Feed `fieldbook enter` lines without waiting, and kill it after some of its answers."""
    words = [sys.executable, "-m", "fieldbook", "--home", str(home), "enter", "26-1"]
    program = subprocess.Popen(
        words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
    )
    assert program.stdin is not None
    assert program.stdout is not None
    for number in range(40):
        note = f"{run} {number} {'x' * chance.randrange(800)} end"
        line = json.dumps({"kind": "note", "by": "QA", "note": note})
        program.stdin.write(line.encode() + b"\n")
    program.stdin.flush()
    answers = [program.stdout.readline() for _ in range(1 + chance.randrange(8))]
    time.sleep(chance.uniform(0, 0.01))  # any instant within an entry or two
    program.kill()
    answers += program.stdout.readlines()  # not by `communicate`, which skips what is buffered
    program.stdout.close()
    with contextlib.suppress(BrokenPipeError):
        program.stdin.close()
    program.wait()
    return {json.loads(answer)["saved"] for answer in answers if answer.endswith(b"\n")}
