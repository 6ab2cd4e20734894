"""An entry of the log, and the values it carries."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Mapping
    from datetime import datetime


class Origin(StrEnum):
    """How a figure came to be known."""

    MEASURED = "measured"
    NAMEPLATE = "nameplate"
    MAKER = "maker's sheet"
    TABLE = "published table"
    PRACTICE = "common practice"
    STATED = "stated"
    COMPUTED = "computed"
    ESTIMATE = "estimate"


@dataclass(frozen=True, slots=True)
class Value:
    """What was written for one quantity.

    Attributes:
        text: As typed.
        number: The number that was typed, in `unit`; None when the quantity is a word.
        unit: The unit that was typed or understood; empty for words and plain numbers.
        origin: How the figure is known.
    """

    text: str
    number: float | None = None
    unit: str = ""
    origin: Origin = Origin.MEASURED


_NOTHING: Mapping[str, Value] = MappingProxyType({})


def _nothing() -> Mapping[str, Value]:
    return _NOTHING


@dataclass(frozen=True, slots=True)
class Draft:
    """An entry that is not on disk yet: what is to be recorded and by whom.

    Attributes:
        kind: What the entry records; one of the kinds of `fieldbook.quantities`.
        by: Initials of the person who answers for it.
        values: Quantity name -> value.
        note: Free words.
        strikes: Id of the entry that this one strikes or corrects.
    """

    kind: str
    by: str
    values: Mapping[str, Value] = field(default_factory=_nothing)
    note: str = ""
    strikes: str | None = None


class Entry(NamedTuple):
    """One immutable line of the log; a tuple, as a shelf holds a million of them.

    Attributes:
        id: Unique on all devices, and ordered by the time it was made (RFC 9562, version 7).
        seq: One more than the highest the device had seen. With the device it gives the order
            of entries; the clock does not.
        time: When, by the device's clock, with its offset from UTC.
        by: Initials of the person who answers for it.
        device: The device it was made on.
        kind: What it records.
        values: Quantity name -> value.
        note: Free words.
        strikes: Id of the entry that this one strikes or corrects, if any.
    """

    id: str
    seq: int
    time: datetime
    by: str
    device: str
    kind: str
    values: Mapping[str, Value] = _NOTHING
    note: str = ""
    strikes: str | None = None

    @property
    def order(self) -> tuple[int, str, str]:
        """The place of the entry among all entries of its job, whatever order they arrive in."""
        return (self.seq, self.device, self.id)

    def text(self, name: str) -> str:
        """The value of `name` as typed, or an empty text when it was not written."""
        value = self.values.get(name)
        return value.text if value is not None else ""
