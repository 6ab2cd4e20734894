"""The kinds of entry: what each must say and may say."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from fieldbook.quantities.definition import BadDefinition, definitions


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of entry.

    Attributes:
        name: Its key in entries.
        label: What a screen calls it.
        needs: Quantities without which the entry says nothing.
        may: Quantities it may carry besides.
        needs_note: Whether it must carry words in its note.
    """

    name: str
    label: str
    needs: tuple[str, ...] = ()
    may: tuple[str, ...] = ()
    needs_note: bool = False


@cache
def kinds() -> dict[str, Kind]:
    """Every kind of entry by name.

    Raises:
        BadDefinition: A kind names a quantity that is not defined, or an unknown key.
    """
    text = (files(__package__) / "kinds.toml").read_text(encoding="utf-8")
    tables = tomllib.loads(text)
    anywhere = tuple(tables.pop("anywhere")["may"])
    known = definitions()
    book = {}
    for name, table in tables.items():
        if unknown := sorted(set(table) - {"label", "needs", "may", "needs_note"}):
            raise BadDefinition(f"kind {name}: unknown key {unknown[0]!r}")
        kind = Kind(
            name=name,
            label=table["label"],
            needs=tuple(table.get("needs", ())),
            may=(*table.get("may", ()), *anywhere),
            needs_note=table.get("needs_note", False),
        )
        if strange := [q for q in (*kind.needs, *kind.may) if q not in known]:
            raise BadDefinition(f"kind {name}: quantity {strange[0]!r} is not defined")
        book[name] = kind
    return book
