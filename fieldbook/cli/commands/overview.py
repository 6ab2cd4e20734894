"""`fieldbook wells` and `fieldbook due`: what the jobs say together."""

from __future__ import annotations

import datetime as dt
import json
from typing import TYPE_CHECKING

from fieldbook.cli.opening import code_of, day_of, fresh_shelf
from fieldbook.cli.place import place_of
from fieldbook.office.reports.due import DueState, owed
from fieldbook.office.reports.well_readings import SERIES
from fieldbook.office.reports.wells import all_wells
from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    import argparse

    from fieldbook.office.reports.due import Owed
    from fieldbook.office.reports.wells import Well


def wells(given: argparse.Namespace) -> int:
    """Print each well with its newest figures, or with all; 1 when a job cannot be read."""
    words = [word.casefold() for words in given.words for word in words.split()]
    shelf = fresh_shelf(given)
    found = [
        well
        for well in all_wells(shelf, _on(given))
        if all(word in well.title.casefold() for word in words)
    ]
    if given.json:
        print(json.dumps([well.document() for well in found], indent=2))
    elif not found:
        print("No well is told by the jobs: a tag, or an owner and a well's name, tells one.")
    for well in [] if given.json else found:
        _print_well(well, whole=given.history)
    return code_of(shelf)


def due(given: argparse.Namespace) -> int:
    """Print what is owed, what is late first; 1 when a job cannot be read."""
    shelf = fresh_shelf(given)
    found = owed(shelf, _on(given), place=place_of(given))
    if given.within is not None:
        found = [debt for debt in found if debt.days is None or debt.days <= given.within]
    if given.json:
        print(json.dumps([debt.document() for debt in found], indent=2))
        return code_of(shelf)
    if not found:
        empty = not shelf.index.documents()
        print(f"Nothing is owed{': the shelf is empty' if empty else ''}.")
    for debt in found:
        _print_debt(debt)
    return code_of(shelf)


def _on(given: argparse.Namespace) -> dt.date:
    return day_of(given.on) or dt.datetime.now().astimezone().date()


def _print_well(well: Well, *, whole: bool) -> None:
    print(plain(well.title))
    last = well.visits[-1]
    jobs = "1 job" if len(well.visits) == 1 else f"{len(well.visits)} jobs"
    print(f"  {jobs}, last {last.day} {plain(last.job_number)}, {last.line} {last.work}")
    for name in SERIES:
        for reading in reversed(well.series[name] if whole else well.series[name][-1:]):
            beside = f", {plain(reading.beside)}" if reading.beside else ""
            figure = f"{reading.value:,.4g} {SERIES[name]}"
            print(f"  {name:<19}{reading.time:%Y-%m-%d}  {figure}{beside}")
    for words, seen in (("line came out", last.line_seen), ("cable came out", last.cable_seen)):
        if seen:
            print(f"  {words:<19}{last.day}  {plain(seen)}")
    print(f"  {'string set':<19}{well.set_words or 'not recorded'}")
    for debt in well.owed[: None if whole else 1]:
        print(f"  {'owed':<19}{_day(debt)}  {plain(_words(debt))}")
    if whole:
        for visit in reversed(well.visits):
            causes = plain(", ".join(visit.causes))
            print(f"  {visit.day}  {plain(visit.job_number)}  {visit.line} {visit.work}  {causes}")


def _print_debt(debt: Owed) -> None:
    days = "" if debt.days is None else f"{abs(debt.days)} d"
    how = (
        f"{days} late" if debt.state is DueState.LATE else f"in {days}" if days else "no day named"
    )
    print(f"{_day(debt)}  {how:<13} {plain(debt.job_number)[:11]:<12}{plain(_words(debt))}")
    whose = ", ".join(word for word in (debt.owner, debt.well) if word)
    print(f"{'':<26}{plain(whose)}; told {debt.promised_at:%Y-%m-%d} by {plain(debt.by)}")


def _day(debt: Owed) -> str:
    return "no day    " if debt.due is None else debt.due.isoformat()


def _words(debt: Owed) -> str:
    return f"{debt.what}: {debt.words}"
