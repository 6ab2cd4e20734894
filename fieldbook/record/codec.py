"""Entries to and from plain JSON documents, refusing whatever is not one."""

from __future__ import annotations

import math
import re
from datetime import datetime
from functools import lru_cache
from types import MappingProxyType
from typing import Any

from fieldbook.record.entry import Entry, Origin, Value
from fieldbook.record.ids import is_id

_FIELDS = {"id", "seq", "time", "by", "device", "kind", "values", "note", "strikes"}
_ORIGINS = {origin.value: origin for origin in Origin}
_MEASURED = Origin.MEASURED.value
_VALUE_FIELDS = {"text", "number", "unit", "origin"}
_LONGEST = {"id": 36, "by": 24, "device": 64, "kind": 32, "note": 4000, "text": 400, "unit": 24}
LARGEST_SEQ = 2**53 - 1
"""The highest sequence number: what every JSON reader holds exactly."""
_MOST_VALUES = 200
_NUMBERS = {int, float, type(None)}
"""Types that a number may have: not bool, which Python counts among the whole numbers."""
_VALUES_CACHED = 16384
_HALF_A_PAIR = re.compile("[\ud800-\udfff]")


class BadEntry(ValueError):
    """A document is not an entry; the message names the field and what is wrong with it."""


def to_document(entry: Entry) -> dict[str, Any]:
    """The entry as a JSON document with no empty fields."""
    document: dict[str, Any] = {
        "id": entry.id,
        "seq": entry.seq,
        "time": entry.time.isoformat(timespec="milliseconds"),
        "by": entry.by,
        "device": entry.device,
        "kind": entry.kind,
    }
    if entry.values:
        document["values"] = {name: value_to_document(v) for name, v in entry.values.items()}
    if entry.note:
        document["note"] = entry.note
    if entry.strikes is not None:
        document["strikes"] = entry.strikes
    return document


def value_to_document(value: Value) -> dict[str, Any]:
    """The value as a JSON document; a word has neither number nor unit."""
    document: dict[str, Any] = {"text": value.text, "origin": value.origin.value}
    if value.number is not None:
        document["number"] = value.number
        document["unit"] = value.unit
    return document


def from_document(document: object) -> Entry:
    """The entry that `document` holds.

    Raises:
        BadEntry: A field is missing, unknown, of the wrong type, too long or not finite.
    """
    if not isinstance(document, dict):
        raise BadEntry("an entry is a JSON object")
    if not document.keys() <= _FIELDS:
        unknown = sorted(map(str, set(document) - _FIELDS))
        raise BadEntry(f"unknown field {unknown[0][:40]!r}")
    identity = _text(document, "id")
    if not is_id(identity):
        raise BadEntry("id is not a version 7 UUID")
    strikes = document.get("strikes")
    if strikes is not None and not (isinstance(strikes, str) and is_id(strikes)):
        raise BadEntry("strikes is not the id of an entry")
    return Entry(
        id=identity,
        seq=sequence(document.get("seq")),
        time=moment(document.get("time")),
        by=_text(document, "by", required=True),
        device=_text(document, "device", required=True),
        kind=_text(document, "kind", required=True),
        values=_values(document.get("values", {})),
        note=_text(document, "note"),
        strikes=strikes,
    )


def _text(document: dict[str, Any], name: str, *, required: bool = False) -> str:
    text = document.get(name, "")
    if not isinstance(text, str):
        raise BadEntry(f"{name} is not text")
    if required and not text:
        raise BadEntry(f"{name} is missing")
    _check_text(name, text)
    return text


def _check_text(name: str, text: str) -> None:
    if len(text) > _LONGEST[name]:
        raise BadEntry(f"{name} is longer than {_LONGEST[name]} characters")
    if not text.isascii() and _HALF_A_PAIR.search(text):
        raise BadEntry(f"{name} is not valid Unicode text")


def sequence(seq: object) -> int:
    """A sequence number.

    Raises:
        BadEntry: It is none.
    """
    if isinstance(seq, bool) or not isinstance(seq, int) or not 1 <= seq <= LARGEST_SEQ:
        raise BadEntry("seq is not a whole number of 1 or more")
    return seq


def moment(text: object) -> datetime:
    """A time with its offset from UTC.

    Raises:
        BadEntry: It is none.
    """
    if not isinstance(text, str):
        raise BadEntry("time is missing")
    try:
        time = datetime.fromisoformat(text)
    except ValueError as error:
        raise BadEntry("time is not an ISO 8601 date and time") from error
    if time.tzinfo is None:
        raise BadEntry("time has no offset from UTC")
    return time


def _values(document: object) -> MappingProxyType[str, Value]:
    if not isinstance(document, dict):
        raise BadEntry("values is not a JSON object")
    if len(document) > _MOST_VALUES:
        raise BadEntry(f"more than {_MOST_VALUES} values in one entry")
    return MappingProxyType(
        {name: value_from_document(name, said) for name, said in document.items()}
    )


def value_from_document(name: str, document: object) -> Value:
    """The value of a quantity that `document` holds.

    Raises:
        BadEntry: It is not an object of text, number, unit and origin.
    """
    if not isinstance(document, dict) or not document.keys() <= _VALUE_FIELDS:
        raise BadEntry(f"value of {name[:40]!r} is not an object of text, number, unit and origin")
    text, unit = document.get("text", ""), document.get("unit", "")
    number, origin = document.get("number"), document.get("origin", _MEASURED)
    if type(number) not in _NUMBERS:
        raise BadEntry(f"number of {name[:40]!r} is not a number")
    if not (isinstance(text, str) and isinstance(unit, str) and isinstance(origin, str)):
        raise BadEntry(f"text, unit or origin of {name[:40]!r} is not text")
    try:
        return _value_of(text, number, unit, origin)
    except BadEntry as error:
        raise BadEntry(f"value of {name[:40]!r}: {error}") from error


@lru_cache(maxsize=_VALUES_CACHED)
def _value_of(text: str, number: float | None, unit: str, origin: str) -> Value:
    """A value; one for all that say the same, for jobs say the same few thousand over and over."""
    if number is not None:
        try:
            number = float(number)
        except OverflowError as error:
            raise BadEntry("its number is too large") from error
        if not math.isfinite(number):
            raise BadEntry("its number is not finite")
    if origin not in _ORIGINS:
        raise BadEntry("its origin is not a known word")
    _check_text("text", text)
    _check_text("unit", unit)
    return Value(text, number, unit, _ORIGINS[origin])
