"""How entries of older formats are read.

Files are never rewritten: entries are brought up to date as they are read, and new ones go to a
next file in the present format.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fieldbook.record.codec import BadEntry
from fieldbook.store.log.line import VERSION

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

UPGRADES: dict[int, Callable[[dict[str, Any]], dict[str, Any]]] = {}
"""Format -> what turns an entry document of it into one of the next. Format 1 is the first."""


def upgraded(
    document: dict[str, Any],
    version: int,
    *,
    upgrades: Mapping[int, Callable[[dict[str, Any]], dict[str, Any]]] | None = None,
    target: int = VERSION,
) -> dict[str, Any]:
    """An entry document brought from `version` to `target`.

    Raises:
        BadEntry: There is no way from that version.
    """
    steps = UPGRADES if upgrades is None else upgrades
    for step in range(version, target):
        if step not in steps:
            raise BadEntry(f"no way is known from format {step}")
        document = steps[step](document)
    return document
