"""Joints counted from their entries: how many, which are missing, which were written twice."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fieldbook.record.entry import Entry


@dataclass(frozen=True, slots=True)
class Tally:
    """The joints that went one way.

    Attributes:
        joints: Joint number -> the entries that record it; more than one when it was written
            twice, by two devices or by mistake.
    """

    joints: dict[int, list[Entry]]

    @property
    def count(self) -> int:
        """How many joints, each number once."""
        return len(self.joints)

    @property
    def next_number(self) -> int:
        """The number that the next joint gets."""
        return max(self.joints, default=0) + 1

    @property
    def gaps(self) -> list[range]:
        """Numbers below the last that no entry records, run by run.

        A number typed with some digits too many leaves a run of millions: nobody goes through it.
        """
        written = sorted({0, *self.joints})
        runs = (range(low + 1, high) for low, high in pairwise(written))
        return [run for run in runs if run]

    @property
    def doubles(self) -> list[int]:
        """Numbers that more than one entry records."""
        return [number for number, entries in sorted(self.joints.items()) if len(entries) > 1]

    @property
    def at_odds(self) -> list[int]:
        """Numbers that more than one device records: only a person knows which of them counts."""
        return [n for n in self.doubles if len({entry.device for entry in self.joints[n]}) > 1]

    @property
    def newest(self) -> list[Entry]:
        """One entry a joint, the last written where there are several, by joint number."""
        return [entries[-1] for _, entries in sorted(self.joints.items())]


def tally(entries: Iterable[Entry], direction: str) -> Tally:
    """The joints that went "out" or "in", from the live `joint` entries of a job."""
    joints: defaultdict[int, list[Entry]] = defaultdict(list)
    for entry in entries:
        number = entry.values.get("joint_number")
        if entry.text("direction") == direction and number and number.number is not None:
            joints[int(number.number)].append(entry)
    return Tally(dict(joints))
