"""One item of the company's library."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldbook.quantities.dates import DATES
from fieldbook.quantities.kinds import kinds

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.record.entry import Origin, Value

KINDS = ("rig", "redirect", "gauge", "limit", "piece", "hose_sheet", "cable", "pump")
"""Kinds of entry that an item can fill, in the order in which a list shows them."""
OF_THE_JOB = frozenset(
    {"place", "gauge_zero", "turn_angle", "library_item"}
    | {"rig_inspection_due", "rope_inspection_due"}  # an item has its own date
    | {name for name in kinds()["seal"].may if name != "part"}
)
"""What is so on one job only, and is written or measured there."""


class BadGear(ValueError):
    """The library cannot be used; the message names file, item and key."""


@dataclass(frozen=True, slots=True)
class Item:
    """One item.

    Attributes:
        id: Its name in files; it never changes, and no other item has it.
        title: What the crews call it; no other item has the same.
        kind: The kind of entry that it fills.
        origin: How its figures are known, unless a figure says otherwise.
        source: Plate, sheet, certificate or test they were read from, in words.
        values: Quantity name -> figure, dates left out.
        dates: Name of a date -> the day, as year-month-day.
        notes: Whatever else a crew must know.
        retired: Whether it is used no more.
        file: Name of the file it is in.
    """

    id: str
    title: str
    kind: str
    origin: Origin
    source: str
    values: Mapping[str, Value]
    dates: Mapping[str, str]
    notes: str = ""
    retired: bool = False
    file: str = ""


def names_in_gear(kind: str) -> tuple[str, ...]:
    """The quantities of `kind` that an item may hold, dates last."""
    known = kinds()[kind]
    names = [n for n in dict.fromkeys((*known.needs, *known.may)) if n not in OF_THE_JOB]
    return (*(n for n in names if n not in DATES), *(n for n in DATES if n in names))
