"""A job's figures as quantities, and the names of those that are missing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.quantities.convert import as_quantity
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.record.in_use import in_use
from fieldbook.record.string import is_described_after

if TYPE_CHECKING:
    from calc.units import Quantity
    from fieldbook.record.entry import Entry, Value
    from fieldbook.record.job import Job


class Facts:
    """Reads figures and remembers each that was needed and not there."""

    def __init__(self, job: Job, *, until: Entry | None = None) -> None:
        """Read from `job`, with nothing missing yet.

        Args:
            job: The job.
            until: What pump and cable were before this entry; what was written later on is of
                another string.
        """
        self._job = job
        self._until = until
        self.missing: list[str] = []

    def get(self, kind: str, name: str) -> Quantity | None:
        """What the newest live entry of `kind` that says anything about `name` says."""
        value = self._value(kind, name)
        return as_quantity(value) if value is not None else None

    def _value(self, kind: str, name: str) -> Value | None:
        if self._until is None or kind not in ("pump", "cable"):
            return self._job.value(kind, name)
        before = [
            e for e in self._job.live(kind) if not is_described_after(self._job, e, self._until)
        ]
        said = (e.values[name] for e in reversed(in_use(kind, before, name)) if name in e.values)
        return next(said, None)

    def need(self, kind: str, name: str) -> Quantity | None:
        """As `get`, and its absence is noted."""
        found = self.get(kind, name)
        if found is None:
            self.lack(definition(name).label)
        return found

    def words(self, kind: str, name: str) -> str:
        """The words written for `name`, or an empty text."""
        return self._job.text(kind, name)

    def need_words(self, kind: str, name: str) -> str:
        """As `words`, and their absence is noted."""
        found = self.words(kind, name)
        if not found:
            self.lack(definition(name).label)
        return found

    def lack(self, what: str) -> None:
        """Note that something is missing, once."""
        text = within(what)
        if text not in self.missing:
            self.missing.append(text)


def of_entry(entry: Entry, name: str) -> Quantity | None:
    """The figure that one entry holds, as a quantity."""
    value = entry.values.get(name)
    return as_quantity(value) if value is not None and value.number is not None else None
