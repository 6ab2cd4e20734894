"""What can be done while walking a job, each with its key."""

from __future__ import annotations

from textual.binding import Binding

from fieldbook.app.widgets.action_list import Act

WALK_ACTS = (
    Act("l", "lift check", "lift"),
    Act("t", "trace", "trace"),
    Act("w", "all steps", "steps"),
    Act("c", "job card", "card"),
    Act("v", "log", "log"),
    Act("n", "note", "note"),
    Act("x", "strike", "strike"),
    Act("d", "step done", "step_done"),
    Act("r", "release", "release"),
    Act("p", "pass over", "pass_over"),
    Act("b", "beside it", "beside"),
    Act("g", "read gauge", "read_gauge"),
    Act("h", "hand over", "hand_over"),
    Act("z", "suspend", "suspend"),
    Act("a", "afterwards", "afterwards"),
    Act("f", "attach", "attach"),
    Act("i", "initials", "initials"),
    Act("u", "gear", "gear"),
    Act("s", "last time", "last_time"),
    Act("o", "how deep", "planner"),
    Act("e", "emergency", "emergency"),
    Act("m", "day, night", "app.day_or_night"),
    Act("q", "shelf", "shelf"),
    Act("F1", "help", "app.help"),
)

_OF_A_STEP = frozenset({"step_done", "release", "pass_over", "beside"})
_OF_THE_WORK = frozenset({"strike", "read_gauge", "hand_over", "suspend"})


def acts_at(*, ended: bool, sealed: bool) -> tuple[Act, ...]:
    """What there is to be offered.

    Args:
        ended: No step is on screen.
        sealed: The work is over: what comes is afterwards, and a mistake is struck in the log.
    """
    idle = (_OF_A_STEP if ended else frozenset()) | (_OF_THE_WORK if sealed else frozenset())
    return tuple(act for act in WALK_ACTS if act.action not in idle)


_TOLD = {
    "lift": "Lift check: loads, readings, every link",
    "trace": "Trace: readings against what was expected",
    "planner": "Planner: how deep PVC, steel and hose can go",
    "steps": "All steps, to go to any of them",
    "card": "Job card: well, string, rig, limits",
    "gear": "Gear: take an item of the company's library",
    "last_time": "Last time: what earlier jobs left in this well, and what differs",
    "log": "Log: every entry, to read or strike",
    "note": "Write a note",
    "strike": "Strike the last entry",
    "step_done": "Mark a step that repeats as done",
    "release": "Release this hold point",
    "pass_over": "Pass this step over, with the reason",
    "beside": "The step that goes along with this one",
    "read_gauge": "Write a gauge reading",
    "hand_over": "Hand the job over",
    "suspend": "Suspend the work: what holds the string",
    "afterwards": "Entries are from paper, written down afterwards, or not",
    "attach": "Attach a photo or a paper to the job",
    "initials": "Say who records",
    "emergency": "Emergency card",
    "app.day_or_night": "Black on white, or white on black",
    "shelf": "Back to the shelf",
}

LETTERS = tuple(
    Binding(act.key, act.action, _TOLD[act.action]) for act in WALK_ACTS if len(act.key) == 1
)
"""The bindings of the letters, told in the words of help and palette."""
