"""A line carries its number, the line before it and a checksum; it is refused when one is wrong."""

from __future__ import annotations

import hashlib
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.store.log.line import LONGEST, BadLine, decode, encode, hash_of
from tests.store.forging import NO_LINE, forged, forged_text

TEXT = st.text(alphabet=st.characters(exclude_categories=["Cs"]), max_size=40)
NUMBERS = st.floats(allow_nan=False, allow_infinity=False) | st.integers(-(2**53), 2**53)
DOCUMENTS = st.dictionaries(TEXT, TEXT | NUMBERS | st.lists(TEXT, max_size=3), max_size=5)


@given(st.integers(1, 10**6), DOCUMENTS)
def test_a_line_gives_back_what_was_put_in(number: int, body: dict[str, object]) -> None:
    raw = encode(number, NO_LINE, "entry", body)
    line = decode(raw)

    assert (line.number, line.previous, line.key, line.body) == (number, NO_LINE, "entry", body)
    assert line.hash == hash_of(raw) == hashlib.sha256(raw).hexdigest()
    assert b"\n" not in raw


def test_a_line_is_what_the_description_of_the_format_says() -> None:
    """Put together by hand: SHA-256 over all that stands before the checksum, 16 digits of it."""
    body = {"kind": "note", "note": "20.98 ft \u20ac"}
    before = '{"n":2,"prev":"' + NO_LINE + '","entry":{"kind":"note","note":"20.98 ft \u20ac"}'
    checksum = hashlib.sha256(before.encode("utf-8")).hexdigest()[:16]

    assert encode(2, NO_LINE, "entry", body).decode("utf-8") == f'{before},"sum":"{checksum}"}}'
    assert json.loads(encode(2, NO_LINE, "entry", body))["entry"] == body


@given(st.data())
def test_no_flipped_bit_goes_unnoticed(data: st.DataObject) -> None:
    raw = bytearray(encode(3, NO_LINE, "entry", {"note": "742 lbf"}))
    raw[data.draw(st.integers(0, len(raw) - 1))] ^= 1 << data.draw(st.integers(0, 7))
    with pytest.raises(BadLine):
        decode(bytes(raw))


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        (forged_text("1", NO_LINE, "entry", "{}"), "no line number"),
        (forged_text(True, NO_LINE, "entry", "{}"), "no line number"),
        (forged_text(1, 7, "entry", "{}"), "no hash"),
        (forged(1, NO_LINE, "entry", []), "entry is not a JSON object"),
        (forged(1, NO_LINE, "head", 7), "head is not a JSON object"),
        (forged(1, NO_LINE, "other", {}), "not the fields"),
        (forged_text(1, NO_LINE, "entry", '{"a":1,"a":2}'), "twice"),
        (forged_text(1, NO_LINE, "entry", '{"a":NaN}'), "NaN is not a number"),
        (forged_text(1, NO_LINE, "entry", '{"a":-Infinity}'), "-Infinity is not a number"),
        (forged_text(1, NO_LINE, "entry", '{"a":1e999}'), "not a finite number"),
        (forged_text(1, NO_LINE, "entry", '{"a":' + "9" * 5000 + "}"), "not JSON"),
        (forged_text(1, NO_LINE, "entry", '{"a":'), "not JSON"),
        (b"x" * (LONGEST + 1), "longer than"),
    ],
)
def test_why_a_line_is_refused_is_said(raw: bytes, says: str) -> None:
    with pytest.raises(BadLine, match=says):
        decode(raw)


def test_a_line_that_is_no_object_is_refused() -> None:
    text = b'[1,2,"'
    checksum = hashlib.sha256(text).hexdigest()[:16].encode()
    with pytest.raises(BadLine, match="not JSON"):
        decode(text + b',"sum":"' + checksum + b'"}')
