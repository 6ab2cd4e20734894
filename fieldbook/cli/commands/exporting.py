"""`fieldbook export`: the shelf in an SQL database."""

from __future__ import annotations

import json
import sys
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.cli.opening import fresh_shelf
from fieldbook.cli.progress import progress
from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    import argparse

    from fieldbook.office.sql.export import Exported


def export(given: argparse.Namespace) -> int:
    """Bring the database up to the shelf; 1 when a job was left out or is behind it."""
    try:
        from fieldbook.office.sql.export import CannotExport  # noqa: PLC0415 - an extra
        from fieldbook.office.sql.export import export as export_to  # noqa: PLC0415 - an extra
    except ModuleNotFoundError as error:
        words = f"this needs {error.name}: in a checkout, pip install '.[sql]'"
        raise CannotGoOn(words) from error
    home = home_of(given)
    shelf = fresh_shelf(given)
    url = given.to or f"sqlite:///{home.path.absolute() / 'fieldbook.sqlite'}"
    try:
        with progress("exported") as on_progress:
            done = export_to(shelf, url, on_progress=on_progress)
    except CannotExport as problem:
        raise CannotGoOn(f"cannot export: {problem}") from problem
    except KeyboardInterrupt:
        print("fieldbook: stopped; the jobs so far are there, exporting again goes on",
              file=sys.stderr)  # fmt: skip
        return 1
    _print(done, as_json=given.json)
    return 0 if done.clean else 1


def _print(done: Exported, *, as_json: bool) -> None:
    if as_json:
        document = {
            "to": done.to,
            "jobs": done.jobs,
            "same": done.same,
            "entries": done.entries,
            "behind": done.behind,
            "unread": done.unread,
        }
        print(json.dumps(document, indent=2))
        return
    print(
        f"{plain(done.to)}: {len(done.jobs):,} jobs written, {done.entries:,} entries added,"
        f" {done.same:,} jobs there as they are"
    )
    for number in done.behind:
        print(f"{plain(number)}: the database has entries that this shelf has not; gather them")
    for folder, why in done.unread.items():
        print(f"{plain(folder)}: left out, {plain(why)}")
