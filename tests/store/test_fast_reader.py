"""The quick way of reading a line says what the careful way says, or nothing."""

from __future__ import annotations

import json
import random
from copy import deepcopy
from typing import Any

import pytest

from fieldbook.quantities.admit import problems
from fieldbook.record.codec import BadEntry, from_document
from fieldbook.record.entry import Entry
from fieldbook.store.log import fast_reader as quick_reading
from fieldbook.store.log.fast_reader import quick_entry
from fieldbook.store.log.line import BadLine, decode
from tests.store.forging import DEVICE, NO_LINE, entry, forged, forged_text, hash_of, hostile

LENGTH = {"text": "20.98", "origin": "measured", "number": 20.98, "unit": "ft"}
NUMBER = {"text": "3", "origin": "measured", "number": 3, "unit": ""}
OUT = {"text": "out", "origin": "measured"}
ID = "019e2581-bcc0-77ba-bf34-1c7216ec0599"  # the same in every process that collects the cases
JOINT = {"joint_number": NUMBER, "direction": OUT, "joint_length": LENGTH}


def plain(**changes: Any) -> dict[str, Any]:
    usual = entry(2, kind="joint") | {"id": ID, "values": deepcopy(JOINT)}
    del usual["note"]
    return usual | changes


def written(body: object) -> str:
    return json.dumps(body, separators=(",", ":"))


def careful(raw: bytes) -> Entry | None:
    try:
        line = decode(raw)
        found = from_document(line.body)
    except (BadLine, BadEntry):
        return None
    follows = line.number == 2 and line.previous == NO_LINE and found.device == DEVICE
    return found if follows and line.key == "entry" and not problems(found) else None


def quick(raw: bytes) -> Entry | None:
    found = quick_entry(raw, 2, NO_LINE, DEVICE)
    if found is None:
        return None
    assert found[1] == hash_of(raw)
    return found[0]


def test_a_line_as_it_is_always_written_is_read_at_once() -> None:
    raw = forged(2, NO_LINE, "entry", plain())
    found = quick(raw)

    assert found is not None
    assert found == careful(raw)
    assert (found.kind, found.seq, found.text("joint_length")) == ("joint", 2, "20.98")
    assert found.values["joint_number"].number == 3


@pytest.mark.parametrize("note", ["as dug", "a \u201cword\u201d, then another", "},{:"])
@pytest.mark.parametrize("kind", ["note", "joint"])
def test_a_line_with_plain_words_is_read_at_once(kind: str, note: str) -> None:
    body = plain(kind=kind, note=note)
    if kind == "note":
        del body["values"]
    text = json.dumps(body, separators=(",", ":"), ensure_ascii=False)
    raw = forged_text(2, NO_LINE, "entry", text)
    found = quick(raw)

    assert found is not None
    assert found == careful(raw)
    assert found.note == note


