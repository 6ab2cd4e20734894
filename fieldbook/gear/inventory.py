"""The library: a folder of TOML files in the book's home, read in the order of their names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.gear.item import BadGear, Item
from fieldbook.gear.reading import LARGEST_FILE, read_items, refuse
from fieldbook.small_file import read_small

if TYPE_CHECKING:
    from pathlib import Path


def load(folder: Path) -> tuple[Item, ...]:
    """Every item of the library, retired ones too; none where there is no such folder.

    Raises:
        BadGear: A file is wrong; the message names file, item and key.
    """
    items: list[Item] = []
    try:
        # A name that begins with a dot is an editor's or a file system's own.
        for path in sorted(folder.glob("[!.]*.toml")):
            for item in read_items(read_small(path, LARGEST_FILE, links=True), path.name):
                _check_alone(item, items)
                items.append(item)
    except OSError as error:
        raise BadGear(f"{folder}: cannot be read: {error.strerror}") from error
    return tuple(items)


def _check_alone(item: Item, others: list[Item]) -> None:
    for other in others:
        if item.id == other.id:
            refuse(item.file, item.id, "id", f"stands in {other.file} too")
        if item.title.casefold() == other.title.casefold():
            refuse(item.file, item.id, "title", f"is that of {other.id} too")
