"""The limits beside the entry: what hangs, how near the limit, what the gauge may show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.containers import Vertical

from calc.check import Verdict
from calc.units import magnitude
from fieldbook.app.bars import bar
from fieldbook.app.literal import Literal
from fieldbook.quantities.convert import show
from fieldbook.walk.entry_words import figure
from fieldbook.watch.readings import band_words

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from calc.check import Check
    from fieldbook.record.job import Job
    from fieldbook.watch.watcher import Look

_LINES = ("load", "bar", "governs", "missing", "draining", "now", "expect", "never", "of",
          "pressure", "window", "gear", "insulation")  # fmt: skip


class LimitsPanel(Vertical):
    """One glance at every live check."""

    DEFAULT_CSS = """
    LimitsPanel {
        height: auto; border: round $border; border-title-style: bold; padding: 0 1;
        & #limit-never { text-style: bold; }
    }
    """
    BORDER_TITLE = "Limits"

    def compose(self) -> ComposeResult:
        """A line for each thing that is looked at."""
        for name in _LINES:
            yield Literal("", id=f"limit-{name}")

    def show_look(self, look: Look, job: Job) -> None:
        """Show what was seen."""
        self._line("insulation", _insulation(job))
        self._show_lift(look)
        self._show_gauge(look)
        for name, words in (("pressure", "psi"), ("hose window", "")):
            check = next((c for c in look.checks if c.name == name), None)
            self._show_check("window" if name == "hose window" else name, check, words)
        self._show_gear(look)

    def _line(self, name: str, text: str, state: str = "") -> None:
        line = self.query_one(f"#limit-{name}", Literal)
        line.say(text, state)
        line.set_class(not text, "gone")

    def _show_lift(self, look: Look) -> None:
        check = look.lift.check
        loads = look.lift.loads
        hangs = show(loads.worst, "lbf") if loads is not None else "?"
        if not look.now.has_load:
            hangs = "nothing hangs"
        share = f" {check.share:.0%}" if check.share is not None else ""
        what = "Planned load" if look.now.planned else "Hook load"
        self._line("load", f"{what} {hangs}{share} {check.verdict.value}", check.verdict.value)
        self._line("bar", bar(check.share) if check.share is not None else "")
        self._line("governs", f"Governs: {check.governs}" if check.governs else "")
        self._line("missing", _missing(check), "unknown" if check.missing else "")
        self._line("draining", f"Line: {look.draining.words}" if look.now.hangs else "")

    def _show_gauge(self, look: Look) -> None:
        told = look.readings
        read = show(told.read, "lbf") if told.read is not None else "not read"
        state = told.check.verdict.value
        seen = state if told.read is not None else ""
        self._line("now", f"Gauge now {read} {seen}".rstrip(), seen)
        drained = look.draining.proved
        expect = told.expect_drained if drained else told.expect_full
        line = "drained" if drained else "full"
        self._line(
            "expect",
            f"Expect {band_words(expect)} {line}"
            if expect is not None
            else "Expect unknown"
            if look.now.has_load
            else "",
        )
        never = show(told.never, "lbf") if told.never is not None else "unknown"
        known = told.never is not None
        self._line(
            "never", f"NEVER PASS {never}" if look.now.has_load else "", "" if known else "unknown"
        )
        lacking = ", ".join(look.readings.check.missing[:3])
        words = told.never_of if known else f"needs {lacking}"
        self._line("of", f"  {words}" if look.now.has_load else "")

    def _show_gear(self, look: Look) -> None:
        """Gear past its date; there is no room to say so of what is good."""
        check = next((c for c in look.checks if c.name == "gear"), None)
        past = check is not None and check.verdict is Verdict.CAUTION
        self._line("gear", f"Gear caution: {check.governs}" if past and check else "", "caution")

    def _show_check(self, name: str, check: Check | None, unit: str) -> None:
        if check is None:
            self._line(name, "")
            return
        figures = ""
        if check.demand is not None and check.allowable is not None and unit:
            demand = f"{magnitude(check.demand, unit, name):,.0f}"
            figures = f" {demand}/{show(check.allowable, unit)}"
        word = check.name.capitalize()
        missing = f": {check.missing[0]}?" if check.missing else ""
        self._line(name, f"{word}{figures} {check.verdict.value}{missing}", check.verdict.value)


def _insulation(job: Job) -> str:
    readings = [entry for entry in job.live("meter") if "insulation" in entry.values]
    if not readings:
        return "Insulation not measured"
    last = readings[-1]
    return f"Insulation {figure(last.values['insulation'])} at {last.time:%H:%M}"


def _missing(check: Check) -> str:
    if not check.missing:
        return ""
    more = f" and {len(check.missing) - 2} more" if len(check.missing) > 2 else ""
    return f"Missing: {', '.join(check.missing[:2])}{more}"
