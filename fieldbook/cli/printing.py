"""Checks as plain text for a terminal, a pipe or a printer; readable without colour."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from fieldbook.quantities.convert import show
from fieldbook.quantities.plain import plain
from fieldbook.quantities.safety import SAFETY
from fieldbook.watch.bands import band_words
from fieldbook.watch.lift.answer import lift_answer
from fieldbook.watch.lift.verdict import is_read
from fieldbook.watch.text import (
    check_words,
    limit_words,
    most_loaded,
    out_words,
    shortened,
    word_of,
)

if TYPE_CHECKING:
    from collections.abc import Iterable

    from calc.check import Check
    from calc.units import Quantity
    from fieldbook.walk.stand import WalkStatus
    from fieldbook.watch.watcher import Look

_WIDTH = 78
_LABEL = 26


def print_lift(look: Look, doubts: Iterable[str] = ()) -> None:
    """The lift check: the answer in three lines, then the working, then the safety words.

    Args:
        look: What the watch sees.
        doubts: What looks wrong on the card that was asked about.
    """
    check = look.lift.check
    for words in filter(None, lift_answer(look)):
        print(textwrap.fill(plain(words), _WIDTH, subsequent_indent="  "))
    print()
    _line("Where", out_words(look.now))
    _line("Governs", _governs(check))
    if is_read(check):
        _line("  weakest link", _governs(look.lift.chain))
    _line("Missing", ", ".join(check.missing))
    for words in doubts:
        _line("Look again", plain(words))
    loads = look.lift.loads
    if loads is not None:
        print(f"\nHook load, without friction, {loads.water}")
        _line("  line full", show(loads.full, "lbf"))
        _line("  line drained", show(loads.drained, "lbf"))
        _line("  full, well empty", show(loads.design, "lbf"))
        _line("  worst case", f"{show(loads.worst, 'lbf')} ({loads.worst_case})")
    _line("Draining", look.draining.words)
    if look.lift.served is not None:
        _line("Pull in service", plain(check_words(look.lift.served)))
    _print_readings(look)
    if look.lift.links:
        print(f"\n{'Link':<28}{'demand':>11}{'allowed':>12}{'share':>7}  verdict")
        for link in most_loaded(look.lift.links):
            _print_link(link)
    _line("\nNote", check.note)
    print()
    for words in SAFETY:
        print(textwrap.fill(words, _WIDTH))


def print_watch(look: Look) -> None:
    """Every live check, one a line, with what is missing below it."""
    print(f"WATCH: {word_of(look.verdict)}   {out_words(look.now)}")
    for check in look.checks:
        print(f"{check.name:<18}{word_of(check.verdict):<10}{_figures(check)}")
        _line("", _governs(check))
        _line("  missing", ", ".join(check.missing))
        _line("  note", check.note)
    _print_readings(look)
    print("\nTelling")
    for words in look.telling.lines():
        print(textwrap.fill(plain(words), _WIDTH, initial_indent="  ", subsequent_indent="    "))
    if look.depth.lines:
        print("\nDepth, by each way: +- its uncertainty, its weight, off by ft; > the odd one")
        for words in look.depth.lines:
            print(textwrap.fill(plain(words), _WIDTH, subsequent_indent="  "))


def print_not_witnessed(stand: WalkStatus) -> None:
    """The yeses to hold points that were written down afterwards; nothing where there are none."""
    if stand.not_witnessed:
        holds = ", ".join(f"{step.title} (hold {step.hold})" for step in stand.not_witnessed)
        print()
        _line("Hold not witnessed", f"{stand.unwitnessed} recorded from paper: {plain(holds)}")


def _print_readings(look: Look) -> None:
    gauge = look.readings
    print("\nGauge")
    _line("  read", _shown(gauge.read))
    _line("  that means", band_words(gauge.hook_load))
    _line("  should read, line full", band_words(gauge.expect_full))
    _line("  should read, drained", band_words(gauge.expect_drained))
    if look.now.outside is not None and gauge.expect_full is not None:
        _line("  with", look.now.outside.words)
    if gauge.off:
        _line("  off", gauge.check.note)
    never = f"{_shown(gauge.never)} ({plain(gauge.never_of)})" if gauge.never is not None else ""
    _line("  stop at", never or "can't say")
    for words in gauge.ahead.lines():
        print(textwrap.fill(words, _WIDTH, initial_indent="  ", subsequent_indent="    "))


def _print_link(check: Check) -> None:
    demand, allowed = (_shown(q, "-") for q in (check.demand, check.allowable))
    share = f"{check.share:.0%}" if check.share is not None else "?"
    print(
        f"{shortened(plain(check.governs), 27):<28}{demand:>11}{allowed:>12}{share:>7}"
        f"  {word_of(check.verdict)}"
    )


def _figures(check: Check) -> str:
    if not (figures := limit_words(check)):
        return ""
    share = f"{check.share:.0%}" if check.share is not None else "?"
    return f"{figures}, {share}"


def _governs(check: Check) -> str:
    words = [plain(check.governs), check.formula, check.source]
    return "; ".join(word for word in words if word)


def _shown(quantity: Quantity | None, otherwise: str = "not read") -> str:
    return show(quantity, "lbf") if quantity is not None else otherwise


def _line(label: str, words: str) -> None:
    if words:
        indent = " " * _LABEL
        print(textwrap.fill(f"{label:<{_LABEL}}{words}", _WIDTH, subsequent_indent=indent))
