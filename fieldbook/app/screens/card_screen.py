"""The job card: what describes the job, well, string, rig and limits, each fact to be changed."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, NamedTuple

from textual import work
from textual.binding import Binding, BindingType
from textual.screen import Screen

from fieldbook.app.dialogs.gear_dialogs import GearDialogs
from fieldbook.app.dialogs.job_dialogs import JobDialogs
from fieldbook.app.widgets.action_list import Action, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.app.widgets.rows import Rows
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.walk.entry.entry_words import words_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.app import ComposeResult

    from fieldbook.app.host import Host
    from fieldbook.app.session import Session
    from fieldbook.record.entry import Entry
    from fieldbook.walk.definition.steps import Step

_ACTIONS = (
    Action("Enter", "change it", "change"),
    Action("x", "cross it out", "strike"),
    Action("o", "depth plan", "planner"),
    Action("u", "gear of the company", "gear"),
    Action("k", "keep it in the library", "keep"),
    Action("Esc", "back", "back"),
)
_LABEL, _UNDER = 24, 8  # cells of a label; before what is folded under a line


class CardRow(NamedTuple):
    """One line of the card: a step, a fact of it, or an entry that was made for it."""

    step: Step
    words: str
    entry: Entry | None = None


class CardScreen(Screen[str | None]):
    """Answers with the id of the step that changes the chosen fact, or None."""

    DEFAULT_CSS = """
    CardScreen {
        & #title { text-style: bold; padding: 0 1; }
        & #said { padding: 0 1; text-style: bold; height: auto; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,c", "back", "Back"),
        Binding("o", "planner", "Planner: how deep PVC, steel and hose can go"),
        Binding("x", "strike", "Strike the entry the cursor is on"),
        Binding("u", "gear", "Take an item of the company's library into this job"),
        Binding("k", "keep", "Keep what the cursor is on in the company's library"),
        Binding("enter", "change", "Change what the cursor is on"),
    ]

    app: Host

    def __init__(self, session: Session) -> None:
        """Show the card of the job of `session`."""
        super().__init__()
        self._session = session
        self._rows: list[CardRow] = []

    def compose(self) -> ComposeResult:
        """Title, the facts, the keys."""
        number = self._session.job.text("job", "job_number")
        yield Literal(f"Job card of {number}: Enter changes what the cursor is on", id="title")
        yield Rows()
        yield Literal("", id="said")
        yield ActionList(_ACTIONS)

    def on_mount(self) -> None:
        """List the facts."""
        self._list()

    def _list(self) -> None:
        self._rows = list(self._all_rows())
        rows = self.query_one(Rows)
        rows.show(rows.folded(row.words, _UNDER) for row in self._rows)
        rows.focus()

    def _all_rows(self) -> Iterator[CardRow]:
        for step in self._session.stand.steps:
            if step.phase != "plan" or step.records == "done":
                continue
            yield CardRow(step, f"{step.title}  ({self._session.stand.states[step.id]})")
            yield from self._entries(step) if step.repeat else self._facts(step)

    def _facts(self, step: Step) -> Iterator[CardRow]:
        for name in step.asks:
            if name in step.known:
                continue  # it is where it was first asked
            value = self._session.job.value(step.records, name)
            said = figure(value, name) if value is not None else "blank"
            # Where words come from is no question; a figure says whether it was measured.
            figured = value is not None and value.number is not None
            origin = f"  {value.origin}" if value is not None and figured else ""
            label = definition(name).label
            newest = self._newest(step, name)
            yield CardRow(step, f"    {label:<{_LABEL}} {said}{origin}", newest)
            for struck in self._struck(step):
                if name in struck.values:
                    was = figure(struck.values[name], name)
                    why = self._why_struck(struck)
                    yield CardRow(step, f"  X {label:<{_LABEL}} {was}  {why}", struck)

    def _entries(self, step: Step) -> Iterator[CardRow]:
        fixed = step.fixed.items()
        for entry in self._session.job.entries:
            if entry.kind != step.records or any(entry.text(n) != w for n, w in fixed):
                continue
            live = self._session.job.is_live(entry)
            why = "" if live else f"  {self._why_struck(entry)}"
            mark = " " if live else "X"
            words = f"  {mark} {self._session.title(entry)}: {words_of(entry)}{why}"
            yield CardRow(step, words, entry)

    def _newest(self, step: Step, name: str) -> Entry | None:
        live = reversed(self._session.job.live(step.records))
        return next((entry for entry in live if name in entry.values), None)

    def _struck(self, step: Step) -> list[Entry]:
        job = self._session.job
        return [e for e in job.entries if e.kind == step.records and not job.is_live(e)]

    def _why_struck(self, entry: Entry) -> str:
        strikes = self._session.job.struck_by(entry)
        return "; ".join(
            f"crossed out by {s.by}: {s.text('reason') or 'corrected'}" for s in strikes
        )

    def on_option_list_option_selected(self, event: Rows.OptionSelected) -> None:
        """Enter or a click."""
        event.stop()
        self.action_change()

    def action_change(self) -> None:
        """Go to the step whose form changes the fact."""
        at = self.query_one(Rows).highlighted
        if at is not None:
            self.dismiss(self._rows[at].step.id)

    @work
    async def action_strike(self) -> None:
        """Strike the entry that says what the cursor is on."""
        at = self.query_one(Rows).highlighted
        entry = self._rows[at].entry if at is not None else None
        if entry is None or not self._session.job.is_live(entry):
            self.query_one("#said", Literal).say("There is no entry here that stands")
            return
        if words := await JobDialogs(self.app, self._session).strike(entry):
            self.query_one("#said", Literal).say(words)
            self._list()

    @work
    async def action_gear(self) -> None:
        """Take an item of the library; what the cursor is on says which fit."""
        at = self.query_one(Rows).highlighted
        step = self._rows[at].step if at is not None else None
        if words := await GearDialogs(self.app, self._session).take(step):
            self._list()
            self.query_one("#said", Literal).say(words)

    @work
    async def action_keep(self) -> None:
        """Keep in the library what the cursor is on."""
        at = self.query_one(Rows).highlighted
        if at is not None:
            row = self._rows[at]
            words = await GearDialogs(self.app, self._session).keep(row.step, row.entry)
            self.query_one("#said", Literal).say(words)

    def action_planner(self) -> None:
        """How deep each drop line can go."""
        self.app.show_planner(self._session)

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)
