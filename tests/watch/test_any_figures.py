"""Whatever a crew may write down, the watch answers."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.watch.document import look_document
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record, says

_KINDS = ("well", "rig", "redirect", "gauge", "limit", "piece", "cable", "pump", "level", "drain",
          "load", "joint", "footage", "meter", "depth", "pump_out", "rack", "prior",
          "hose_sheet", "setting", "duty", "tank", "chlorine")  # fmt: skip
_HEAD = (
    says("well", head_kind="well seal", stick_up=1.2),
    says("pump", intake_below=1.5, motor_voltage=460, motor_phase="3", service_amps=10),
    says("cable", cable_size="10 AWG", cable_length=400),
)
_METER = says(
    "meter", volts_ab=460, volts_bc=455, volts_ca=450, amps_a=9, amps_b=9, amps_c=8, ohms_ab=4,
    ohms_bc=4, ohms_ca=4, insulation=30,
)  # fmt: skip
PULLED = (
    *STEEL,
    *_HEAD,
    *(
        says("joint", direction="out", joint_number=n, joint_length=21, gauge_reading=900 - 40 * n)
        for n in range(1, 19)
    ),
    says("pump_out", rack_count=18, wet_joint=9, wet_mark=1),
    _METER,
)
HUNG = (
    *HOSE,
    *_HEAD,
    *(says("footage", direction="in", footage=60 * n, gauge_reading=90 * n) for n in range(1, 8)),
    says("depth", datum="ground", depth_by_tape=422, depth_by_cable=425),
    _METER,
    _METER,
)


def figures(name: str) -> st.SearchStrategy[Any]:
    known = definition(name)
    if known.choices:
        return st.sampled_from(known.choices)
    if known.dimension == "count":
        return st.integers(-2, 90)
    if known.is_words:
        return st.sampled_from(["2026-01-02", "yes", "[/]"])
    return st.sampled_from([0, 1e-9, 0.5, 1, 2, 90, 181, 1000, 1e6, -1, -500]) | st.floats(
        -1e9, 1e9, allow_nan=False
    )


@st.composite
def documents(draw: st.DrawFn, more: tuple[str, ...] = ()) -> dict[str, Any]:
    kind = kinds()[draw(st.sampled_from((*_KINDS, *more)))]
    names = draw(st.sets(st.sampled_from([*kind.needs, *kind.may]), max_size=6)) | set(kind.needs)
    return {
        "kind": kind.name,
        "by": "QA",
        "values": {name: draw(figures(name)) for name in sorted(names)},
    }


@pytest.mark.parametrize(
    "base", [HOSE, STEEL, PULLED, HUNG], ids=["hose", "steel", "pulled", "hung"]
)
@settings(max_examples=60, deadline=None)
@given(st.lists(documents(), max_size=6))
def test_no_figure_breaks_the_watch(
    base: tuple[dict[str, Any], ...], written: list[dict[str, Any]]
) -> None:
    job = job_of(*base)
    for document in written:
        try:
            draft_from(document)
        except Refused:
            continue
        record(job, document)
    assert look_document(Watcher(job).look())["verdict"]
