"""A time as two cells: one that a spreadsheet reads as a time, one with the zone it is of.

With the offset in one cell a spreadsheet takes the whole for text, and neither sorts nor subtracts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import datetime as dt

TIME_HEADS = ("time [local]", "zone")
_DAY_AND_TIME = len("2026-05-14T08:15:06")


def time_cells(time: dt.datetime | None) -> tuple[str, str]:
    """Day and time by the device's clock, and that clock's offset; both empty without a time.

    >>> import datetime as dt
    >>> time_cells(dt.datetime.fromisoformat("2026-05-14T08:15:06-05:00"))
    ('2026-05-14 08:15:06', 'UTC-05:00')
    """
    if time is None:
        return "", ""
    text = time.isoformat(sep=" ", timespec="seconds")
    return text[:_DAY_AND_TIME], f"UTC{text[_DAY_AND_TIME:]}"
