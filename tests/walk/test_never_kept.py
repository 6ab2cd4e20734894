"""Refused at the gate, whoever is sure: a reading past the gauge's end, oneself as witness."""

from __future__ import annotations

from typing import Any

import pytest

from fieldbook.quantities.admit import draft_from
from fieldbook.walk.entry.never_kept import never_kept
from tests.watch.jobs import STEEL, job_of, says


def refused(document: dict[str, Any]) -> dict[str, str]:
    return never_kept(draft_from(document), job_of(*STEEL))  # a gauge of 4,000 lbf


@pytest.mark.parametrize(
    ("kind", "values", "name"),
    [
        ("load", {"gauge_reading": 4001}, "gauge_reading"),
        ("load", {"gauge_reading": "1815 kg"}, "gauge_reading"),
        ("joint", {"direction": "out", "joint_number": 1, "joint_length": 21,
                   "gauge_reading": 12501650}, "gauge_reading"),
        ("drain", {"drained_by": "weep hole", "load_after": 4500}, "load_after"),
    ],
)  # fmt: skip
def test_a_reading_past_the_end_of_the_gauge_is_never_kept(
    kind: str, values: dict[str, Any], name: str
) -> None:
    found = refused(says(kind, **values))
    assert list(found) == [name]
    assert "the gauge ends at" in found[name]


@pytest.mark.parametrize("reading", [4000, "1814 kg", 900])
def test_a_reading_up_to_its_end_is_kept(reading: Any) -> None:
    assert refused(says("load", gauge_reading=reading)) == {}


@pytest.mark.parametrize("initials", ["QA", "qa", " QA "])
def test_nobody_is_their_own_witness(initials: str) -> None:
    assert list(refused(says("finding", part="cause", finding="worn", witness=initials))) == [
        "witness"
    ]
    assert refused(says("finding", part="cause", finding="worn", witness="CD")) == {}
