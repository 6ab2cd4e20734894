"""What can be done while walking a job, each with its key."""

from __future__ import annotations

from textual.binding import Binding

from fieldbook.app.widgets.action_list import Action

WALK_ACTIONS = (
    Action("l", "lift check", "lift"),
    Action("t", "trace", "trace"),
    Action("w", "all steps", "steps"),
    Action("y", "to fill in", "fill_in"),
    Action("c", "job card", "card"),
    Action("v", "log", "log"),
    Action("n", "note", "note"),
    Action("x", "cross out", "strike"),
    Action("d", "step done", "step_done"),
    Action("r", "sign", "release"),
    Action("p", "skip", "pass_over"),
    Action("b", "side task", "beside"),
    Action("g", "read gauge", "read_gauge"),
    Action("h", "hand over", "hand_over"),
    Action("z", "shut down", "suspend"),
    Action("a", "from paper", "afterwards"),
    Action("f", "attach", "attach"),
    Action("i", "initials", "initials"),
    Action("u", "gear", "gear"),
    Action("s", "last visit", "last_time"),
    Action("o", "depth plan", "planner"),
    Action("e", "emergency", "emergency"),
    Action("m", "day, night", "app.day_or_night"),
    Action("q", "shelf", "shelf"),
    Action("F1", "help", "app.help"),
)

_OF_A_STEP = frozenset({"step_done", "release", "pass_over", "beside"})
_OF_THE_WORK = frozenset({"strike", "read_gauge", "hand_over", "suspend"})


def actions_at(*, ended: bool, sealed: bool, waits: bool) -> tuple[Action, ...]:
    """What there is to be offered.

    Args:
        ended: No step is on screen.
        waits: Something is on the list for later.
        sealed: The work is over: what comes is afterwards, and a mistake is struck in the log.
    """
    idle = (_OF_A_STEP if ended else frozenset()) | (_OF_THE_WORK if sealed else frozenset())
    idle |= frozenset() if waits else {"fill_in"}
    return tuple(act for act in WALK_ACTIONS if act.action not in idle)


_WITH_HELP = {
    "lift": "Lift check: loads, readings, every link",
    "trace": "Trace: readings against what was expected",
    "planner": "Planner: how deep PVC, steel and hose can go",
    "steps": "All steps, to go to any of them",
    "fill_in": "What the office will ask and nobody has filled in yet",
    "card": "Job card: well, string, rig, limits",
    "gear": "Gear: take an item of the company's library",
    "last_time": "Last visit: what earlier jobs left in this well, and what differs",
    "log": "Log: every entry, to read or strike",
    "note": "Write a note",
    "strike": "Cross out the last entry",
    "step_done": "Mark a step that repeats as done",
    "release": "Sign this hold",
    "pass_over": "Skip this step, with the reason",
    "beside": "The step that goes along with this one",
    "read_gauge": "Write a gauge reading",
    "hand_over": "Hand the job over",
    "suspend": "Shut the work down: what holds the string",
    "afterwards": "Entries are from paper, or not",
    "attach": "Attach a photo or a paper to the job",
    "initials": "Say who records",
    "emergency": "Emergency card",
    "app.day_or_night": "Black on white, or white on black",
    "shelf": "Back to the shelf",
}

LETTERS = tuple(
    Binding(act.key, act.action, _WITH_HELP[act.action])
    for act in WALK_ACTIONS
    if len(act.key) == 1
)
"""The bindings of the letters, in the words of help and palette."""
