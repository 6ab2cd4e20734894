"""The definition of a quantity, and the book of them all."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

WORDS = frozenset({"words", "choice", "date", "time of day", "file", "yes or no"})
PLAIN = frozenset({"number", "count"})
DANGERS = ("", "higher", "lower", "either", "none")


class BadDefinition(ValueError):
    """A definition file is wrong; the message names the quantity and the key."""


@dataclass(frozen=True, slots=True)
class Definition:
    """One quantity that can be written down.

    Attributes:
        name: Its key in entries, exports and `enter`.
        label: What a screen calls it.
        dimension: A section of units.toml, or `number`, `count`, `words`, `choice`, `date`,
            `time of day`, `file`, `yes or no`.
        unit: Unit understood when none is typed, US customary.
        metric: The same for a book kept in metric.
        counted_in: Unit that a plain number is meant in; it is shown, and never recorded.
        plausible: Lowest and highest number, in `unit`, that raises no question.
        at_least: The smallest number, in `unit`, that is not nonsense.
        above: The number, in `unit`, that every other than nonsense is more than.
        at_most: The largest number, in `unit`, that is not nonsense.
        choices: The words a choice may take.
        danger: Of a number that a check reads, where it gets dangerous: "higher" or "lower",
            "either" where that hangs on the rest, "none" where it only says which or in what
            order. Empty where no check reads it. Moving it there never makes a verdict better.
        record: Of a number that a step asks for and no check reads: what it is kept for.
        meaning: What is to be written, for help.
    """

    name: str
    label: str
    dimension: str
    unit: str = ""
    metric: str = ""
    counted_in: str = ""
    plausible: tuple[float, float] | None = None
    at_least: float | None = None
    above: float | None = None
    at_most: float | None = None
    choices: tuple[str, ...] = ()
    danger: str = ""
    record: str = ""
    meaning: str = ""

    @property
    def is_words(self) -> bool:
        """Whether the value is a word rather than a number."""
        return self.dimension in WORDS

    def unit_in(self, *, metric: bool) -> str:
        """The unit to show where none is typed."""
        return self.counted_in or (self.metric if metric else self.unit)


@cache
def units_of(dimension: str) -> dict[str, tuple[str, ...]]:
    """Each unit that measures `dimension`, with its other spellings; empty for words."""
    return {unit: tuple(also) for unit, also in _read("units.toml").get(dimension, {}).items()}


@cache
def definitions() -> dict[str, Definition]:
    """Every quantity by name.

    Raises:
        BadDefinition: The file does not hold what a definition needs.
    """
    return {name: _definition(name, table) for name, table in _read("definitions.toml").items()}


def definition(name: str) -> Definition:
    """The quantity called `name`.

    Raises:
        KeyError: There is none.
    """
    return definitions()[name]


def _definition(name: str, table: dict[str, Any]) -> Definition:
    dimension = table.get("dimension", "")
    if dimension not in WORDS | PLAIN and not units_of(dimension):
        raise BadDefinition(f"{name}: dimension {dimension!r} has no units")
    unit = table.get("unit", "")
    metric = table.get("metric", unit)
    for spelt in {unit, metric} - {""}:
        if spelt not in units_of(dimension):
            raise BadDefinition(f"{name}: unit {spelt!r} does not measure {dimension}")
    if table.get("counted_in") and dimension != "number":
        raise BadDefinition(f"{name}: only a plain number is counted in a unit not recorded")
    if (dimension == "choice") != bool(table.get("choices")):
        raise BadDefinition(f"{name}: a choice, and only a choice, lists choices")
    elsewhere = [key for key in ("above", "at_most") if table.get(key)]
    if elsewhere and len(units_of(dimension)) > 1:
        raise BadDefinition(f"{name}: {elsewhere[0]} other than zero needs a single unit")
    _check_danger(name, table)
    known = set(Definition.__dataclass_fields__)
    if unknown := sorted(set(table) - known):
        raise BadDefinition(f"{name}: unknown key {unknown[0]!r}")
    fields: dict[str, Any] = table | {"name": name, "metric": metric}
    for key in ("plausible", "choices"):
        if key in table:
            fields[key] = tuple(table[key])
    return Definition(**fields)


def _check_danger(name: str, table: dict[str, Any]) -> None:
    if table.get("danger", "") not in DANGERS:
        raise BadDefinition(f"{name}: danger is one of: {', '.join(DANGERS[1:])}")
    if table["dimension"] in WORDS and (table.get("danger") or table.get("record")):
        raise BadDefinition(f"{name}: danger and record belong to a number")


@cache
def _read(name: str) -> dict[str, dict[str, Any]]:
    return tomllib.loads((files(__package__) / name).read_text(encoding="utf-8"))
