"""How many keys a crew pays: to the first joint or mark of a new well, and for a whole pull.

Counts, no times: the same in every run and on every machine.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.walk.definition.loading import as_started, load
from fieldbook.walk.definition.record_now import PLAN_FIRST, RECORD_NOW
from tests.app.keys import Counted, counted
from tests.app.scenes import scratch_home
from tests.app.test_record_now import FIRST_WITHIN, WHOLE_UNDER, to_the_first

pytestmark = pytest.mark.bench
BEFORE = "1,001 keys to the first mark of a hose, the whole plan asked first"


async def the_rest_of_a_pull(crew: Counted) -> None:
    """From the first joint of 18 to the seal, a gauge reading with each joint."""
    for number in range(17):
        await crew.press("down")
        await crew.types(f"{680 - 25 * number}", "=")
    await crew.press("escape", "d", "enter")
    await crew.types("18", "enter", "enter")
    await crew.press("enter", "enter", "enter", "enter", "enter")
    await crew.press("c", "enter", "enter", "enter", "enter")
    crew.sees("SEALED")


async def test_keys_to_the_first_joint_and_to_the_seal(tmp_path: Path) -> None:
    print(f"\nbefore: {BEFORE}")
    for line in ("hose", "pvc", "steel"):
        async with counted(scratch_home(tmp_path / line)) as crew:
            await to_the_first(crew, line)
            first = crew.keys
            assert first <= FIRST_WITHIN
            print(f"{line}: {first} keys to the first {'mark' if line == 'hose' else 'joint'}")
            if line == "steel":
                await the_rest_of_a_pull(crew)
                print(f"steel: {crew.keys} keys for 18 joints with readings, to the seal")
                assert crew.keys < WHOLE_UNDER


@pytest.mark.parametrize("line", ["hose", "pvc", "steel"])
def test_fields_that_a_pull_asks_in_turn(line: str) -> None:
    counts = {}
    for start in (PLAN_FIRST, RECORD_NOW):
        steps = [
            step
            for step in as_started(load(line, "pull"), start).steps
            if not step.waits and not step.page and step.phase != "any_time"
        ]
        counts[start] = (
            len(steps), sum(len(s.asks) for s in steps), sum(len(s.must) for s in steps)
        )  # fmt: skip
        words = "{} steps, {} fields asked, {} must".format(*counts[start])
        print(f"\n{line} pull, {start}: {words}", end="")
    assert all(
        now < plan / 3 for now, plan in zip(counts[RECORD_NOW], counts[PLAN_FIRST], strict=True)
    )
