"""Reads the line of an entry that is in every byte as this program writes it: nearly every line.

Whatever is in the least otherwise, a note or a strike too, is left to `line.decode`,
`record.codec` and `quantities.admit`, which say what is wrong with it. The rules stand there only:
here their yes to a value and to the frame of an entry is remembered, for a shelf of thousands of
jobs says the same few thousand again and again. A third of the time is all that it takes.
"""

from __future__ import annotations

import json
from functools import lru_cache
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NoReturn

from fieldbook.quantities.admit import frame_problems, value_problem
from fieldbook.record.codec import from_document, moment, sequence, value_from_document
from fieldbook.record.entry import Entry
from fieldbook.record.ids import is_id
from fieldbook.store.line import LONGEST, SUM_LENGTH, checked_hash, entry_start

if TYPE_CHECKING:
    from fieldbook.record.entry import Value

_KEPT = 16384
_JUDGED_WHOLE = {"handover", "strike"}
"""Kinds whose values, initials and strikes are judged together."""
_KEYS_OF_A_WORD, _KEYS_OF_A_FIGURE = 2, 4
_BARE = ("id", "seq", "time", "by", "device", "kind")
_FULL = (*_BARE, "values")
_FIELDS = {_BARE, _FULL}
_WORDS = len(_BARE) - 1
"""Fields that are words: all but the sequence number."""
_ANY_ID = "00000000-0000-7000-8000-000000000000"
_ANY_TIME = "2000-01-01T00:00:00+00:00"


class _NotAtOnce(ValueError):
    """Something is not as it always is; the careful way tells whether it is wrong."""


def quick_entry(raw: bytes, number: int, previous: str, device: str) -> tuple[Entry, str] | None:
    """The entry of a line that follows, and the line's hash; None for the careful way to say.

    Args:
        raw: The line without its end.
        number: The number that it must carry.
        previous: Hash of the line before, which it must name.
        device: Whose file it stands in.
    """
    start = entry_start(number, previous)
    if len(raw) > LONGEST or not raw.startswith(start):
        return None
    line_hash = checked_hash(raw)
    if not line_hash:
        return None
    try:
        return _entry(raw[len(start) : -SUM_LENGTH].decode("utf-8"), device), line_hash
    except (AttributeError, LookupError, TypeError, ValueError, RecursionError):
        return None


def _entry(text: str, device: str) -> Entry:
    document, end = _PLAIN.raw_decode(text)
    fields = tuple(document)
    if end != len(text) or fields not in _FIELDS or "\\" in text:
        raise _NotAtOnce
    said = document["values"] if fields == _FULL else {}
    identity, by, kind = document["id"], document["by"], document["kind"]
    if document["device"] != device or not is_id(identity):
        raise _NotAtOnce
    _frame(by, device, kind, tuple(said))
    values = {name: _value(kind, name, one) for name, one in said.items()}
    if text.count('"') != _marks(fields, said):
        raise _NotAtOnce
    seq, time = sequence(document["seq"]), moment(document["time"])
    return Entry(identity, seq, time, by, device, kind, MappingProxyType(values))


def _marks(fields: tuple[str, ...], said: dict[str, dict[str, object]]) -> int:
    """How many quotation marks an entry has, two for each key and word, if no key stands twice.

    Of a key that stands twice only the last is kept when JSON is read; the marks of the other are
    in the text all the same. A value of 2 keys has 2 words, one of 4 keys has 3.
    """
    return 2 * (len(fields) + _WORDS) + 4 * len(said) + 3 * sum(map(len, said.values()))


@lru_cache(maxsize=_KEPT)
def _frame(by: str, device: str, kind: str, names: tuple[str, ...]) -> None:
    bare = {"id": _ANY_ID, "seq": 1, "time": _ANY_TIME, "by": by, "device": device, "kind": kind}
    from_document(bare)
    if kind in _JUDGED_WHOLE or frame_problems(kind, by, "", names):
        raise _NotAtOnce


def _value(kind: str, name: str, said: dict[str, Any]) -> Value:
    if len(said) == _KEYS_OF_A_WORD:
        return _word(kind, name, said["text"], said["origin"])
    if len(said) == _KEYS_OF_A_FIGURE:
        return _figure(kind, name, said["text"], said["origin"], said["number"], said["unit"])
    raise _NotAtOnce


@lru_cache(maxsize=_KEPT)
def _word(kind: str, name: str, text: object, origin: object) -> Value:
    return _careful(kind, name, {"text": text, "origin": origin})


@lru_cache(maxsize=_KEPT, typed=True)  # typed, for True is 1 and no number
def _figure(
    kind: str, name: str, text: object, origin: object, number: object, unit: object
) -> Value:
    return _careful(kind, name, {"text": text, "origin": origin, "number": number, "unit": unit})


def _careful(kind: str, name: str, said: dict[str, object]) -> Value:
    value = value_from_document(name, said)
    if value_problem(kind, name, value):
        raise _NotAtOnce
    return value


def _constant(name: str) -> NoReturn:
    raise _NotAtOnce(name)


_PLAIN = json.JSONDecoder(parse_constant=_constant)
