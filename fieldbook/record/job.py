"""The job: a fold over its entries, kept up entry by entry.

An entry is live unless a live entry that comes after it strikes it. So a strike can itself be
struck, which brings back what it struck. `Job` keeps for every entry the number of live entries
that strike it, and passes a change on to what that entry struck; adding one entry costs the same
however long the log is, unless it arrives out of order.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import defaultdict
from typing import TYPE_CHECKING

from fieldbook.record.in_use import in_use

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from fieldbook.record.entry import Entry, Value


class Job:
    """What the entries of one job add up to."""

    def __init__(self, entries: Iterable[Entry] = ()) -> None:
        """Fold `entries`, in whatever order they come."""
        self._ordered: list[Entry] = []
        self._by_id: dict[str, Entry] = {}
        self._live: defaultdict[str, list[Entry]] = defaultdict(list)
        self._strikers: defaultdict[str, list[Entry]] = defaultdict(list)
        self._live_strikers: defaultdict[str, int] = defaultdict(int)
        self.revision = 0
        for entry in entries:
            self.add(entry)

    def add(self, entry: Entry) -> bool:
        """Fold in one entry; False when an entry of that id is there already."""
        if entry.id in self._by_id:
            return False
        self._by_id[entry.id] = entry
        _put(self._ordered, entry)
        if entry.strikes is not None:
            self._strikers[entry.strikes].append(entry)
        if strikers := self._strikers.get(entry.id):  # it arrives after what strikes it
            self._live_strikers[entry.id] = sum(self._strikes(one, entry) for one in strikers)
        if self.is_live(entry):
            _put(self._live[entry.kind], entry)
            self._pass_on(entry)
        self.revision += 1
        return True

    def _strikes(self, striker: Entry, entry: Entry) -> bool:
        return striker.order > entry.order and self.is_live(striker)

    def _pass_on(self, changed: Entry) -> None:
        """Follow the chain of strikes down from an entry that has become live, or has died."""
        while changed.strikes is not None:
            target = self._by_id.get(changed.strikes)
            if target is None or changed.order <= target.order:
                return
            before = self.is_live(target)
            self._live_strikers[target.id] += 1 if self.is_live(changed) else -1
            if self.is_live(target) == before:
                return
            if before:
                self._live[target.kind].remove(target)
            else:
                _put(self._live[target.kind], target)
            changed = target

    @property
    def entries(self) -> Sequence[Entry]:
        """Every entry, struck ones too, in the order of the log. Not to be changed."""
        return self._ordered

    @property
    def last_seq(self) -> int:
        """The highest sequence number, 0 for an empty log."""
        return self._ordered[-1].seq if self._ordered else 0

    def get(self, entry_id: str) -> Entry | None:
        """The entry of that id, struck or not."""
        return self._by_id.get(entry_id)

    def is_live(self, entry: Entry) -> bool:
        """Whether the entry is live: nothing live strikes it."""
        return self._live_strikers.get(entry.id, 0) == 0

    def struck_by(self, entry: Entry) -> tuple[Entry, ...]:
        """The live entries that strike `entry`; more than one when two people struck it."""
        return tuple(s for s in self._strikers.get(entry.id, ()) if self._strikes(s, entry))

    def live(self, kind: str) -> Sequence[Entry]:
        """The live entries of a kind in the order of the log. Not to be changed."""
        return self._live.get(kind, ())

    def last(self, kind: str) -> Entry | None:
        """The newest live entry of a kind."""
        entries = self.live(kind)
        return entries[-1] if entries else None

    def value(self, kind: str, name: str) -> Value | None:
        """What the newest live entry of `kind` that says anything about `name` says.

        Of a rig, a gauge, a pump, a cable or a sheet only what was written of the one in use.
        """
        for entry in reversed(in_use(kind, self.live(kind), name)):
            value = entry.values.get(name)
            if value is not None:
                return value
        return None

    def text(self, kind: str, name: str) -> str:
        """The words of `value`, or an empty text."""
        value = self.value(kind, name)
        return value.text if value is not None else ""

    def clock_jumps(self) -> list[tuple[Entry, Entry]]:
        """Neighbours on one device whose clock went back from the one to the other."""
        jumps = []
        newest: dict[str, Entry] = {}
        for entry in self._ordered:
            before = newest.get(entry.device)
            if before is not None and entry.time < before.time:
                jumps.append((before, entry))
            newest[entry.device] = entry
        return jumps


def _put(entries: list[Entry], entry: Entry) -> None:
    # The number alone nearly always tells, and an order is made again each time it is asked for.
    if not entries or entries[-1].seq < entry.seq or entries[-1].order < entry.order:
        entries.append(entry)
    elif entries[bisect_left(entries, entry.order, key=_order)] is not entry:
        insort(entries, entry, key=_order)


def _order(entry: Entry) -> tuple[int, str, str]:
    return entry.order
