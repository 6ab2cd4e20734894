"""The wells over the years: what each job found, plotted, and what is owed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.binding import Binding, BindingType
from textual.containers import Container, Vertical
from textual.message import Message
from textual.screen import Screen
from textual_plotext import PlotextPlot

from fieldbook.app.forms.find_field import FindField
from fieldbook.app.shelf.well_rows import WellRows, when
from fieldbook.app.theme.sizes import wear_size
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.office.reports.well_readings import SERIES, SETTING, STATIC
from fieldbook.office.reports.wells import all_wells

if TYPE_CHECKING:
    import datetime as dt
    from pathlib import Path

    from textual.app import ComposeResult, RenderResult

    from fieldbook.app.host import Host
    from fieldbook.app.widgets.rows import Rows
    from fieldbook.office.reports.wells import Well
    from fieldbook.store.shelf.shelf import Shelf

_ACTIONS = (
    Action("Enter", "newest job", "open"),
    Action("left, right", "what is plotted", "other"),
    Action("/", "find", "find"),
    Action("Esc", "back", "back"),
)
_NONE = (
    "No well is told by the jobs.\n\n"
    "A well is known by its tag, or by its owner and its name: write them in the job's first step."
)
_DAYS_OF_A_YEAR = 365.25
_MOST_FIGURES = 7
_FRAME = 3  # rows: above, below, and the years
_MOST_WORDS = 3


class YearsPlot(PlotextPlot):
    """Values over years, with no more figures beside its axis than it has rows."""

    def render(self) -> RenderResult:
        """The plot: two figures for one row would leave the row the wrong one."""
        self.plt.yfrequency(max(2, min(_MOST_FIGURES, self.size.height - _FRAME)))
        return super().render()


class WellsScreen(Screen[None]):
    """The wells, the last visited first; the figures of the one that the cursor is on."""

    DEFAULT_CSS = """
    WellsScreen {
        & Literal { padding: 0 1; }
        & #title { text-style: bold; }
        & #both { height: 1fr; layout: vertical; }
        & #history { height: 1fr; }
        & WellRows { height: 1fr; max-height: 40%; }
        & PlotextPlot { height: 1fr; }
        & #empty { padding: 1 2; }
        & .gone, & WellRows.gone { display: none; }
        &.-wide #both { layout: horizontal; }
        &.-wide WellRows { width: 46; height: 1fr; max-height: 100%; }
    }
    """
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (110, "-wide")]  # noqa: RUF012 - Textual's own type
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "open", "Open the newest job of the well"),
        Binding("right", "other", "Plot the next figure"),
        Binding("left", "other(-1)", "Plot the figure before"),
        Binding("slash", "find", "Find wells by owner, name, tag"),
        Binding("escape,q,w", "back", "Back"),
    ]
    AUTO_FOCUS = ""

    app: Host

    @dataclass
    class Read(Message):
        """The wells were read."""

        wells: list[Well]

    def __init__(self, shelf: Shelf, folder: Path | None, on: dt.date) -> None:
        """Show the wells of `shelf`.

        Args:
            shelf: The jobs, as last refreshed.
            folder: The job whose well the cursor begins on.
            on: The day that what is owed is looked at from.
        """
        super().__init__()
        self._shelf = shelf
        self._folder = folder
        self._on = on
        self._wells: list[Well] = []
        self._plotted = STATIC

    def compose(self) -> ComposeResult:
        """The wells; plot and words of one of them."""
        wear_size(self)
        yield Literal("Wells, the last visited first", id="title")
        yield FindField("owner, name, tag")
        yield Literal("Reading the wells ...", id="empty")
        with Container(id="both", classes="gone"):
            yield WellRows()
            with Vertical(id="history"):
                yield Literal("", id="plotted")
                yield YearsPlot()
                yield Literal("", id="words")
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """Read the wells once the screen is up."""
        self.read()

    @work(thread=True, exclusive=True, group="read")
    def read(self) -> None:
        """Put the jobs of each well together, away from the keys."""
        self.post_message(self.Read(all_wells(self._shelf, self._on)))

    def on_wells_screen_read(self, event: Read) -> None:
        """List the wells, the cursor on the one that was asked for."""
        self._wells = event.wells
        rows = self.query_one(WellRows)
        asked = (w for w in event.wells if any(v.folder == self._folder for v in w.visits))
        well = next(asked, None)
        if well is not None:  # it may stand beyond the first page
            self._wells = [well, *(other for other in event.wells if other is not well)]
        self._show(self._wells, _NONE)
        rows.focus()

    def _show(self, wells: list[Well], otherwise: str) -> None:
        self.query_one(WellRows).take(len(wells), wells.__getitem__)
        self.query_one("#both").set_class(not wells, "gone")
        empty = self.query_one("#empty", Literal)
        empty.say(otherwise)
        empty.set_class(bool(wells), "gone")
        self._show_well()

    def on_find_field_asked(self, event: FindField.Asked) -> None:
        """Narrow the wells down while it is typed."""
        if self._wells:
            words = event.words.casefold().split()
            wells = [w for w in self._wells if all(word in w.title.casefold() for word in words)]
            self._show(wells, f"No well has all of: {event.words}")

    def on_find_field_done(self) -> None:
        """From the field to the wells."""
        self.query_one(WellRows).focus()

    def on_option_list_option_highlighted(self, event: Rows.OptionHighlighted) -> None:
        """Show the well that the cursor is on."""
        event.stop()
        self._show_well()

    def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Enter or a click on a well opens its newest job."""
        event.stop()
        self.action_open()

    def _show_well(self) -> None:
        well = self.query_one(WellRows).chosen
        if well is None:
            return
        readings, unit = well.series[self._plotted], SERIES[self._plotted]
        widget = self.query_one(PlotextPlot)
        plot = widget.plt
        plot.clear_figure()
        if readings:
            years = [_year(reading.time) for reading in readings]
            values = [reading.value for reading in readings]
            plot.scatter(years, values, marker="X", color="default")
            first, last = int(min(years)), int(max(years)) + 1
            plot.xticks(sorted({first + step * (last - first) // 4 for step in range(5)}))
            plot.xlim(first, last)
            plot.yreverse(self._plotted in (STATIC, SETTING))  # depths go down
        widget.refresh()
        title = f"{self._plotted}, {unit}" if readings else f"{self._plotted}: never written"
        self.query_one("#plotted", Literal).say(title)
        self.query_one("#words", Literal).say("\n".join(self._words(well)))

    def _words(self, well: Well) -> list[str]:
        unit = SERIES[self._plotted]
        lines = [
            f"{r.time:%Y-%m-%d}  {r.value:,.4g} {unit}  {r.beside}  job {r.job_number}"
            for r in reversed(well.series[self._plotted][-_MOST_WORDS:])
        ]
        last = well.visits[-1]
        seen = f"line came out: {last.line_seen}; " if last.line_seen else ""
        lines.append(f"{seen}string set {well.set_words or 'on a day nobody wrote down'}")
        if causes := [f"{v.day:%Y} {', '.join(v.causes)}" for v in well.visits if v.causes]:
            lines.append(f"causes: {'; '.join(causes[-_MOST_WORDS:])}")
        lines += [f"{when(debt)}: {debt.words}" for debt in well.owed[:1]]
        return lines

    def action_other(self, step: int = 1) -> None:
        """Plot another figure."""
        names = list(SERIES)
        self._plotted = names[(names.index(self._plotted) + step) % len(names)]
        self._show_well()

    def action_find(self) -> None:
        """Begin to look for wells."""
        self.query_one(FindField).begin()

    def action_open(self) -> None:
        """Open the newest job of the well."""
        well = self.query_one(WellRows).chosen
        if well is not None and (said := self.app.open_job(well.visits[-1].folder)):
            self.query_one("#title", Literal).say(said, "stop")

    def action_back(self) -> None:
        """Back to the shelf; first every well again where some are looked for."""
        field = self.query_one(FindField)
        if field.words:
            field.action_leave()
        else:
            self.dismiss(None)


def _year(time: dt.datetime) -> float:
    return time.year + (time.timetuple().tm_yday - 1) / _DAYS_OF_A_YEAR
