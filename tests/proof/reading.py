"""Which figures are read while something is made of a job."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fieldbook.record.job import Job

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fieldbook.record.entry import Entry, Value

Read = set[tuple[str, str]]
"""Kind of entry and name of the quantity."""


class _Watched(dict[str, "Value"]):
    """The values of an entry, which note what is asked for."""

    def __init__(self, entry: Entry, into: Read) -> None:
        super().__init__(entry.values)
        self._kind, self._into = entry.kind, into

    def get(self, key: str, default: Any = None) -> Any:
        self._into.add((self._kind, key))
        return super().get(key, default)

    def __getitem__(self, key: str) -> Value:
        self._into.add((self._kind, key))
        return super().__getitem__(key)

    def __contains__(self, key: object) -> bool:
        self._into.add((self._kind, str(key)))
        return super().__contains__(key)


def noting(entries: Iterable[Entry], into: Read) -> Job:
    """The job of `entries`; every figure that is asked for from now on is put `into`."""
    return Job(entry._replace(values=_Watched(entry, into)) for entry in entries)
