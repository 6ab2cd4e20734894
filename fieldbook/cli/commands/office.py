"""`fieldbook jobfile` and `verify`: what the office does with logs."""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.cli.many import progress_of_many
from fieldbook.cli.opening import fresh_shelf, open_book
from fieldbook.cli.place import place_of
from fieldbook.office.export.jobfile import write_jobfile
from fieldbook.store.log.verify import verify as verify_path
from fieldbook.store.shelf.wells import memory_of_well
from fieldbook.walk.definition.steps import BadWalk

if TYPE_CHECKING:
    import argparse

_MANY_FOLDERS = 100
_MANY_FILES = 10  # a photo is read, hashed and written: a few are done before anybody looks


def jobfile(given: argparse.Namespace) -> int:
    """Write the job file and name what was written."""
    locality = place_of(given)
    with open_book(given, given.job, write=False) as book:
        try:
            home = home_of(given)
            memory = memory_of_well(fresh_shelf(given), book.job)
            with progress_of_many("attached files written", _MANY_FILES) as on_progress:
                written = write_jobfile(
                    book,
                    given.out,
                    company=home.company_steps,
                    locality=locality,
                    letterhead=home.letterhead,
                    memory=memory,
                    on_progress=on_progress,
                )
        except OSError as error:
            where = error.filename or given.out
            raise CannotGoOn(f"cannot write {where}: {error.strerror}") from error
        except UnicodeDecodeError as error:
            raise CannotGoOn("letterhead.txt is not UTF-8 text: save it as such") from error
        except BadWalk as problem:
            # A sheet of fewer steps than were asked for would go out as if it were whole.
            raise CannotGoOn(
                f"the company's own steps, {home.company_steps}: {problem}"
            ) from problem
    for path in written:
        print(path)
    return 0


def verify(given: argparse.Namespace) -> int:
    """Check every line of every log; 1 when there is damage."""
    reports = []
    for path in given.paths:
        if not os.path.lexists(path):
            raise CannotGoOn(f"there is nothing to be read at {path}")
        with progress_of_many("folders checked", _MANY_FOLDERS) as on_progress:
            reports.append(verify_path(path, on_progress=on_progress))
    if given.json:
        print(json.dumps([report.document() for report in reports], indent=2))
    else:
        for report in reports:
            print(report)
    return 0 if all(report.whole for report in reports) else 1
