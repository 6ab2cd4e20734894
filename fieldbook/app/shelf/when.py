"""When something was recorded, as short as it can be said without doubt."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt


def when(time: dt.datetime, day: dt.date) -> str:
    """The time of day, with month and day before it where it was another day than `day`."""
    return f"{time:%H:%M}" if time.date() == day else f"{time:%m-%d %H:%M}"