@pytest.mark.parametrize(
    "body",
    [
        written(plain()).replace('"seq":2', '"seq":1,"seq":2'),
        written(plain()).replace('"kind"', '"kind":"note","kind"'),
        written(plain()).replace('"number":3', '"number":2,"number":3'),
        written(plain()).replace('"text":"out"', '"text":"in","text":"out"'),
        written(plain()).replace('"text":"out"', '"text":"in","te\\u0078t":"out"'),
        written(plain()).replace('"direction":', '"direction":{"text":"in"},"direction" :'),
        written(plain()).replace('"values":', '"values":{},"values"\t:'),
        written(plain()).replace('"number":20.98', '"number":NaN'),
        written(plain()).replace('"number":20.98', '"number":1e999'),
        written(plain()).replace('"number":20.98', f'"number":{"9" * 400}'),
        written(plain()).replace('"number":3,', '"number":true,'),
        written(plain(values=JOINT | {"joint_number": NUMBER | {"number": 1}})),
        written(plain(values=JOINT | {"joint_number": NUMBER | {"number": True}})),
        written(plain(values=JOINT | {"direction": {"text": ["out"], "origin": "measured"}})),
        written(plain(values=JOINT | {"direction": "ab"})),
        written(plain(values=JOINT | {"direction": ["text", "origin"]})),
        written(plain(values=JOINT | {"casing_depth": LENGTH})),
        written(plain(values=[JOINT])),
        written(plain(values={})),
        written(plain(values=JOINT | {"step": {"text": '"},"', "origin": "measured"}})),
        written(plain(values=JOINT | {"step": {"text": "},", "origin": "measured"}})),
        written(plain(values=JOINT | {"step": {"text": "\u00b0 \t", "origin": "measured"}})),
        written(plain(values={"direction": OUT | {"note": "x"}} | JOINT)),
        written(plain(values=JOINT)).replace('"direction":{', '"direction":{"direction":{'),
        written(plain(values=JOINT)).replace('"}}}', '"}}'),
        written(plain(values=JOINT)).replace('"}}}', '"}},"note":{"x":"y"}}}'),
        written(plain(values=JOINT)).replace('"}}}', '"}},"values":{"direction":{"text":"in"}}}'),
        written(plain(note="", strikes=None)),
        written(plain(note="x" * 4001)),
        written(plain(note="a\\b")),
        written(plain(kind="note", values={}, note=" ")),
        written(plain(by="x" * 25)),
        written(plain(by=" ")),
        written(plain(seq=2**53)),
        written(plain(seq=0)),
        written(plain()).replace('"seq":2', '"seq":02'),
        written(plain()).replace('"kind":"joint"', '"kind":"joint" '),
        written(plain(device="d-other")),
        written(plain(id="../x")),
        written(plain(id=7)),
        written(plain(time="2026-05-14T08:02:00")),
        written(plain(kind="nonsense")),
        written(plain(kind="handover", values={"witness": {"text": "QA", "origin": "measured"}})),
        written(plain()) + "{}",
        written(plain()) + ',"sum":"x"',
        "[" * 100_000,
        '{"id":"\ud800"}'.encode("utf-8", "surrogatepass").decode("latin-1"),
    ],
    ids=lambda body: body[:40],
)
def test_what_is_otherwise_is_left_to_the_careful_way(body: str) -> None:
    raw = forged_text(2, NO_LINE, "entry", body.encode("ascii", "replace").decode("ascii"))

    assert quick(raw) in (None, careful(raw))


@pytest.mark.parametrize(
    ("number", "previous", "key"),
    [(3, NO_LINE, "entry"), (2, "f" * 64, "entry"), (2, NO_LINE, "head")],
)
def test_a_line_that_does_not_follow_is_not_taken(number: int, previous: str, key: str) -> None:
    assert quick(forged(number, previous, key, plain())) is None


def test_a_line_whose_checksum_is_wrong_is_not_taken() -> None:
    raw = forged(2, NO_LINE, "entry", plain())

    assert all(quick(raw[:at] + b"~" + raw[at + 1 :]) is None for at in range(len(raw)))


def test_a_thousand_lines_with_one_thing_wrong_or_odd_in_them() -> None:
    chance, at_once = random.Random(8), 0
    for _ in range(1000):
        raw = forged(2, NO_LINE, "entry", hostile(plain(), chance))
        found = quick(raw)
        at_once += found is not None
        assert found in (None, careful(raw))
    assert at_once, "none of them was read at once, so nothing was compared"


def test_two_thousand_lines_with_a_piece_taken_out_doubled_or_moved() -> None:
    chance, at_once = random.Random(9), 0
    text = written(plain(note="as dug"))
    joints = [at for at, sign in enumerate(text) if sign in '{}",:']
    for _ in range(2000):
        a, b, c = sorted(chance.choices(joints, k=3))
        spoiled = chance.choice(
            [text[:a] + text[b:], text[:b] + text[a:], text[:a] + text[b:c] + text[a:b] + text[c:]]
        )
        raw = forged_text(2, NO_LINE, "entry", spoiled)
        found = quick(raw)
        at_once += found is not None
        assert found in (None, careful(raw))
    assert at_once, "none of them was read at once, so nothing was compared"


def test_a_value_that_is_long_is_not_remembered() -> None:
    spread = written(plain()).replace('"text":"out"', '"text":' + " " * 5000 + '"out"')
    raw = forged_text(2, NO_LINE, "entry", spread)

    assert careful(raw) is not None
    assert quick(raw) is None


def test_what_is_remembered_is_bounded_over_all_kinds(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(quick_reading, "_CACHED", 8)
    quick_reading._VALUES.clear()
    for number in range(1, 30):
        joint = JOINT | {"joint_number": NUMBER | {"text": str(number), "number": number}}
        text = {"text": f"figure {number}", "origin": "measured"}
        for body in (plain(values=joint), plain(kind="note", note="x", values={"step": text})):
            raw = forged(2, NO_LINE, "entry", body)
            assert quick(raw) in (None, careful(raw))
            assert 0 < len(quick_reading._VALUES) <= 8
