"""The lift path as a chain, from the mast down to the pump, with the weakest link marked."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from calc.units import magnitude
from fieldbook.app.widgets.bars import bar
from fieldbook.watch.text import shortened, word_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from calc.check import Check
    from fieldbook.watch.lift.load_path import Link

TITLE = "Load path, top down: load / limit, lbf; > weakest, (+n) and n like it"
"""What is above the rows."""
_NAME, _BAR = 29, 16  # cells; with figures of six digits a row fits 80 columns
_FEW = 3


class LinkRow(NamedTuple):
    """One link, or a run of like ones shown by the weakest of them."""

    check: Check
    others: int
    weakest: bool

    @property
    def text(self) -> str:
        """Mark, name, bar, share, word and figures in lbf, load over limit."""
        check = self.check
        share = f"{check.share:.0%}" if check.share is not None else "?"
        shown = bar(min(check.share or 0.0, 1.0), _BAR)  # past the limit the word is "stop"
        more = f" (+{self.others})" if self.others else ""
        name = f"{shortened(named(check), _NAME - len(more))}{more}"
        mark = ">" if self.weakest else "│"
        line = f"{mark} {name:<{_NAME}} {shown} {share:>4} {word_of(check.verdict):<9}"
        return f"{line} {_figures(check)}"


def chain(links: Sequence[Link], *, read: Check, every: bool) -> list[LinkRow]:
    """The gauge, then the links from the top down; like joints as one row unless `every` is asked.

    Args:
        links: As the watch gives them, the string from the top down and then what holds it.
        read: The check of the gauge, whose verdict is as much the lift's as any link's.
        every: Whether each joint has a row of its own.
    """
    string = [link.check for link in links if ", " in link.check.governs]
    gear = [link.check for link in links if ", " not in link.check.governs]
    runs = [[check] for check in reversed(gear)]
    runs += [[check] for check in string] if every else list(_runs(string))
    rows = [(_weakest(run), len(run) - 1) for run in runs]
    known = [check for check, _ in rows if check.share is not None]
    ruling = max(known, key=lambda check: check.share or 0.0, default=None)
    gauge = replace(read, governs="gauge, as a reading")
    shown = [LinkRow(check, others, check is ruling) for check, others in rows]
    return [LinkRow(gauge, 0, False), *shown] if shown else []


def _runs(string: Sequence[Check]) -> Iterator[list[Check]]:
    """Neighbours of one make, such as all threads of a run of joints."""
    run: list[Check] = []
    for check in string:
        if run and _make(check) != _make(run[0]):
            yield from _few_or_all(run)
            run = []
        run.append(check)
    yield from _few_or_all(run)


def _few_or_all(run: list[Check]) -> Iterator[list[Check]]:
    if len(run) > _FEW:
        yield run
    else:
        yield from ([check] for check in run)


def _make(check: Check) -> str:
    return check.governs.partition(", ")[0]


def _weakest(run: Sequence[Check]) -> Check:
    return max(run, key=lambda check: check.share if check.share is not None else -1.0)


def named(check: Check) -> str:
    """What the link is and where: "thread root, joint 8", but "check valve 2 body"."""
    make, _, where = check.governs.partition(", ")
    kind = make.removesuffix(" body")
    return f"{where} body" if kind != make and where.startswith(kind) else check.governs


def _figures(check: Check) -> str:
    if check.allowable is None or check.demand is None:
        return f"needs {check.missing[0]}" if check.missing else ""
    demand = magnitude(check.demand, "lbf", "demand")
    return f"{demand:z,.0f}/{magnitude(check.allowable, 'lbf', 'allowable'):,.0f}"
