"""Reads the line of an entry that is in every byte as this program writes it: nearly every line.

Whatever is in the least otherwise, a strike too, is left to `line.decode`,
`record.codec` and `quantities.admit`, which say what is wrong with it. The rules stand there only:
here their yes to a value and to the frame of an entry is remembered, for a shelf of thousands of
jobs says the same few thousand again and again.
"""

from __future__ import annotations

import re
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeVar

from fieldbook.quantities.admit import frame_problems, value_problem
from fieldbook.record.codec import from_document, moment, sequence, value_from_document
from fieldbook.record.entry import Entry
from fieldbook.record.ids import SHAPE
from fieldbook.store.log.line import LONGEST, SUM_LENGTH, checked_hash, entry_start
from fieldbook.store.log.strict_json import read_json

if TYPE_CHECKING:
    from fieldbook.record.entry import Value

_CACHED = 16384
_LONGEST_CACHED = 1024
_JUDGED_WHOLE = {"handover", "strike"}
"""Kinds whose values, initials and strikes are judged together."""
_ANY_ID = "00000000-0000-7000-8000-000000000000"
_ANY_TIME = "2000-01-01T00:00:00+00:00"
_PLAIN = r'"([^"\\\x00-\x1f]+)"'
"""A JSON string in which every character is itself."""
_ENTRY = re.compile(
    rf'\{{"id":"({SHAPE})","seq":([1-9][0-9]*),"time":{_PLAIN},"by":{_PLAIN},"device":{_PLAIN},'
    rf'"kind":{_PLAIN}(?:,"values":\{{"(.+)"\}}\}})?(?:,"note":{_PLAIN})?\}}'
)
_BETWEEN_VALUES = '"},"'
# Plain dictionaries: an answer of lru_cache costs two microseconds, and a line asks for five.
_VALUES: dict[tuple[str, str], tuple[str, Value]] = {}
"""Kind, and a name and value as they stand in a line -> name and value, judged."""
_FRAMES: dict[tuple[str, ...], None] = {}
"""Initials, device, kind and names of values that go together."""
_K = TypeVar("_K")
_V = TypeVar("_V")


class _NotAtOnce(ValueError):
    """Something is not as it always is; the careful way tells whether it is wrong."""


def quick_entry(raw: bytes, number: int, previous: str, device: str) -> tuple[Entry, str] | None:
    """The entry of a line that follows, and the line's hash; None for the careful way to say.

    Args:
        raw: The line without its end.
        number: The number that it must carry.
        previous: Hash of the line before, which it must name.
        device: Whose file it is in.
    """
    start = entry_start(number, previous)
    if len(raw) > LONGEST or not raw.startswith(start):
        return None
    line_hash = checked_hash(raw)
    if not line_hash:
        return None
    try:
        return _entry(raw[len(start) : -SUM_LENGTH].decode("utf-8"), device), line_hash
    except (LookupError, ValueError):
        return None


def _entry(text: str, device: str) -> Entry:
    found = _ENTRY.fullmatch(text)
    if found is None:
        raise _NotAtOnce
    identity, seq, time, by, named, kind, said, note = found.groups()
    values = _values(kind, said) if said else {}
    if named != device:
        raise _NotAtOnce
    frame = (by, device, kind, *values)
    if note:  # seldom said twice, so not remembered
        _judge(*frame, note=note)
    elif frame not in _FRAMES:
        _judge(*frame)
        _remember(_FRAMES, frame, None)
    what = MappingProxyType(values)
    return Entry(identity, sequence(int(seq)), moment(time), by, device, kind, what, note or "")


def _judge(by: str, device: str, kind: str, *names: str, note: str = "") -> None:
    bare = {"id": _ANY_ID, "seq": 1, "time": _ANY_TIME, "by": by, "device": device, "kind": kind}
    from_document(bare | {"note": note})
    if kind in _JUDGED_WHOLE or frame_problems(kind, by, note, names):
        raise _NotAtOnce


def _values(kind: str, said: str) -> dict[str, Value]:
    """The names and values that `said` is, without the `{"` before and the `"}}` after them.

    What lies between two places that look like a joint of values is read as JSON by itself. Where
    each piece is a name and a value, all of them together are these and nothing else.
    """
    values: dict[str, Value] = {}
    for piece in said.split(_BETWEEN_VALUES):
        what = kind, piece
        name, value = _VALUES.get(what) or _remember(_VALUES, what, _named_value(*what))
        if name in values:
            raise _NotAtOnce
        values[name] = value
    return values


def _named_value(kind: str, said: str) -> tuple[str, Value]:
    if len(said) > _LONGEST_CACHED:  # so that what is remembered stays small
        raise _NotAtOnce
    ((name, document),) = read_json(f'{{"{said}"}}}}'.encode()).items()
    value = value_from_document(name, document)
    if value_problem(kind, name, value):
        raise _NotAtOnce
    return name, value


def _remember(known: dict[_K, _V], what: _K, found: _V) -> _V:
    """Remember it; everything is forgotten once it is much, which costs less than to pick."""
    if len(known) >= _CACHED:
        known.clear()
    known[what] = found
    return found
