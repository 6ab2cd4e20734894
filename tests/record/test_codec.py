"""What is not an entry is refused, and the field is named."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from fieldbook.record.codec import BadEntry, from_document
from fieldbook.record.ids import new_id

ID = new_id(dt.datetime(2026, 5, 14, tzinfo=dt.UTC))
GOOD: dict[str, Any] = {
    "id": ID, "seq": 1, "time": "2026-05-14T08:00:00.000-05:00", "by": "QA", "device": "d-1",
    "kind": "load", "values": {"gauge_reading": {"text": "742", "number": 742, "unit": "lbf"}},
}  # fmt: skip


def test_the_good_one_is_taken() -> None:
    assert from_document(GOOD).values["gauge_reading"].number == 742


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"id": "7"}, "id"),
        ({"id": "../../etc/passwd"}, "id"),
        ({"seq": 0}, "seq"),
        ({"seq": True}, "seq"),
        ({"seq": 2**70}, "seq"),
        ({"seq": 1.0}, "seq"),
        ({"time": "yesterday"}, "time"),
        ({"time": "2026-05-14T08:00:00"}, "offset"),
        ({"time": 3}, "time"),
        ({"by": ""}, "by"),
        ({"by": "x" * 25}, "by"),
        ({"device": 3}, "device"),
        ({"kind": None}, "kind"),
        ({"note": "x" * 4001}, "note"),
        ({"note": "\ud800"}, "Unicode"),
        ({"strikes": "first"}, "strikes"),
        ({"values": []}, "values"),
        ({"values": {"a": 3}}, "'a'"),
        ({"values": {"a": {"text": "x", "number": float("nan")}}}, "finite"),
        ({"values": {"a": {"text": "x", "number": 10**400}}}, "too large"),
        ({"values": {"a": {"text": "x", "number": True}}}, "not a number"),
        ({"values": {"a": {"text": "x", "origin": "rumour"}}}, "origin"),
        ({"values": {str(n): {"text": "x"} for n in range(201)}}, "more than"),
        ({"extra": 1}, "extra"),
    ],
)
def test_what_is_wrong_is_named(change: dict[str, Any], says: str) -> None:
    with pytest.raises(BadEntry, match=says):
        from_document(GOOD | change)


@pytest.mark.parametrize("document", [None, [], "x", 3])
def test_what_is_no_object_is_no_entry(document: object) -> None:
    with pytest.raises(BadEntry, match="JSON object"):
        from_document(document)
