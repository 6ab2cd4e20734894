"""The answer to a lift: the verdict, the reading to stop at, what the gauge should read."""

from __future__ import annotations

import pytest

from fieldbook.watch.lift.answer import Answer, lift_answer
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, says, without


def answer(*documents: dict[str, object]) -> Answer:
    return lift_answer(Watcher(job_of(*documents)).look())


def test_a_lift_that_is_good() -> None:
    found = answer(*STEEL, says("load", gauge_reading=900))

    assert found.verdict == "OK TO LIFT"
    assert found.stop_at == "STOP AT 1,290 lbf on the gauge (yours)"
    assert found.gauge == "gauge should read 820 to 1,004 lbf full, reads 900"


def test_a_reading_over_the_limit_says_by_how_much() -> None:
    found = answer(*STEEL, says("load", gauge_reading=1510))

    assert found.verdict == "STOP: gauge reads 1,510, stop at 1,290: OVER BY 220"


def test_a_load_over_a_link_names_it_and_says_by_how_much() -> None:
    found = answer(*STEEL, says("rig", hook_rating=1500))

    assert found.verdict == "STOP: 2,250 lbf on hook, limit 1,500: OVER BY 750"


def test_what_cannot_be_said_names_the_first_that_is_missing() -> None:
    look = Watcher(without(STEEL, "cable", "cable_weight")).look()
    found = lift_answer(look)

    assert found.verdict.startswith("CAN'T SAY: needs cable weight")
    assert found.stop_at == "STOP AT 1,290 lbf on the gauge (yours); not checked: cable weight"


def test_near_a_limit_it_says_how_near() -> None:
    found = answer(*STEEL, says("rig", hook_rating=2700))

    assert found.verdict == "LIFT WITH CAUTION: 83% of hook"


def test_where_service_is_not_known_the_caution_says_so() -> None:
    found = lift_answer(Watcher(without(HOSE, "well", "shut_off_head")).look())

    assert found.verdict == "LIFT WITH CAUTION: in service unknown: needs shut-off head"


def test_a_reading_off_what_is_expected_says_so() -> None:
    found = answer(*STEEL, says("load", gauge_reading=760))

    assert found.verdict == ("LIFT WITH CAUTION: read 760 lbf, 820 to 1,004 lbf expected then")


@pytest.mark.parametrize("work", ["pull", "check"])
def test_where_nothing_is_lifted_there_is_no_reading_to_stop_at(work: str) -> None:
    visit = says("job", job_number="C-1", line="steel", work="check")
    pulled = (*STEEL, says("pump_out", step="pull.pump_out", gauge_reading=40))
    found = answer(*(pulled if work == "pull" else (visit,)))

    assert found.verdict.startswith("OK: ")
    assert found.stop_at == found.gauge == ""
