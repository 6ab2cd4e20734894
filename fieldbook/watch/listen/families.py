"""The explanations that are weighed, how often each is met, and what a crew looks at then.

How often an explanation is met is ours, no published source: it only has to be right within a few
times, for readings that settle a case outweigh it by thousands.
"""

from __future__ import annotations

from dataclasses import dataclass

EXPECTED = "as expected"
BREAKING_OUT = "breaking out"


@dataclass(frozen=True, slots=True)
class Family:
    """One explanation.

    Attributes:
        name: What it is called, in the trade's words.
        look_at: What settles it by eye, hand or ear.
        first: Odds that it holds when the first reading of a lift is taken, against as expected.
        later: Odds that it begins at any later reading.
        passing: It lets go by itself: a later reading may be as before.
    """

    name: str
    look_at: str
    first: float
    later: float
    passing: bool = False


_ALL = (
    Family(EXPECTED, "", 1.0, 1.0),
    Family(
        "drained",
        "Wet or dry inside the next joint; air drawn at the top; was a weep or plug open?",
        0.06, 0.003,
    ),
    Family(
        "partly drained",
        "Which check valve held; a hole in the pipe as it comes up; wet or dry inside.",
        0.02, 0.0015,
    ),
    Family(
        "leaking slowly",
        "Hold still and read again in ten minutes; look for a hole or a weeping joint.",
        0.004, 0.002,
    ),
    Family(
        "filling slowly",
        "Hold still and read again in ten minutes; water running in from above, or a weep below.",
        0.001, 0.001,
    ),
    Family(
        "not drained",
        "Second bar or the weep again; no air drawn and wet inside means the line is full.",
        0.0, 0.0,
    ),
    Family(
        "pump lost, line still full",
        "Stop. Rise within one lift against both figures; cable slack or parted; tag the depth.",
        0.001, 0.0007,
    ),
    Family(
        "pump lost, line drained",
        "Stop. Rise within one lift, cable slack or parted; tag the depth before moving.",
        0.001, 0.0015,
    ),
    Family(
        "parted",
        "Stop. Cable slack or parted; nothing below comes back on lifting; tag its top.",
        0.001, 0.002,
    ),
    Family(
        "stuck or dragging",
        "Stop the hoist. Slack off and read at rest; does the load follow the travel?",
        0.02, 0.003, passing=True,
    ),
    Family(
        "hung on the lip or roller",
        "Stop. Look at couplings, pump top, lip and roller; turn it free, no force.",
        0.02, 0.003, passing=True,
    ),
    Family(
        BREAKING_OUT,
        "Watch the casing, not the gauge alone; it settles to the string's weight when it is free.",
        0.10, 0.0, passing=True,
    ),
    Family("joint missed in the count", "Count the rack, out loud, in pairs.", 0.004, 0.002),
    Family("joint counted twice", "Count the rack, out loud, in pairs.", 0.004, 0.002),
    Family("footage counter off", "Compare it with the next mark on the hose.", 0.01, 0.003),
    Family(
        "gauge dead",
        "Lift a hand's breadth: the needle must move. Tap it; look at hose, cell and plug.",
        0.0, 0.001,
    ),
    Family("gauge zero off", "Take the load off and read the empty hook again.", 0.02, 0.001),
    Family(
        "gauge read on the wrong parts of line",
        "Count the parts at the block; look where the gauge sits and for how many parts it is set.",
        0.06, 0.0005,
    ),
    Family(
        "water level other than recorded",
        "Sound the water again, minutes since the pump stopped written beside it.",
        0.03, 0.0005,
    ),
    Family(
        "touching bottom or an obstruction",
        "Stop lowering. Lift a foot and read; compare the depth with the well's bottom.",
        0.0, 0.003, passing=True,
    ),
    Family(
        "landed or in its hold",
        "See what carries the string: hold, hanger or bottom.",
        0.005, 0.002, passing=True,
    ),
    Family("none of these", "Read again, at rest; then check gauge, count and water.",
           0.001, 0.0001, passing=True),
)  # fmt: skip

FAMILIES = {family.name: family for family in _ALL}
