"""The book's home, for every command."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.store.home import Home
from fieldbook.store.pointer import HomeGone

if TYPE_CHECKING:
    import argparse


def home_of(given: argparse.Namespace) -> Home:
    """The home that the arguments, the environment, the first start or the platform name.

    Raises:
        CannotGoOn: The folder that was chosen at the first start is not there.
    """
    try:
        home = Home.find(given.home)
    except HomeGone as problem:
        raise CannotGoOn(str(problem)) from problem
    home.let_in()
    return home
