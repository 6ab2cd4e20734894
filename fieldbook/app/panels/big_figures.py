"""What is read from two metres: count, intake, gauge and the reading never to pass, large."""

from __future__ import annotations

from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, NamedTuple

from rich.cells import cell_len, set_cell_size

from calc.units import magnitude
from fieldbook.app.panels.solid_digits import solid
from fieldbook.app.shelf.job_status import progress
from fieldbook.app.walk.position_text import (
    by_the_record,
    direction_of,
    nothing_hangs,
    off_the_hook,
    over_by,
)
from fieldbook.app.widgets.row_view import RowView, TextLine
from fieldbook.quantities.plain import plain
from fieldbook.watch.state.position import intake_depth
from fieldbook.watch.text import shortened, word_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step
    from fieldbook.watch.watcher import Look

_SHARES = (1.0, 1.3, 1.0, 1.7)
"""Of the width, for each number; what has the longer words above it gets more."""
_SHARES_OF_TWO = (1.0, 3.0)


class _Figure(NamedTuple):
    label: str
    figure: str


class BigFigures(RowView):
    """Four numbers, large, with what each is in words above it."""

    DEFAULT_CSS = "BigFigures { height: 4; padding: 0 1; margin: 1 0 0 0; }"

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._figures: tuple[_Figure, ...] = ()
        self._state = ""

    def show_look(self, job: Job, look: Look, step: Step | None) -> None:
        """Show what was seen; over the limit the whole band is inverted, and says by how much."""
        over = over_by(look)
        self._state = "stop" if over else ""
        if look.now.visit:
            depth, datum = by_the_record(job)
            record = _Figure(f"INTAKE ft: {datum}, as set", _digits(depth, "ft", 1))
            self._figures = (_Figure("CHECK VISIT", "-"), record)
            self.draw_anew()
            return
        direction = direction_of(job, step)
        done, total, what = progress(job, direction)
        gauge, first = look.readings, (_count(direction, done, total, what), _intake(job, look))
        if off_the_hook(look.now, step):
            self._figures = first
            self.draw_anew()
            return
        self._figures = (
            *first,
            # The lift may be "within" by a gauge that nobody has read yet.
            _Figure(
                _gauge_label(look, over),
                _digits(gauge.read, "lbf"),
            ),
            _never(look),
        )
        self.draw_anew()

    def rows_in(self, width: int, height: int) -> Iterator[TextLine]:
        """The words, and below them the numbers, three rows high."""
        del height
        shares = _SHARES if len(self._figures) == len(_SHARES) else _SHARES_OF_TWO
        ends = [round(width * end / sum(shares)) for end in accumulate(shares)]
        widths = [end - start for start, end in pairwise((0, *ends))]
        cells = [
            [_cell(text, room) for text in (figure.label, *solid(figure.figure))]
            for figure, room in zip(self._figures, widths, strict=False)
        ]
        for row in zip(*cells, strict=True):
            yield TextLine("".join(row), self._state)


def _cell(text: str, room: int) -> str:
    """Text in its own columns, with at least one free behind it."""
    shown = plain(text)
    if cell_len(shown) >= room:
        # Which joint it is stays whole: the 1 of a 13 that is cut is another joint.
        shown = shortened(shown, room - 1)
    return set_cell_size(shown, room)


def _gauge_label(look: Look, over: str) -> str:
    if over:
        return f"lift STOP: {over}"
    if look.readings.read is None:
        return "GAUGE: not read"
    return f"GAUGE lbf: lift {word_of(look.lift.check.verdict)}"


def _count(direction: str, done: str, total: str, what: str) -> _Figure:
    """What is out or in; feet of how many in words, as "1,050/1,200" takes the room of two."""
    if what == "ft":
        return _Figure(f"{direction.upper()} ft, of {total}", done)
    return _Figure(f"{direction.upper()}, {what}", f"{done}/{total}")


def _intake(job: Job, look: Look) -> _Figure:
    if not look.now.hangs:
        return _Figure(nothing_hangs(look.now), "-")
    datum = job.text("well", "datum") or "datum unnamed"
    depth, _ = intake_depth(job, look.now)
    return _Figure(f"INTAKE ft: {datum}", _digits(depth, "ft", 1))


def _never(look: Look) -> _Figure:
    if not look.now.has_load:
        return _Figure("STOP AT: nothing hangs", "-")
    gauge = look.readings
    return _Figure(f"STOP AT lbf: {gauge.never_of or 'unknown'}", _digits(gauge.never, "lbf"))


def _digits(quantity: Quantity | None, unit: str, places: int = 0) -> str:
    if quantity is None:
        return "?"
    return f"{magnitude(quantity, unit, 'shown'):z,.{places}f}"
