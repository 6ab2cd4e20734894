"""What a step asks after besides the limits: reel, depth by its ways, the checks it wakes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Vertical

from fieldbook.app.literal import Literal
from fieldbook.app.whereabouts import reel_words
from fieldbook.watch import depth

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from calc.check import Check
    from fieldbook.record.job import Job
    from fieldbook.walk.steps import Step
    from fieldbook.watch.watcher import Look

_CHECKS = ("supply", "amps", "windings", "insulation", "voltage drop", "setting",
           "specific capacity", "tank precharge", "chlorine", "power lines")  # fmt: skip


class WokenPanel(Vertical):
    """A line for the reel, the lines of the depth, and one for each check the step wakes."""

    DEFAULT_CSS = """
    WokenPanel { height: auto; }
    """

    def compose(self) -> ComposeResult:
        """A line for each thing that may be asked after."""
        for name in ("reel", depth.NAME, *_CHECKS):
            yield Literal("", id=_id(name), classes="gone")

    def show_look(self, look: Look, job: Job, step: Step | None) -> None:
        """Show what belongs to `step`; nothing of what it does not ask after."""
        asks, woken = (step.asks, step.checks) if step is not None else ((), ())
        reel = step is not None and step.records == "footage" and "footage" in asks
        self._line(
            "reel", reel_words(job, step.fixed.get("direction", "")) if reel and step else ""
        )
        seen = {check.name: check for check in look.checks if check.name in woken}
        check = seen.get(depth.NAME)
        lines = "\n".join(look.depth.lines) if check is not None else ""
        if check is not None and not lines:
            lines = _words(check)
        self._line(depth.NAME, lines, check)
        for name in _CHECKS:
            check = seen.get(name)
            words = _words(check) if check is not None else ""
            # Where there is little room the form needs it more than what is only good to know.
            words = words.partition("; ")[0] if self.screen.has_class("-short") else words
            self._line(name, words, check)

    def _line(self, name: str, words: str, check: Check | None = None) -> None:
        line = self.query_one(f"#{_id(name)}", Literal)
        line.say(words, check.verdict.value if check is not None else "")
        line.set_class(not words, "gone")


def _id(name: str) -> str:
    return f"woken-{name.replace(' ', '-')}"


def _words(check: Check) -> str:
    """A check in one line: verdict, what governs, what is missing, and what else to know."""
    said = [check.governs] if check.governs else []
    if check.missing:
        more = f" and {len(check.missing) - 3} more" if len(check.missing) > 3 else ""
        said.append(f"needs {', '.join(check.missing[:3])}{more}")
    elif check.note and check.note not in said:
        said.append(check.note)
    words = f": {'; '.join(said)}" if said else ""
    return f"{check.name.capitalize()} {check.verdict.value}{words}"
