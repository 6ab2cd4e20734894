"""What a step asks after besides the limits: reel, depth by its ways, the checks it wakes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Verdict
from fieldbook.app.walk.position_text import reel_words
from fieldbook.app.walk.style import is_short
from fieldbook.app.widgets.lines import Lines
from fieldbook.app.widgets.row_view import TextLine
from fieldbook.watch.depth import reconcile as depth
from fieldbook.watch.text import in_words, word_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.check import Check
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step
    from fieldbook.watch.watcher import Look

_CHECKS = ("pull in service", "supply", "amps", "windings", "insulation", "voltage drop",
           "setting", "tally plan", "specific capacity", "tank precharge", "pump run", "air line",
           "chlorine", "power lines", "wind")  # fmt: skip


class CheckPanel(Lines):
    """A line for the reel, the lines of the depth, and one for each check the step wakes."""

    def show_look(self, look: Look, job: Job, step: Step | None, *, barred: bool) -> None:
        """Show what belongs to `step`; nothing of what it does not ask after.

        Args:
            look: What was seen.
            job: The open job.
            step: The step on screen.
            barred: Something else is in the place of the form.
        """
        short = is_short(self.screen.size)
        lines = list(_lines_of(look, job, step, short=short)) if step is not None else []
        self.set_class(not lines or (short and barred), "gone")
        self.say_lines(lines)


def _lines_of(look: Look, job: Job, step: Step, *, short: bool) -> Iterator[TextLine]:
    if step.records in ("footage", "pump_out") and "footage" in step.asks:
        yield TextLine(reel_words(job, step.fixed.get("direction", "out"), more=bool(step.repeat)))
    seen = {check.name: check for check in look.checks if check.name in step.checks}
    deep = seen.get(depth.NAME)
    if deep is not None:
        yield TextLine("\n".join(look.depth.lines) or _words(deep), deep.verdict.value)
    for name in _CHECKS:
        if name in seen:
            words = _words(seen[name])
            # Where there is little room the form needs it more than what is only good to know.
            yield TextLine(words.partition("; ")[0] if short else words, seen[name].verdict.value)


def _words(check: Check) -> str:
    """A check in one line: verdict, what governs, what is missing, and what else to know."""
    said = [_governs(check)] if check.governs else []
    if check.missing:
        more = f" and {len(check.missing) - 3} more" if len(check.missing) > 3 else ""
        said.append(f"needs {', '.join(check.missing[:3])}{more}")
    else:
        notes = filter(None, check.note.split("; "))
        said += [n for n in notes if not (check.governs and n.startswith(check.governs))]
    words = f": {'; '.join(said)}" if said else ""
    return f"{check.name.capitalize()} {word_of(check.verdict)}{words}"


def _governs(check: Check) -> str:
    """What governs; with what is asked, where too little of it is there."""
    good = check.verdict not in (Verdict.CAUTION, Verdict.STOP)
    if good or not check.at_least or check.demand is None:
        return check.governs
    return f"{check.governs}, {in_words(check.demand)} asked"
