"""`fieldbook` and `fieldbook demo`: the app itself."""

from __future__ import annotations

import signal
import sys
from typing import TYPE_CHECKING

from fieldbook.app import run
from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.cli.scratch import scratch_folder
from fieldbook.store.log.disk import DISK
from fieldbook.store.shelf.home import Home

if TYPE_CHECKING:
    import argparse


def open_app(given: argparse.Namespace) -> int:
    """Open the app on the book's home."""
    _take_terminal()
    run(home_of(given), may_choose=Home.may_be_chosen(given.home))
    return 0


def demo(given: argparse.Namespace) -> int:
    """Open the app on a scratch copy of the sample jobs, or on the one that --home names."""
    if given.into is not None:
        return _write_into(Home(given.into))
    _take_terminal()
    if given.home is not None:
        home = home_of(given)
        if not home.jobs_folder.exists():
            _build(home)
        run(home, demo=True, play=given.play)
        return 0
    with scratch_folder(meanwhile=_load) as scratch:
        home = Home(scratch)
        with DISK.scratch():
            _build(home)
        run(home, demo=True, play=given.play)
    return 0


def _write_into(home: Home) -> int:
    """Write the sample book into an empty folder, and say how it is opened."""
    if home.path.exists() and any(home.path.iterdir()):
        raise CannotGoOn(f"{home.path} is not empty: name a new folder")
    _build(home)
    print(f"{home.path}: the sample book; fieldbook --home {home.path}")
    return 0


def _load() -> None:
    """Load the app and the sample jobs."""
    import fieldbook.app.app  # noqa: PLC0415 - while the other process starts
    import fieldbook.office.samples  # noqa: F401, PLC0415


def _build(home: Home) -> None:
    """Record the sample jobs; it takes less time than to say how far it is."""
    from fieldbook.office.samples import build_shelf  # noqa: PLC0415 - the app opens without it

    build_shelf(home)


def _take_terminal() -> None:
    """Go on in a terminal alone, and end when it is closed, whatever began this program ignores."""
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise CannotGoOn("the app needs a terminal; `fieldbook --help` lists what does not")
    if hasattr(signal, "SIGHUP"):  # there is none on Windows
        signal.signal(signal.SIGHUP, signal.SIG_DFL)
