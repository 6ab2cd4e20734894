"""What the workers of the shelf tell its screen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.message import Message

if TYPE_CHECKING:
    from collections.abc import Callable

    from fieldbook.store.shelf.shelf import Listing


@dataclass
class ShelfRead(Message):
    """The shelf was read: all of it, or so far only what the index knows of the newest."""

    count: int
    listing: Callable[[int], Listing]
    whole: bool


@dataclass
class ShelfReading(Message):
    """So many of the jobs that changed have been read."""

    done: int
    of: int


@dataclass
class ShelfUnread(Message):
    """The folder of the jobs cannot be read; what the index knows of them may be old."""

    why: str


@dataclass
class JobsFound(Message):
    """What was looked for was found."""

    words: str
    count: int
    listing: Callable[[int], Listing]
