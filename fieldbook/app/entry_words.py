"""An entry in a line of plain words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definitions
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.plain import plain
from fieldbook.quantities.units import show_unit

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry, Value

_UNSAID = frozenset({"step", "direction", "joint_number", "place", "recorded"})


def title_of(entry: Entry) -> str:
    """What the entry is: "Joint 13 out", "Gauge reading"."""
    kind = kinds().get(entry.kind)
    words = [kind.label if kind is not None else entry.kind]
    for name in ("joint_number", "place"):
        if number := entry.text(name):
            words.append(number)
            break
    if direction := entry.text("direction"):
        words.append(direction)
    return plain(" ".join(words))


def words_of(entry: Entry) -> str:
    """What the entry says, figure by figure."""
    known = definitions()
    said = [
        f"{known[name].label.lower()} {figure(value)}" if name in known else figure(value)
        for name, value in entry.values.items()
        if name not in _UNSAID
    ]
    if entry.note:
        said.append(entry.note)
    return plain(", ".join(said))


def figure(value: Value) -> str:
    """A value as typed, with the unit that was understood where none was typed."""
    bare = value.text.replace(".", "").replace("-", "").isdigit()
    return f"{value.text} {show_unit(value.unit)}" if value.unit and bare else value.text
