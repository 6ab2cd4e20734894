"""The well drawn to scale: casing, water, string and pump, with their depths as numbers."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING, NamedTuple

from calc.units import magnitude
from fieldbook.app.shelf.job_status import progress
from fieldbook.app.walk.position_text import direction_of
from fieldbook.app.widgets.row_view import RowView, TextLine
from fieldbook.watch.state.facts import Facts
from fieldbook.watch.state.position import hung_at
from fieldbook.watch.state.water_level import outside
from fieldbook.watch.state.well_bottom import bottom, on_record

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.state.water_level import Outside
    from fieldbook.watch.watcher import Look

_BESIDE = 6  # columns: the shaft, and one free
_HANDLED = ("load", "joint", "footage", "drain")  # written of a string under way


@dataclass(frozen=True, slots=True)
class WellSketch:
    """What is drawn, in feet below the datum; None where it is not known.

    Attributes:
        water_state: "pumping" or "recovering"; empty of water at rest, and of a state nobody wrote.
        out: How much is out, or in; empty where nothing is moved.
    """

    bottom: float
    bottom_known: bool
    tagged: float | None
    water: float | None
    water_state: str
    screen: tuple[float, float] | None
    string_top: float
    string_end: float
    datum: str
    out: str


class _Label(NamedTuple):
    """What lies at a depth, in words."""

    depth: float
    words: str


def well_of(job: Job, look: Look, step: Step | None) -> WellSketch:
    """What is known of the well and of what hangs in it, at the step on screen."""
    facts = Facts(job)
    now = look.now
    found, record = bottom(facts), on_record(facts)
    tagged = found.depth if found.tagged else None
    depth, tagged_ft, low, high = (
        magnitude(value, "ft", "depth") if value is not None else None
        for value in (
            record if record is not None else tagged,
            tagged,
            facts.get("well", "screen_top"),
            facts.get("well", "screen_bottom"),
        )
    )
    top = magnitude(hung_at(job, now), "ft", "top")
    water = _water(job, now)
    level = magnitude(water.level, "ft", "level") if water is not None else None
    end = top + now.hanging_ft
    return WellSketch(
        bottom=depth if depth is not None else max(end, level or 0.0, 1.0) * 1.1,
        bottom_known=depth is not None,
        tagged=tagged_ft if record is not None else None,
        water=level,
        water_state=water.state if water is not None and not water.is_at_rest else "",
        screen=(low, high) if low is not None and high is not None else None,
        string_top=top,
        string_end=end,
        datum=facts.words("well", "datum") or "datum",
        out="" if now.visit else _out(job, step),
    )


def _water(job: Job, now: Moment) -> Outside | None:
    """The water to draw: as it was last read, also while the pump draws it down.

    Once it is locked out, or the string is handled, the pump is off, and the water is where the
    load is expected by.
    """
    levels = job.live("level")
    off = [entry.order for kind in _HANDLED if (entry := job.last(kind)) is not None]
    off += [entry.order for entry in job.live("arrival") if "lock_number" in entry.values]
    since = levels and off and max(off) > levels[-1].order
    return now.outside if since else outside(levels[-1:])


def _out(job: Job, step: Step | None) -> str:
    """What is out of the hole, or in it again."""
    direction = direction_of(job, step)
    done, total, what = progress(job, direction)
    return f"{done}/{total} {what} {direction}"


class WellDrawing(RowView):
    """The well, as tall as there is room for."""

    DEFAULT_CSS = """
    WellDrawing { height: 1fr; min-height: 3; border: round $border; padding: 0 1; }
    """
    BORDER_TITLE = "Well"

    def __init__(self) -> None:
        """Draw nothing yet."""
        super().__init__()
        self._well: WellSketch | None = None

    def show_well(self, well: WellSketch) -> None:
        """Draw `well`, where it is another than the one that is drawn."""
        if well != self._well:
            self._well = well
            self.draw_anew()

    def rows_in(self, width: int, height: int) -> Iterator[TextLine]:
        """The drawing for the room there is."""
        if self._well is not None and height:
            yield from map(TextLine, draw(self._well, height, width))


def draw(well: WellSketch, rows: int, columns: int) -> list[str]:
    """The well as `rows` lines of text, from its top to its bottom.

    Each row is an equal share of the depth; the words beside it say what lies in it. One
    row has no room for a shaft, and says what it can.
    """
    if rows == 1:
        return [_that_fit(_words(well, 0.0, well.bottom * 2, first=True), columns)[:columns]]
    share = well.bottom / (rows - 1)
    lines = []
    for row in range(rows - 1):
        top, end = row * share, (row + 1) * share
        words = _that_fit(_words(well, top, end, first=row == 0), columns - _BESIDE)
        lines.append(f"{_shaft(well, top, end)} {words}")
    known = f"{well.bottom:z,.0f} bottom" if well.bottom_known else "depth not known"
    if well.tagged is not None:
        known += f", tagged at {well.tagged:z,.0f}"
    lines.append(f"└───┘ {known}")
    return [line[:columns].rstrip() for line in lines]


def _shaft(well: WellSketch, top: float, end: float) -> str:
    water = "~" if _is_wet(well, top, end) else " "
    wall = "│"
    if well.screen is not None and well.screen[0] < end and well.screen[1] > top:
        wall = "¦"
    string = water
    if well.string_end > well.string_top:
        if top <= well.string_end < end:
            string = "█"
        elif well.string_top < end and well.string_end >= end:
            string = "║"
    return f"{wall}{water}{string}{water}{wall}"


def _is_wet(well: WellSketch, top: float, end: float) -> bool:
    """Whether more of a row lies below the water than above; none that the pump hangs dry in."""
    if well.water is None:
        return False
    hangs_dry = well.string_top < well.string_end < well.water
    if hangs_dry and top <= well.string_end < end:
        return False
    return well.water < (top + end) / 2


def _that_fit(words: list[_Label], room: int) -> str:
    """The words of a row from the top down; without room, those that come first give way."""
    while len(words) > 1 and len(", ".join(label.words for label in words)) > room:
        words = words[1:]
    return ", ".join(label.words for label in sorted(words, key=lambda label: label.depth))


def _words(well: WellSketch, top: float, end: float, *, first: bool) -> list[_Label]:
    """What lies in a row, what matters most last."""
    labels = []
    if first:
        labels.append(_Label(-inf, f"0 {well.datum}"))
        labels += [_Label(-inf, well.out)] if well.out else []
    if well.screen is not None and top <= well.screen[0] < end:
        labels.append(_Label(well.screen[0], f"{well.screen[0]:z,.0f} screen"))
    if well.water is not None and (top <= well.water < end or (first and well.water < 0)):
        words = f"{well.water:z,.0f} water {well.water_state}".rstrip()
        labels.append(_Label(well.water, words))
    if well.string_end > well.string_top and top <= well.string_end < end:
        labels.append(_Label(well.string_end, f"{well.string_end:z,.0f} pump"))
    return labels
