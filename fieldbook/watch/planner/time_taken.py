"""How long it takes to set a line: an estimate of ours, for planning the day and nothing else."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, NamedTuple

from calc.units import magnitude
from fieldbook.quantities.convert import as_quantity

if TYPE_CHECKING:
    from fieldbook.watch.planner.candidates import Candidate

_MINUTES_A_JOINT = {"pvc": (2.0, 4.0), "steel": (3.0, 6.0)}
_USUAL_JOINT = {"pvc": 20.0, "steel": 21.0}
_HOSE_FT_A_MINUTE = (10.0, 30.0)


class TimeTaken(NamedTuple):
    """Minutes to set a line.

    Attributes:
        least: When all goes well.
        most: When it does not, and nothing breaks.
        joints: How many joints that is; None for hose.
    """

    least: float
    most: float
    joints: int | None


def time_taken(candidate: Candidate, length: float) -> TimeTaken:
    """Minutes for `length` feet, rigging up and start-up not counted.

    Source: our estimate, no published source: PVC 2 to 4 and steel 3 to 6 minutes a joint of 20
        or 21 ft, hose 10 to 30 ft a minute.
    """
    if candidate.line == "hose":
        slow, fast = _HOSE_FT_A_MINUTE
        return TimeTaken(length / fast, length / slow, None)
    typed = candidate.values.get("joint_length")
    joint = _USUAL_JOINT[candidate.line]
    if typed is not None:
        joint = magnitude(as_quantity(typed), "ft", "joint", above=0.0)
    count = ceil(length / joint)
    quick, slow = _MINUTES_A_JOINT[candidate.line]
    return TimeTaken(count * quick, count * slow, count)
