"""What is in the place of a form that moves the string while hold points are open before it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Vertical

from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal

if TYPE_CHECKING:
    from collections.abc import Sequence

    from textual.app import ComposeResult

    from fieldbook.walk.definition.steps import Step
    from fieldbook.walk.hold_check import Refutation
    from fieldbook.walk.stand import WalkStatus

_MOST = 4


class HoldPanel(Vertical):
    """The hold points that nobody has released yet, and the way to the first of them."""

    DEFAULT_CSS = """
    HoldPanel { height: auto; border: heavy $warning; padding: 0 1; }
    """

    def __init__(self) -> None:
        """Show no hold yet."""
        super().__init__(classes="gone", id="hold-panel")

    def compose(self) -> ComposeResult:
        """Words and the way on."""
        yield Literal("", id="hold-words", classes="caution")
        yield Literal("The string is not moved before each is done, or skipped by name.")
        yield ActionList((Action("Enter", "go to the first", "go_on"),))

    def show_holds(self, holds: Sequence[Step], stand: WalkStatus) -> None:
        """Show the open hold points, or hide where there are none."""
        self.set_class(not holds, "gone")
        lines = [_words(step, stand.taken_back.get(step.id)) for step in holds[:_MOST]]
        if len(holds) > _MOST:
            lines.append(f"and {len(holds) - _MOST} more")
        self.query_one("#hold-words", Literal).say("\n".join(lines), "caution")


def _words(step: Step, against: Refutation | None) -> str:
    """A step that waits; work to be taken up again is no hold point, and waits as one."""
    if against is not None:
        return f"HOLD waits again: {step.title}. {against.words}"
    return f"HOLD not signed: {step.title}" if step.hold else f"First: {step.title}"
