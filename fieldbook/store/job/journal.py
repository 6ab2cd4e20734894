"""The journal as TinyDB: a storage that reads the job's logs, and a table that appends to them.

TinyDB hands a storage the whole state at every write, which can neither be flat in cost nor safe
from a power cut. So the storage only reads; the table's `insert` appends one line and adds the
document to the state in memory. Nothing is ever changed or removed, and asking for that fails.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NoReturn

from tinydb import TinyDB
from tinydb.storages import Storage
from tinydb.table import Document, Table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping

ENTRIES = "entries"


class NeverChanged(TypeError):
    """A record was to be changed or removed; it is struck instead."""

    def __init__(self) -> None:
        super().__init__("what is recorded is never changed or removed: cross it out instead")


class JournalStorage(Storage):
    """The state of the journal, filled from the logs and grown entry by entry."""

    def __init__(self, append: Callable[[Mapping[str, Any]], None]) -> None:
        """Keep what `append` puts on disk.

        Args:
            append: Puts one document on disk before it returns, or raises.
        """
        self._append = append
        self._documents: dict[str, dict[str, Any]] = {}

    def read(self) -> dict[str, dict[str, Any]]:
        """The whole state, as TinyDB keeps it."""
        return {ENTRIES: self._documents}

    def write(self, data: dict[str, dict[str, Any]]) -> NoReturn:  # noqa: ARG002 - TinyDB's interface
        """Refuse: the state is never written as a whole."""
        raise NeverChanged

    def append(self, document: Mapping[str, Any]) -> int:
        """Put a document on disk and into the state; return its number."""
        self._append(document)
        return self.take(document)

    def take(self, document: Mapping[str, Any]) -> int:
        """Add a document that is on disk already; return its number."""
        number = len(self._documents) + 1
        self._documents[str(number)] = dict(document)
        return number


class EntryTable(Table):
    """A table that can only grow, at the same cost for each entry."""

    def insert(self, document: Mapping[str, Any]) -> int:
        """Put one entry on disk and into the table.

        Raises:
            OSError: It is not on disk, and not in the table.
        """
        storage = self._storage
        assert isinstance(storage, JournalStorage)
        number = storage.append(document)
        self.clear_cache()
        return number

    def insert_multiple(self, documents: Iterable[Mapping[str, Any]]) -> list[int]:
        """Put entries on disk one by one."""
        return [self.insert(document) for document in documents]

    def update(self, *_: object, **__: object) -> NoReturn:
        """Refuse: nothing is changed."""
        raise NeverChanged

    def update_multiple(self, *_: object, **__: object) -> NoReturn:
        """Refuse: nothing is changed."""
        raise NeverChanged

    def upsert(self, *_: object, **__: object) -> NoReturn:
        """Refuse: nothing is changed."""
        raise NeverChanged

    def remove(self, *_: object, **__: object) -> NoReturn:
        """Refuse: nothing is removed."""
        raise NeverChanged

    def truncate(self) -> NoReturn:
        """Refuse: nothing is removed."""
        raise NeverChanged


class Journal(TinyDB):
    """The entries of one job as a TinyDB database."""

    table_class = EntryTable
    default_table_name = ENTRIES

    def __init__(self, append: Callable[[Mapping[str, Any]], None]) -> None:
        """Make an empty journal whose inserts go through `append`."""
        super().__init__(append, storage=JournalStorage)

    @property
    def entries(self) -> EntryTable:
        """The table of entries."""
        table = self.table(ENTRIES)
        assert isinstance(table, EntryTable)
        return table

    def take(self, document: Mapping[str, Any]) -> None:
        """Add an entry that is on disk already."""
        storage = self.storage
        assert isinstance(storage, JournalStorage)
        storage.take(document)
        self.entries.clear_cache()

    def drop_tables(self) -> NoReturn:
        """Refuse: nothing is removed."""
        raise NeverChanged

    def drop_table(self, name: str) -> NoReturn:  # noqa: ARG002 - TinyDB's interface
        """Refuse: nothing is removed."""
        raise NeverChanged


__all__ = ["Document", "EntryTable", "Journal", "JournalStorage", "NeverChanged"]
