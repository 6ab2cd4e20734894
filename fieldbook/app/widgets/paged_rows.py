"""A list of thousands: a page of rows, and more as the cursor comes to the end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Generic, TypeVar

from fieldbook.app.widgets.rows import Rows

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable

PAGE = 60
"""Rows that are laid out at a time; laying out thousands would take seconds."""

T = TypeVar("T")


class PagedRows(Rows, Generic[T]):
    """A row an item; subclasses say what is in it and what the item is."""

    def __init__(self) -> None:
        """Nothing is listed yet."""
        super().__init__(classes="gone")
        self._count = 0
        self._item: Callable[[int], T] | None = None
        self._shown: list[T] = []

    def words(self, item: T) -> str:
        """What is in the row."""
        raise NotImplementedError

    def key(self, item: T) -> Hashable:
        """What tells this item from the others."""
        raise NotImplementedError

    @property
    def chosen(self) -> T | None:
        """The item the cursor is on."""
        at = self.highlighted
        return self._shown[at] if at is not None and at < len(self._shown) else None

    def take(self, count: int, item: Callable[[int], T], go_to: Hashable = None) -> None:
        """Show other items, the cursor where it was: on the same item, while it is there.

        Args:
            count: How many there are.
            item: Gives the one in a place, from 0.
            go_to: Key of the item that the cursor is to go to instead.
        """
        stay = go_to or (self.key(self.chosen) if self.chosen is not None else None)
        before = self._shown
        self._count, self._item = count, item
        at_least = max(PAGE, (self.highlighted or 0) + 2)
        self._shown = [item(place) for place in range(min(count, at_least))]
        if self._shown != before:
            self.show(map(self.words, self._shown))
        keys = [self.key(shown) for shown in self._shown]
        if stay in keys:
            self.highlighted = keys.index(stay)
        self.set_class(not count, "gone")

    def watch_highlighted(self, highlighted: int | None) -> None:
        """Show a page more when the cursor comes to the end."""
        super().watch_highlighted(highlighted)
        start = len(self._shown)
        if self._item is not None and highlighted is not None and highlighted >= start - 1:
            more = [self._item(at) for at in range(start, min(start + PAGE, self._count))]
            if more:
                self._shown += more
                self.add(map(self.words, more))
