"""`fieldbook plan`."""

from __future__ import annotations

import json
import sys
import textwrap
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.opening import doubts_on_card, job_or_card
from fieldbook.quantities.plain import plain
from fieldbook.quantities.safety import SAFETY
from fieldbook.watch.card import PLAN, blank_card
from fieldbook.watch.planner.document import plan_document
from fieldbook.watch.planner.plan import plan as plan_of
from fieldbook.watch.planner.words import (
    LEGEND,
    cells,
    details,
    folded,
    heading,
    supply_words,
    table_head,
    table_row,
)
from fieldbook.watch.text import word_of

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterable

    from fieldbook.watch.planner.plan import Plan, PlanRow

_WIDTH = 79


def plan(given: argparse.Namespace) -> int:
    """Print the plan for a job or a card.

    1 when nothing is within every limit, or when the lift of what hangs now is a stop.
    """
    if given.blank:
        print(blank_card(PLAN), end="")
        return 0
    job = job_or_card(given)
    found, doubts = plan_of(job), doubts_on_card(given, job)
    chosen = _chosen(found, given.line) if given.line else None
    if given.json:
        document = plan_document(found) | ({"doubt": doubts} if doubts else {})
        json.dump(document, sys.stdout, indent=2)
        print()
    elif chosen is not None:
        _print_line(found, chosen, doubts)
    else:
        _print_all(found, doubts)
    return 0 if found.possible and found.stopped is None else 1


def _chosen(found: Plan, name: str) -> PlanRow:
    for row in found.rows:
        if row.candidate.name.casefold() == " ".join(name.split()).casefold():
            return row
    names = ", ".join(row.candidate.name for row in found.rows)
    raise CannotGoOn(f"there is no line {plain(name)[:40]!r}; there is {names}")


def _print_all(found: Plan, doubts: list[str]) -> None:
    print(f"PLAN: {_headline(found)}")
    _print_pairs([*heading(found), *(("Look again", words) for words in doubts)])
    print()
    print(table_head())
    for row in found.rows:
        print(table_row(cells(row)))
    for words in LEGEND:
        print(words)
    print()
    lacks: dict[tuple[str, ...], list[str]] = {}
    for row in found.rows:
        own = tuple(lack for lack in row.missing if lack not in found.common)
        if own:
            lacks.setdefault(own, []).append(row.candidate.name)
    for missing, names in lacks.items():
        _print_pairs([("Missing", f"{', '.join(missing)}: for {', '.join(names)}")])
    if found.supply is not None:
        _print_pairs(supply_words(found.supply))
    print()
    _print_safety()


def _headline(found: Plan) -> str:
    """The first word of the plan: a lift that stops now comes before what might be set later."""
    if found.stopped is not None:
        return "STOP, the lift now"
    return "WITHIN LIMITS" if found.possible else "NOTHING WITHIN EVERY LIMIT"


def _print_line(found: Plan, row: PlanRow, doubts: list[str]) -> None:
    print(f"PLAN: {row.candidate.name}: {word_of(row.verdict)}")
    _print_pairs([*heading(found), *(("Look again", words) for words in doubts)])
    print()
    _print_pairs(details(found, row))
    print()
    _print_safety()


def _print_safety() -> None:
    for words in SAFETY:
        print(textwrap.fill(words, _WIDTH))


def _print_pairs(pairs: Iterable[tuple[str, str]]) -> None:
    for label, words in pairs:
        print(folded(plain(label), plain(words), width=_WIDTH))
