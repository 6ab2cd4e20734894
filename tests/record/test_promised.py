"""What a job promises, each thing once."""

from __future__ import annotations

import pytest

from fieldbook.office.samples import sample_names
from fieldbook.record.promised import promised
from tests.office.sampled import sample_job


@pytest.mark.parametrize("name", sample_names())
def test_no_sample_promises_a_record_or_a_lab_result_a_second_time(name: str) -> None:
    found = promised(sample_job(name))
    said_once = {promise.due for promise in found if promise.kind != "follow_up"}
    again = [p.words for p in found if p.kind == "follow_up" and p.due in said_once]

    assert not again
