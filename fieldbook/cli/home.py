"""The book's home, for every command."""

from __future__ import annotations

import os
from argparse import ArgumentTypeError
from pathlib import Path
from typing import TYPE_CHECKING

from fieldbook.cli.errors import CannotGoOn
from fieldbook.cli.streams import say
from fieldbook.office.export.address import is_address, not_here
from fieldbook.store.shelf.home import VARIABLE, Home
from fieldbook.store.shelf.pointer import HomeGone

if TYPE_CHECKING:
    import argparse

_FOUND = "found_home"


def folder_or_file(text: str) -> Path:
    """The path that an argument names.

    Raises:
        ArgumentTypeError: It is an address, which a path that was made of it would no longer show.
    """
    if is_address(text):
        raise ArgumentTypeError(not_here(text))
    return Path(text)


def home_of(given: argparse.Namespace) -> Home:
    """The home that the arguments, the environment, the first start or the platform name.

    It is found once a command, and what of its settings is not taken is reported then.

    Raises:
        CannotGoOn: The folder that was chosen at the first start is not there, or an address is
            named in place of a folder.
    """
    if (found := getattr(given, _FOUND, None)) is not None:
        assert isinstance(found, Home)
        return found
    if given.home is None and is_address(named := os.environ.get(VARIABLE, "")):
        raise CannotGoOn(f"{VARIABLE}: {not_here(named)}")
    try:
        home = Home.find(given.home)
    except HomeGone as problem:
        raise CannotGoOn(str(problem)) from problem
    if trouble := home.settings_trouble:
        say(trouble)
    home.let_in()
    setattr(given, _FOUND, home)
    return home
