"""The numbers a company wants called on every job: `emergency.toml` in the book's home."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from fieldbook.gear.item import BadGear
from fieldbook.gear.reading import refuse
from fieldbook.small_file import BadToml, read_small, read_toml

if TYPE_CHECKING:
    from pathlib import Path

_LONGEST = {"who": 40, "call": 60}
_MOST = 12
_LARGEST_FILE = 100_000


@dataclass(frozen=True, slots=True)
class Number:
    """Whom to call, and how.

    Attributes:
        who: A person, an office or a service.
        call: The number, or whatever else reaches them, such as a radio channel.
    """

    who: str
    call: str


def load_numbers(path: Path) -> tuple[Number, ...]:
    """The company's numbers in the order of the file; none where there is no such file.

    Raises:
        BadGear: The message names file, number and key.
    """
    try:
        raw = read_small(path, _LARGEST_FILE, links=True)
    except FileNotFoundError:
        return ()
    except OSError as error:
        raise BadGear(f"{path.name}: cannot be read: {error.strerror}") from error
    if len(raw) > _LARGEST_FILE:
        refuse(path.name, "", "", "larger than a file of numbers can be")
    try:
        tables = read_toml(raw)
    except BadToml as error:
        raise BadGear(f"{path.name}: {error}") from error
    for key in tables:
        if key != "number":
            refuse(path.name, "", key[:32], "unknown key; numbers are tables headed [[number]]")
    numbers = tables.get("number", [])
    if not isinstance(numbers, list) or not all(isinstance(table, dict) for table in numbers):
        refuse(path.name, "", "number", "numbers are tables headed [[number]]")
    if len(numbers) > _MOST:
        refuse(path.name, "", "number", f"more than {_MOST}: nobody reads that many aloud")
    return tuple(_number(table, path.name, place) for place, table in enumerate(numbers, 1))


def _number(table: dict[str, Any], where: str, place: int) -> Number:
    name = f"number {place}"
    for key in table:
        if key not in _LONGEST:
            refuse(where, name, key[:32], "unknown key")
    for key, longest in _LONGEST.items():
        text = table.get(key)
        if not isinstance(text, str) or not text.strip():
            refuse(where, name, key, "is missing, or is not text")
        if len(text) > longest:
            refuse(where, name, key, f"is longer than {longest} characters")
    return Number(table["who"].strip(), table["call"].strip())
