"""The count at a hand-over, held against what is written: two crews stand by one number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.record.footage import in_feet

if TYPE_CHECKING:
    from fieldbook.record.entry import Entry
    from fieldbook.walk.counts import Counts

_FEET_APART = 1.0
"""Of hose, that two readings of one counter may differ. Common practice, no published source."""


def counted_otherwise(found: Counts, direction: str, said: Entry) -> str:
    """What a hand-over counted and the book has not, in words; empty where they agree.

    Args:
        found: The counts of the job.
        direction: Whether the string goes "out" or "in".
        said: The hand-over.
    """
    joints = said.values.get("count_now")
    if joints is not None and joints.number is not None:
        tally = found.out if direction == "out" else found.into
        if joints.number != tally.count:
            return f"counted {joints.number:.0f} joints {direction}, {tally.count} are written"
    feet = in_feet(said, "footage")
    if feet is not None:
        hose = found.hose_out if direction == "out" else found.hose_in
        written = hose.counted_ft if hose.counted_ft is not None else 0.0
        if abs(feet - written) > _FEET_APART:
            return f"the counter reads {feet:,.0f} ft {direction}, {written:,.0f} ft is written"
    return ""
