"""The jobs of the shelf as rows: a page of them, and more as the cursor comes to the end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.message import Message

from fieldbook.app.rows import Rows

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from fieldbook.store.shelf import Listing

PAGE = 60
"""Rows that are laid out at a time; a list of thousands would take seconds to lay out."""


class JobRows(Rows):
    """A row a job."""

    class Grew(Message):
        """More rows are shown than before."""

    def __init__(self) -> None:
        """Nothing is listed yet."""
        super().__init__(classes="gone")
        self._count = 0
        self._listing: Callable[[int], Listing] = _none
        self._shown: list[Listing] = []

    @property
    def shown(self) -> int:
        """How many of the jobs have a row so far."""
        return len(self._shown)

    @property
    def chosen(self) -> Listing | None:
        """The job the cursor is on."""
        at = self.highlighted
        return self._shown[at] if at is not None and at < len(self._shown) else None

    def take(self, count: int, listing: Callable[[int], Listing], go_to: Path | None) -> None:
        """Show other jobs, the cursor where it was: on the same job, while it is there.

        Args:
            count: How many jobs there are.
            listing: Gives the job in a place, from 0.
            go_to: Folder of the job that the cursor is to go to instead.
        """
        stay = go_to or (self.chosen.folder if self.chosen is not None else None)
        before = self._shown
        self._count, self._listing = count, listing
        at_least = max(PAGE, (self.highlighted or 0) + 2)
        self._shown = [listing(place) for place in range(min(count, at_least))]
        if self._shown != before:
            self.show(map(_words, self._shown))
        folders = [shown.folder for shown in self._shown]
        if stay in folders:
            self.highlighted = folders.index(stay)

    def watch_highlighted(self, highlighted: int | None) -> None:
        """Show a page more when the cursor comes to the end."""
        super().watch_highlighted(highlighted)
        if highlighted is not None and highlighted >= len(self._shown) - 1:
            start = len(self._shown)
            more = [self._listing(at) for at in range(start, min(start + PAGE, self._count))]
            if more:
                self._shown += more
                self.add(map(_words, more))
                self.post_message(self.Grew())


def _none(_place: int) -> Listing:
    raise IndexError


def _words(listing: Listing) -> str:
    saved = listing.saved.strftime("%Y-%m-%d %H:%M") if listing.saved is not None else "never"
    sealed = ", sealed" if listing.sealed else ""
    trouble = f"  ! {len(listing.problems)} found wrong" if listing.problems else ""
    title = listing.title or listing.well or listing.owner
    first = f"{listing.job_number}  {title}  ({listing.line}, {listing.work}{sealed}){trouble}"
    return f"{first}\n    {listing.stands}   saved {saved}"
