"""What comes from outside is held against the definitions, and refused in words."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.record.entry import Origin


def joint(**values: Any) -> dict[str, Any]:
    base = {"direction": "out", "joint_number": 3, "joint_length": "20.98"}
    return {"kind": "joint", "by": "QA", "values": base | values}


def test_text_numbers_and_objects_say_the_same() -> None:
    typed = draft_from(joint(gauge_reading="742 lbf"))
    plain = draft_from(joint(gauge_reading=742))
    full = draft_from(joint(gauge_reading={"value": 742, "unit": "lb", "origin": "measured"}))

    for draft in (typed, plain, full):
        assert (742.0, "lbf") == (
            draft.values["gauge_reading"].number,
            draft.values["gauge_reading"].unit,
        )


def test_an_origin_is_kept() -> None:
    draft = draft_from(
        {
            "kind": "rig",
            "by": "QA",
            "values": {"hook_rating": {"value": 8000, "origin": "nameplate"}},
        }
    )

    assert draft.values["hook_rating"].origin is Origin.NAMEPLATE


@pytest.mark.parametrize(
    ("document", "says"),
    [
        (joint(gauge_reading=float("nan")), "gauge"),
        (joint(gauge_reading=float("inf")), "gauge"),
        (joint(gauge_reading=1e300), "gauge"),
        (joint(gauge_reading=True), "gauge"),
        (joint(gauge_reading=[742]), "gauge"),
        (joint(gauge_reading="742 psi"), "psi"),
        (joint(joint_length=-3), "more than 0"),
        (joint(joint_number=2.5), "whole number"),
        (joint(pipe_condition="so so"), "write one of"),
        (joint(static="3"), "not a quantity"),
        (joint(wind="3 mph"), "does not belong"),
        ({"kind": "joint", "by": "QA", "values": {}}, "is needed"),
        ({"kind": "joint", "by": "", "values": joint()["values"]}, "initials"),
        ({"kind": "note", "by": "QA"}, "words are needed"),
        ({"kind": "strike", "by": "QA", "values": {"reason": "twice"}}, "strikes"),
        ({"kind": "strike", "by": "QA", "strikes": "../../x"}, "id of an entry"),
        ({"kind": "nonsense", "by": "QA"}, "not a kind"),
        ({"kind": "note", "by": "QA", "note": "x", "extra": 1}, "unknown field"),
        ({"kind": "note", "by": "QA", "note": "x" * 4001}, "longer"),
        ([], "JSON object"),
        (None, "JSON object"),
    ],
)
def test_nonsense_is_refused_in_words(document: object, says: str) -> None:
    with pytest.raises(Refused, match=says):
        draft_from(document)


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner),
    max_leaves=8,
)


@given(
    st.fixed_dictionaries(
        {"kind": st.sampled_from(["joint", "note", "well"]), "by": st.just("QA")},
        optional={
            "values": st.dictionaries(
                st.sampled_from(["joint_length", "direction", "well_depth", "x"]), json_values
            ),
            "note": json_values,
            "strikes": json_values,
        },
    )
)
def test_whatever_is_taken_is_finite(document: dict[str, Any]) -> None:
    try:
        draft = draft_from(document)
    except Refused:
        return
    assert json.dumps([v.number for v in draft.values.values()], allow_nan=False)
