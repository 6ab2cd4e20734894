"""Every way of knowing the depth, beside the steps that ask for it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.app.literal import Literal
from fieldbook.watch import depth

if TYPE_CHECKING:
    from fieldbook.walk.steps import Step
    from fieldbook.watch.watcher import Look


class DepthPanel(Literal):
    """What the ways come to, then each with its uncertainty, weight and difference."""

    DEFAULT_CSS = """
    DepthPanel { height: auto; border: round $border; padding: 0 1; }
    """
    BORDER_TITLE = "Depth: +- how sure, weight, off the others"

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__("", classes="gone")

    def show_depth(self, look: Look, step: Step | None) -> None:
        """Show the ways, at a step that wakes the check; nothing elsewhere."""
        asked = step is not None and depth.NAME in step.checks
        check = look.depth.check if asked else None
        words = ""
        if check is not None:
            words = "\n".join(look.depth.lines) or f"Missing: {', '.join(check.missing)}"
        self.say(words, check.verdict.value if check is not None else "")
        self.set_class(not words, "gone")
