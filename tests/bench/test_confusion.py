"""The aims of the telling on more pulls than CI runs; the script has the full counts."""

from __future__ import annotations

import pytest

from tests.amount import amount
from tests.bench.confusion import run, table
from tests.listen_sim.scoring import decided_if_big, false_alarms, wrong_of_decided


@pytest.mark.bench
@pytest.mark.timeout(1800)
def test_the_aims_hold_on_many_pulls() -> None:
    outcomes = run(faulty=amount(12, whole=30), clean=amount(40, whole=100), processes=2)
    print(table(outcomes))

    assert wrong_of_decided(outcomes).interval[0] <= 0.01
    assert false_alarms(outcomes).interval[0] < 0.01
    assert decided_if_big(outcomes).interval[1] >= 0.95
