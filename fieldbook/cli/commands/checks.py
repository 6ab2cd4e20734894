"""`fieldbook lift` and `fieldbook watch`."""

from __future__ import annotations

import datetime as dt
import json
import sys
from typing import TYPE_CHECKING

from calc.check import Verdict
from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.opening import doubts_on_card, job_or_card, load_walk, read_job
from fieldbook.cli.printing import print_lift, print_not_witnessed, print_watch
from fieldbook.office.paper.lift_paper import lift_paper
from fieldbook.watch.card import blank_card
from fieldbook.watch.document import look_document
from fieldbook.watch.watcher import Watcher

if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence

    from fieldbook.watch.state.string import StringRecord
    from fieldbook.watch.watcher import Look


def lift(given: argparse.Namespace) -> int:
    """Print the lift check for a job or a card; 1 when it is a stop or unknown."""
    if given.blank:
        print(blank_card(), end="")
        return 0
    if given.joint is not None and given.joint < 0:
        raise CannotGoOn("--joint takes the number of joints out, 0 or more")
    job = job_or_card(given)
    watcher = Watcher(job)
    if given.joint is not None:
        _refuse_beyond(given.joint, watcher.look().now.record)
    drained = True if given.drained else False if given.full else None
    look = watcher.look(joints_out=given.joint, drained=drained)
    doubts = doubts_on_card(given, job)
    if given.print:
        printed = f"printed {dt.datetime.now().astimezone():%Y-%m-%d %H:%M}"
        print(lift_paper(job, look, printed=printed, doubts=doubts), end="")
        return _code(look.lift.check.verdict)
    return _show(look, as_json=given.json, lift_only=True, doubts=doubts)


def _refuse_beyond(joints: int, record: StringRecord) -> None:
    """A case that the string cannot be in is no case to answer for.

    Raises:
        CannotGoOn: More joints than the string has, as far as its joints are known.
    """
    whole = len(record.joint_ends)
    if record.unmeasured and not record.hose_ft:
        return  # the answer is unknown and names the lengths
    if not whole:
        raise CannotGoOn("--joint is for a string of joints; this one has none")
    if joints > whole:
        raise CannotGoOn(
            f"--joint {joints}: the string has {whole} joints; 0 to {whole} may be out"
        )


def watch(given: argparse.Namespace) -> int:
    """Print every live check of a job; 1 when one is a stop or unknown."""
    job = read_job(given, given.job)
    code = _show(Watcher(job).look(), as_json=given.json, lift_only=False)
    if not given.json:
        print_not_witnessed(load_walk(given, job).stand(job))
    return code


def _show(look: Look, *, as_json: bool, lift_only: bool, doubts: Sequence[str] = ()) -> int:
    verdict = look.lift.check.verdict if lift_only else look.verdict
    if as_json:
        document = look_document(look) | ({"doubt": list(doubts)} if doubts else {})
        json.dump(document, sys.stdout, indent=2)
        print()
    elif lift_only:
        print_lift(look, doubts)
    else:
        print_watch(look)
    return _code(verdict)


def _code(verdict: Verdict) -> int:
    return 1 if verdict in (Verdict.STOP, Verdict.UNKNOWN) else 0
