"""A new item, written into the library as a file of its own."""

from __future__ import annotations

import json
import re
from collections import Counter
from typing import TYPE_CHECKING

from fieldbook.gear.inventory import load
from fieldbook.gear.item import BadGear, Item, names_in_gear
from fieldbook.gear.reading import LONGEST, read_items
from fieldbook.quantities.dates import DATES
from fieldbook.quantities.definition import PLAIN, definition
from fieldbook.quantities.plain import plain
from fieldbook.quantities.units import show_unit
from fieldbook.store.log.disk import make_folders, write_whole

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fieldbook.record.entry import Value


def keep(
    folder: Path, kind: str, said: Mapping[str, Value], *, title: str, source: str, notes: str = ""
) -> Item:
    """Write what a job says of its gear as a new item, in a file of its own.

    Args:
        folder: The library.
        kind: The kind of entry that said it.
        said: What was said; what is so on one job only is left out.
        title: What the crews call it.
        source: What the figures were read from.
        notes: Whatever else a crew must know.

    Raises:
        BadGear: There is such an item already, or it is no item.
        OSError: It could not be written; an item that was there is as it was.
    """
    name = item_id(title)
    path = folder / f"{name}.toml"
    items = load(folder)
    if any(item.title.casefold() == title.strip().casefold() for item in items):
        raise BadGear(f"'{plain(title)}' is in the library already: choose another title")
    if path.exists() or any(item.id == name for item in items):
        raise BadGear(f"there is an item '{name}' already: choose another title")
    kept = {n: said[n] for n in names_in_gear(kind) if n in said}
    raw = _toml(name, kind, kept, {"title": title, "source": source, "notes": notes}).encode()
    (item,) = read_items(raw, path.name)  # what cannot be read again is never written
    make_folders(folder)
    write_whole(path, raw)
    return item


def item_id(title: str) -> str:
    """The id of an item that is called `title`.

    Raises:
        BadGear: No letter or digit is in it.

    >>> item_id("Derrick 1, red")
    'derrick-1-red'
    """
    name = re.sub(r"[^a-z0-9]+", "-", title.lower())[: LONGEST["id"]].strip("-")
    if not name:
        raise BadGear("a title needs a letter or a digit")
    return name


def _toml(name: str, kind: str, kept: Mapping[str, Value], texts: Mapping[str, str]) -> str:
    figures = {n: value for n, value in kept.items() if n not in DATES}
    origins = Counter(str(value.origin) for value in figures.values())
    origin = origins.most_common(1)[0][0] if origins else "stated"
    head = {"id": name, "kind": kind, "origin": origin} | {k: t for k, t in texts.items() if t}
    head |= {n: kept[n].text for n in DATES if n in kept}
    lines = ["[[item]]", *(f"{key} = {_quoted(text)}" for key, text in head.items())]
    lines += ["", "[item.values]"]
    for key, value in figures.items():
        figure = _quoted(_with_unit(key, value))
        if str(value.origin) != origin:
            figure = f"{{ value = {figure}, origin = {_quoted(str(value.origin))} }}"
        lines.append(f"{key} = {figure}")
    return "\n".join(lines) + "\n"


def _with_unit(name: str, value: Value) -> str:
    """The figure as typed, with the unit that was understood where none was typed."""
    if value.number is None or definition(name).dimension in PLAIN or not value.unit:
        return value.text
    bare = re.fullmatch(r"[0-9+./ -]+", value.text, re.ASCII)
    return f"{value.text} {show_unit(value.unit)}" if bare else value.text


def _quoted(text: str) -> str:
    """A TOML string; what a terminal must not be shown does not get into a file either."""
    return json.dumps(plain(text), ensure_ascii=False)
