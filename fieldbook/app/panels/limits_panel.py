"""The limits beside the entry: what hangs, how near the limit, what the gauge may show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.check import Verdict
from calc.units import magnitude
from fieldbook.app.panels.gauge_bar import gauge_bar, typed_words
from fieldbook.app.screens.load_path_text import named
from fieldbook.app.walk.position_text import off_the_hook
from fieldbook.app.walk.style import is_roomy
from fieldbook.app.widgets.bars import bar
from fieldbook.app.widgets.lines import Lines
from fieldbook.app.widgets.row_view import TextLine
from fieldbook.quantities.convert import show
from fieldbook.quantities.figures import figure
from fieldbook.watch.bands import band_words
from fieldbook.watch.lift.lift import STOP_LOAD
from fieldbook.watch.lift.verdict import is_read
from fieldbook.watch.motor.insulation import NAME as INSULATION
from fieldbook.watch.state.metered import metered, was_on_the_bench
from fieldbook.watch.text import word_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from calc.check import Check
    from calc.units import Quantity
    from fieldbook.record.job import Job
    from fieldbook.walk.definition.steps import Step
    from fieldbook.watch.watcher import Look


_LEAST_BAR = 4
_COLUMNS = 31  # of the panel where the screen has eighty


class LimitsPanel(Lines):
    """One glance at every live check."""

    DEFAULT_CSS = """
    LimitsPanel {
        height: auto; border: round $border; border-title-style: bold; padding: 0 1;
    }
    """
    BORDER_TITLE = "Limits"

    def __init__(self) -> None:
        """Nothing was seen yet."""
        super().__init__()
        self._seen: tuple[Look, Job, Step | None] | None = None

    def show_typed(self, typed: Quantity | None) -> None:
        """Show where a reading that is being typed lies; None once nothing is typed."""
        if self._seen is not None:
            self.show_look(*self._seen, typed=typed)

    def show_look(
        self, look: Look, job: Job, step: Step | None, *, typed: Quantity | None = None
    ) -> None:
        """Show what was seen: no load and no reading of a string that the head carries.

        Args:
            look: What was seen.
            job: The job.
            step: The step on screen.
            typed: A gauge reading that is being typed.
        """
        self._seen = look, job, step
        columns = None if is_roomy(self.screen.size) else _COLUMNS
        # With the pump out and no other string planned, there is none that they could be of.
        of_string = look.checks if look.now.hangs or look.now.planned else ()
        pressures = [c for c in of_string if c.name == "pressure"]
        windows = [c for c in of_string if c.name == "hose window"]
        self.say_lines(
            [
                *_lifted(look, step, columns, typed),
                *(line for check in pressures for line in _with_reason(check, "psi", columns)),
                *(line for check in windows for line in _with_reason(check, "", columns)),
                *(_wind(check) for check in look.checks if check.name == "wind"),
                *(_gear(check) for check in look.checks if check.name == "gear"),
                _insulation(look, job, columns),
            ]
        )


def _lifted(
    look: Look, step: Step | None, columns: int | None, typed: Quantity | None = None
) -> Iterator[TextLine]:
    if off_the_hook(look.now, step):
        yield TextLine("Landed: the head carries it")
    else:
        yield from _lift(look, columns)
        yield from _gauge(look, columns, typed)


def _lift(look: Look, columns: int | None) -> Iterator[TextLine]:
    check, chain, loads = look.lift.check, look.lift.chain, look.lift.loads
    if not look.now.has_load:
        yield TextLine(check.governs.capitalize(), check.verdict.value)
        return
    hangs = show(loads.worst, "lbf") if loads is not None else "?"
    what = "Planned load" if look.now.planned else "Hook load"
    # One word for the lift: what was read comes first, where it is the worse.
    if is_read(check):
        yield TextLine(f"LIFT {word_of(check.verdict)}: by the gauge", check.verdict.value)
        yield TextLine(f"{what} {hangs}")
    else:
        yield TextLine(f"{what} {hangs} {word_of(check.verdict)}", check.verdict.value)
    # The share is the weakest link's own demand over its own limit, not the hook load's.
    yield TextLine(f"Weakest: {named(chain)}" if chain.governs else "")
    if chain.share is not None:
        yield TextLine(_against_its_limit(chain, chain.share), chain.verdict.value)
    if check.missing:
        yield TextLine(_in_a_row("Missing: ", check.missing, columns), "unknown")
    yield TextLine(f"Line: {look.draining.words}" if look.now.is_lifted else "")


def _against_its_limit(check: Check, share: float) -> str:
    """The weakest link's own demand and limit as bar, numbers and share, in one row."""
    words = f"{share:.0%}"
    if check.demand is not None and check.allowable is not None:
        demand = f"{magnitude(check.demand, 'lbf', check.name):z,.0f}"
        words = f"{demand}/{show(check.allowable, 'lbf')} {words}"
    over = len(bar(share, 0))
    return f"{bar(share, max(_COLUMNS - len(words) - 1 - over, _LEAST_BAR))} {words}"


