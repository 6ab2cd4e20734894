"""Jobs by owner, well, pump, date and finding: what is asked, as a TinyDB query on the index."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from tinydb import where

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable

    from tinydb.queries import QueryInstance


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a job must be; what is left empty is no matter.

    Attributes:
        words: Each must stand somewhere in what the index keeps: numbers, names, days, findings.
        owner: In the owner's name.
        well: In the well's name or tag.
        pump: In the model of a pump.
        finding: In a finding or a cause.
        since: Last saved on this day or later, by the clock of the device that saved.
    """

    words: tuple[str, ...] = ()
    owner: str = ""
    well: str = ""
    pump: str = ""
    finding: str = ""
    since: dt.date | None = None

    def query(self) -> QueryInstance:
        """The query; capitals make no difference."""
        words = [word.casefold() for word in self.words if word]
        query = _field("words", lambda text: all(word in text for word in words))
        if self.owner:
            query &= _has("owner", self.owner)
        if self.well:
            query &= _has("well", self.well) | _has("well_id", self.well)
        if self.pump:
            query &= _has("pumps", self.pump)
        if self.finding:
            query &= _has("findings", self.finding) | _has("causes", self.finding)
        if self.since is not None:
            # ISO days sort as text, so no day need be read.
            query &= where("saved") >= self.since.isoformat()
        return query


def _has(name: str, part: str) -> QueryInstance:
    """Whether a text, or one of the texts of a list, has `part` in it."""
    wanted = part.casefold()
    return _field(name, lambda values: any(wanted in text.casefold() for text in _texts(values)))


def _texts(values: str | list[str]) -> list[str]:
    return [values] if isinstance(values, str) else values


def _field(name: str, test: Callable[[Any], bool]) -> QueryInstance:
    return where(name).test(test)
