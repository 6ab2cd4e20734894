"""The clock that entries get their time from, and what is said when it goes back."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import TYPE_CHECKING

from fieldbook.store.log.problem import Problem

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry

Clock = Callable[[], dt.datetime]


def local_time() -> dt.datetime:
    """Now, by this device's clock, with its offset from UTC."""
    return dt.datetime.now().astimezone()


def jump(before: Entry, after: Entry) -> Problem:
    """That the clock went back from one entry of a device to its next."""
    words = (
        f"the clock of {after.device} went back from {before.time:%Y-%m-%d %H:%M:%S} at entry"
        f" {before.seq} to {after.time:%Y-%m-%d %H:%M:%S} at entry {after.seq}; the order of"
        " entries does not come from the clock"
    )
    return Problem(after.device, 0, words, damage=False)