def _gauge(look: Look, columns: int | None, typed: Quantity | None) -> Iterator[TextLine]:
    """What to expect and what never to pass, and below it the reading: what it is within of."""
    if look.now.has_load:
        yield from _readings_to_come(look, columns)
    gauge = look.readings
    yield gauge_bar(look, _COLUMNS, typed)
    if typed is not None:
        yield typed_words(look, typed)
    elif gauge.read is not None:
        seen = gauge.check.verdict.value
        yield TextLine(f"Gauge read {show(gauge.read, 'lbf')} {word_of(gauge.check.verdict)}", seen)
    elif not look.now.visit:
        yield TextLine("Gauge not read")


def _readings_to_come(look: Look, columns: int | None) -> Iterator[TextLine]:
    gauge = look.readings
    if look.now.landed:
        yield TextLine("Landed: nothing more to expect")
    else:
        yield from _expected(look, columns)
    if gauge.never is not None:
        yield TextLine(f"STOP AT {show(gauge.never, 'lbf')}", "title")
        yield TextLine(_never_of(look))
    else:
        yield TextLine("STOP AT ?", "unknown")
        yield TextLine(_in_a_row("  needs ", gauge.never_needs, columns))


def _never_of(look: Look) -> str:
    """What sets the reading never to pass; a load that was typed with what it is at the hook."""
    gauge, limit = look.readings, look.lift.limit
    if gauge.never is None or limit is None or gauge.never_of != STOP_LOAD:
        return f"  {gauge.never_of}"
    at_the_hook = show(limit, "lbf")
    same = at_the_hook == show(gauge.never, "lbf")
    return f"  {gauge.never_of}{'' if same else f' {at_the_hook}'}"


def _expected(look: Look, columns: int | None) -> Iterator[TextLine]:
    gauge = look.readings
    drained = look.draining.leaves_empty
    expect = gauge.expect_drained if drained else gauge.expect_full
    # Before anything hangs that is all of it, and the first reading will be a small one.
    line = ", all in" if look.now.planned else " drained" if drained else " full"
    yield TextLine(f"To read {band_words(expect)}{line}" if expect is not None else "To read ?")
    if look.now.planned and columns is None and gauge.ahead.coming:
        yield TextLine(f"  {gauge.ahead.coming}")
    water = look.now.outside
    if expect is not None and water is not None:
        yield TextLine(_waters(look.now.deepest, water.level))
        if not water.is_at_rest:
            yield TextLine(f"  at the {water.state} level: no static one", "caution")
    # What was read of the pump alone says nothing of the whole string.
    if gauge.off:
        yield TextLine(f"  {gauge.off}", gauge.check.verdict.value)


