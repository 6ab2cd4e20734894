"""Which keys act on the walk now: in a field the letters are text, outside it they act."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.forms.choice import Choice
from fieldbook.app.widgets.action_list import Action

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.widget import Widget

    from fieldbook.app.forms.form import Form
    from fieldbook.walk.definition.steps import Step

_NEXT = Action("Enter:", "next, empty line: save", "save")
_CHOOSE = Action("Choose:", "left, right, or first letter  Enter: next", "save")
_AT_A_JOINT = (Action("=", "same again", "same_again"), Action("-", "cross out last", "strike"))
_LEAVE = Action("Esc:", "more keys", "leave_field")
_GO_ON = Action("Enter:", "go on", "go_on")
_DONE = Action("Enter:", "it is done", "go_on")
_RELEASE = Action("Enter:", "sign", "go_on")
_SEAL = Action("Enter:", "seal the log", "go_on")
_ON_A_PAGE = (
    Action("Enter:", "all good for the rest", "go_on"),
    Action("1, 2, 3:", "that one alone", "save"),
    Action("w:", "all steps", "steps"),
    Action("F1:", "help", "app.help"),
)
_OTHER_STEPS = (Action("PgUp:", "step before", "earlier"), Action("PgDn:", "step after", "later"))
_AT_THE_END = (Action("v:", "log", "log"), Action("q:", "shelf", "shelf"), _OTHER_STEPS[0])


def actions_now(
    step: Step | None, form: Form | None, focused: Widget | None, *, page: bool
) -> Iterator[Action]:
    """The keys that act now, in the order of the work.

    Args:
        step: The step on screen; None at the end of the walk.
        form: Its form, unless something is in its place.
        focused: What has the focus.
        page: Whether a page of ticks is on screen.
    """
    if focused is not None:
        yield _CHOOSE if isinstance(focused, Choice) else _NEXT
        at_a_joint = step is not None and step.repeat and "joint_length" in step.asks
        if at_a_joint and not isinstance(focused, Choice):
            yield from _AT_A_JOINT
        yield _LEAVE
    elif step is None:
        yield from _AT_THE_END
    elif page:
        yield from _ON_A_PAGE
    else:
        yield _GO_ON if form is None or form.lines else _act_of(step)
        yield from _OTHER_STEPS


def _act_of(step: Step) -> Action:
    """What Enter does at a step that asks nothing."""
    if step.records == "seal":
        return _SEAL
    return _RELEASE if step.hold is not None else _DONE
