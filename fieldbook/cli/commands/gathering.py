"""`fieldbook gather`: what trucks recorded, brought together in the office's book."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.cli.progress import progress
from fieldbook.office.export.address import is_address, redacted, redacted_in
from fieldbook.store.gather.gather import Gathering
from fieldbook.store.gather.gather import gather as gather_into
from fieldbook.store.shelf.home import Home

if TYPE_CHECKING:
    import argparse


def gather(given: argparse.Namespace) -> int:
    """Bring trucks' logs together; 1 when something clashes or is damaged."""
    into = given.into if given.into is not None else str(home_of(given).path)
    places = [*given.sources, into]
    for source in given.sources:
        if not is_address(source) and not os.path.isdir(source):  # noqa: PTH112 - never raises
            raise CannotGoOn(f"{redacted(source)} is not a folder")
    try:
        if any(map(is_address, places)):
            report = _gather_afar(given.sources, into)
        else:
            report = _gather([Path(source) for source in given.sources], Path(into))
    except KeyboardInterrupt:
        words = "stopped; both sides are whole, and gathering again goes on"
        print(f"fieldbook: {words}", file=sys.stderr)
        return 1
    print(json.dumps(report.document(), indent=2) if given.json else report)
    return 0 if report.clean else 1


def _gather(sources: list[Path], into: Path) -> Gathering:
    try:
        Home(into).let_in()
        with progress("gathered") as on_progress:
            return gather_into(sources, into, on_progress=on_progress)
    except OSError as error:
        why = redacted_in(error.strerror or str(error), str(into))
        raise CannotGoOn(f"cannot gather into {redacted(str(into))}: {why}") from error


def _gather_afar(sources: list[str], into: str) -> Gathering:
    """Fetch what lies at addresses, gather it here, and put what changed where it belongs."""
    try:
        from fieldbook.office.export.remote import CannotReach, Distant  # noqa: PLC0415 - an extra
    except ModuleNotFoundError as error:
        words = f"an address needs {error.name}: in a checkout, pip install '.[remote]'"
        raise CannotGoOn(words) from error
    with TemporaryDirectory(prefix="fieldbook-gather-") as scratch:
        try:
            folders = []
            for number, source in enumerate(sources):
                folder = Path(source)
                if is_address(source):
                    folder = Path(scratch) / f"from-{number}"
                    with progress("fetched") as on_progress:
                        Distant(source).fetch(folder, on_progress)
                folders.append(folder)
            if not is_address(into):
                return _gather(folders, Path(into))
            home, there = Path(scratch) / "into", Distant(into)
            with progress("fetched") as on_progress:
                fetched = there.fetch_home(home, on_progress)
            report = _gather(folders, home)
            with progress("put there") as on_progress:
                report.problems += there.put_home(home, fetched, on_progress)
        except CannotReach as problem:
            raise CannotGoOn(str(problem)) from problem
    return report
