"""The place whose rules a command goes by."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.home import home_of
from fieldbook.office.filing.localities import BadLocality, Locality, place_named

if TYPE_CHECKING:
    import argparse


def place_of(given: argparse.Namespace) -> Locality | None:
    """The place that --locality names, else `locality.txt` in the book's home.

    Raises:
        CannotGoOn: There is none of that name, or a company's file of places is wrong.
    """
    home = home_of(given)
    try:
        name = home.place if given.locality is None else given.locality
        return place_named(name, home.localities_folder) if name else None
    except (OSError, UnicodeDecodeError) as error:
        raise CannotGoOn(f"locality.txt cannot be read: {error}") from error
    except BadLocality as problem:
        raise CannotGoOn(str(problem)) from problem
