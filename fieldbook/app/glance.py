"""What is read from two metres: count, intake, gauge and the reading never to pass, large."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Horizontal, Vertical
from textual.widgets import Digits

from calc.units import magnitude
from fieldbook.app.literal import Literal
from fieldbook.app.standing import progress
from fieldbook.app.whereabouts import direction_of
from fieldbook.watch.moment import intake_depth

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.walk.steps import Step
    from fieldbook.watch.watcher import Look

_CELLS = ("count", "intake", "gauge", "never")
_MOST = 9
"""Figures are filled up to so many places: of one width, they change without a new layout."""


class Glance(Horizontal):
    """Four numbers, large, with what each is in words above it."""

    DEFAULT_CSS = """
    Glance {
        height: 4; padding: 0 1; margin: 1 0 0 0;
        & Vertical { width: 1fr; height: 4; padding: 0 1 0 0; }
        & Digits { width: 1fr; }
        & .label { text-wrap: nowrap; text-overflow: ellipsis; }
    }
    """

    def compose(self) -> ComposeResult:
        """A cell for each number."""
        for name in _CELLS:
            with Vertical():
                yield Literal("", id=f"glance-{name}", classes="label")
                yield Digits("", id=f"glance-{name}-digits")

    def show_look(self, job: Job, look: Look, step: Step | None) -> None:
        """Show what was seen."""
        direction = direction_of(job, step)
        done, total, what = progress(job, direction)
        self._cell("count", f"{direction.upper()}, {what}", f"{done}/{total}")
        datum = job.text("well", "datum") or "datum not named"
        depth, _ = intake_depth(job, look.now)
        if look.now.hangs:
            self._cell("intake", f"INTAKE, ft: {datum}", _digits(depth, "ft", 1))
        else:
            self._cell("intake", "PUMP OUT of the well", "-")
        told = look.readings
        self._cell("gauge", f"GAUGE, lbf: {told.check.verdict}", _digits(told.read, "lbf"))
        self._cell("never", f"NEVER PASS, lbf: {told.never_of}", _digits(told.never, "lbf"))

    def _cell(self, name: str, label: str, digits: str) -> None:
        self.query_one(f"#glance-{name}", Literal).say(label)
        shown = self.query_one(f"#glance-{name}-digits", Digits)
        if shown.value != (whole := digits.ljust(_MOST)):
            shown.update(whole)


def _digits(quantity: Quantity | None, unit: str, places: int = 0) -> str:
    if quantity is None:
        return "?"
    return f"{magnitude(quantity, unit, 'shown'):,.{places}f}"
