"""One table of a step file, read into a `Step`: its keys and their types."""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NoReturn, TypeGuard

from fieldbook.record.entry import Origin
from fieldbook.small_file import BadToml, read_toml
from fieldbook.walk.definition.hold_rules import read_rule
from fieldbook.walk.definition.steps import BadWalk, Caution, Step

if TYPE_CHECKING:
    from collections.abc import Mapping

_TEXTS = frozenset(
    {"id", "title", "do", "source", "records", "origin", "repeat", "same_person", "beside", "when"}
)
_LISTS = frozenset({"asks", "must", "known", "release", "lines", "jobs", "checks"})
_FLAGS = frozenset({"witness", "adopts"})
_NUMBERS = frozenset({"every", "minutes"})
_NEEDED = ("id", "title", "do", "source")
_DEFAULTS = frozenset({"lines", "jobs", "when", "release", "source"})
LARGEST_FILE = 1_000_000


def refuse(where: str, step: str, key: str, problem: str) -> NoReturn:
    """Refuse the data of a walk, naming file, step and key."""
    raise BadWalk(": ".join(part for part in (where, step, key, problem) if part))


def read_tables(text: bytes, where: str, *, keys: frozenset[str]) -> dict[str, Any]:
    """The tables of one file: `keys` at the top, and its steps.

    Args:
        text: The file.
        where: What to call it in messages.
        keys: Keys that may stand beside `step`.

    Raises:
        BadWalk: It is not TOML, or holds other keys.
    """
    if len(text) > LARGEST_FILE:
        refuse(where, "", "", "larger than a file of steps can be")
    try:
        tables = read_toml(text)
    except BadToml as error:
        raise BadWalk(f"{where}: {error}") from error
    for key in tables:
        if key not in keys | {"step"}:
            refuse(where, "", key, "unknown key")
    steps = tables.get("step", [])
    if not isinstance(steps, list) or not all(isinstance(table, dict) for table in steps):
        refuse(where, "", "step", "steps are tables headed [[step]]")
    return {**tables, "step": steps}


def read_defaults(table: object, where: str) -> dict[str, Any]:
    """What every step of a file has unless it says otherwise, checked like a step's own keys."""
    if not isinstance(table, dict):
        refuse(where, "", "default", "is a table headed [default]")
    for key, value in table.items():
        if key not in _DEFAULTS:
            refuse(where, "default", key, "unknown key")
        check_type(key, value, where, "default")
    return table


def read_step(table: Mapping[str, Any], where: str, phase: str) -> Step:
    """The step that a table describes; `checking.check_step` then looks at what it says.

    Raises:
        BadWalk: A key is missing, unknown or of the wrong type.
    """
    name = name_of(table, where)
    for key in _NEEDED:
        if key not in table:
            refuse(where, name, key, "is missing")
    for key, value in table.items():
        check_type(key, value, where, name)
    fields: dict[str, Any] = {k: tuple(v) if isinstance(v, list) else v for k, v in table.items()}
    fields |= {"phase": phase, **_made(table, where, name)}
    return Step(**fields)


def name_of(table: Mapping[str, Any], where: str) -> str:
    """The id of a step's table, for messages.

    Raises:
        BadWalk: It has none.
    """
    name = table.get("id")
    if not isinstance(name, str) or not name:
        refuse(where, str(table.get("title", "a step"))[:40], "id", "is missing")
    return name


def _made(table: Mapping[str, Any], where: str, name: str) -> dict[str, Any]:
    """The fields that are not simply what is in the table."""
    made: dict[str, Any] = {}
    if "caution" in table:
        made["caution"] = Caution(table["caution"]["word"], table["caution"]["text"])
    if "fixed" in table:
        made["fixed"] = MappingProxyType(dict(table["fixed"]))
    if "origin" in table:
        made["origin"] = _origin(table["origin"], where, name)
    if "refuted" in table:
        try:
            made["refuted"] = tuple(read_rule(rule) for rule in table["refuted"])
        except ValueError as problem:
            refuse(where, name, "refuted", str(problem))
    return made


def _origin(word: str, where: str, name: str) -> Origin:
    try:
        return Origin(word)
    except ValueError:
        refuse(where, name, "origin", f"is one of: {', '.join(Origin)}")


def check_type(key: str, value: object, where: str, name: str) -> None:
    """Refuse a value that is not of the type its key takes.

    Raises:
        BadWalk: The key is unknown or the type wrong.
    """
    if key in _TEXTS:
        fits, takes = isinstance(value, str), "is text"
    elif key in _LISTS:
        fits, takes = _is_words(value), "is a list of words"
    elif key in _FLAGS:
        fits, takes = isinstance(value, bool), "is true or false"
    elif key in _NUMBERS:
        fits, takes = _is_number(value), "is a number, 0 or more"
    elif key == "hold":
        fits, takes = isinstance(value, int) and not isinstance(value, bool), "is a whole number"
    elif key == "caution":
        fits = _is_table(value) and set(value) == {"word", "text"}
        takes = "is a table of word and text"
    elif key == "refuted":
        fits = isinstance(value, list) and all(isinstance(rule, dict) for rule in value)
        takes = "is a list of tables"
    elif key == "fixed":
        fits, takes = _is_table(value), "is a table of quantity and word"
    else:
        fits, takes = False, "unknown key"
    if not fits:
        refuse(where, name, key, takes)


def _is_words(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(word, str) for word in value)


def _is_table(value: object) -> TypeGuard[dict[str, str]]:
    return isinstance(value, dict) and all(isinstance(word, str) for word in value.values())


def _is_number(value: object) -> bool:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    return math.isfinite(value) and value >= 0