def _waters(deepest: Quantity | None, level: Quantity) -> str:
    """Which level load and gauge are at, where it is not the same; empty where it is."""
    now = f"{magnitude(level, 'ft', 'level'):,.0f}"
    if deepest is None:
        return f"Water: load none, gauge {now} ft"
    least = f"{magnitude(deepest, 'ft', 'level'):,.0f}"
    return f"Water: load {least}, gauge {now} ft" if least != now else ""


def _with_reason(check: Check, unit: str, columns: int | None) -> Iterator[TextLine]:
    """A check, and what it stops for: of what is good nobody asks that."""
    yield _check(check, unit, columns)
    if check.verdict is Verdict.STOP and check.governs:
        yield TextLine(f"  {check.governs}")


def _wind(check: Check) -> TextLine:
    """Wind near or over the rig's limit; there is no room to say so of a calm day."""
    blows = check.verdict in (Verdict.CAUTION, Verdict.STOP)
    return _check(check, "mph", _COLUMNS) if blows else TextLine("")


def _gear(check: Check) -> TextLine:
    """Gear past its date; there is no room to say so of what is good."""
    past = check.verdict is Verdict.CAUTION
    return TextLine(f"Gear caution: {check.governs}" if past else "", "caution")


def _check(check: Check, unit: str, columns: int | None) -> TextLine:
    figures = ""
    if check.demand is not None and check.allowable is not None and unit:
        demand = f"{magnitude(check.demand, unit, check.name):z,.0f}"
        figures = f" {demand}/{show(check.allowable, unit)}"
    shown = check.missing if columns is None else check.missing[:1]
    missing = f": {', '.join(shown)}?" if shown else ""
    words = f"{check.name.capitalize()}{figures} {word_of(check.verdict)}{missing}"
    return TextLine(words, check.verdict.value)


def _insulation(look: Look, job: Job, columns: int | None) -> TextLine:
    """The newest reading, of which motor, and whether it stops: a row that gives way by words."""
    readings = [entry for entry in job.live("meter") if "insulation" in entry.values]
    read = metered(job)
    if read.is_another:  # the last reading may be of the motor that came out
        readings = [entry for entry in readings if entry in read.entries]
    if not readings:
        return TextLine("Insulation not measured")
    last = readings[-1]
    verdict = next((check.verdict for check in look.checks if check.name == INSULATION), None)
    bad = f" {word_of(verdict)}" if verdict in (Verdict.CAUTION, Verdict.STOP) else ""
    megohms = figure(last.values["insulation"])
    time, newest = last.time, job.entries[-1].time.date()
    at = f"at {time:%H:%M}" if time.date() == newest else f"on {time:%m-%d}"
    if was_on_the_bench(job, last):
        ways = [
            f"Insulation {megohms} on the bench {at}{bad}",
            f"Insulation {megohms} on the bench{bad}",
            f"Insulation {megohms} on bench{bad}",
            f"On the bench {megohms}{bad}",
        ]
    else:
        # The day alone says that it is old; with the hour too it would take a second line.
        ways = [f"Insulation {megohms} {at}{bad}", f"Insulation {megohms}{bad}"]
    fits = (way for way in ways if columns is None or len(way) <= columns)
    state = verdict.value if bad and verdict is not None else ""
    return TextLine(next(fits, ways[-1]), state)


def _in_a_row(words: str, missing: Sequence[str], columns: int | None) -> str:
    """What is missing, as many as one row of so many columns takes, and how many more.

    All of it where there are no columns to keep to.
    """
    if columns is None:
        return f"{words}{', '.join(missing)}"
    for kept in range(len(missing), 1, -1):
        more = f", {len(missing) - kept} more" if kept < len(missing) else ""
        if len(row := f"{words}{', '.join(missing[:kept])}{more}") <= columns:
            return row
    more = f", {len(missing) - 1} more" if len(missing) > 1 else ""
    return f"{words}{', '.join(missing[:1])}{more}"
