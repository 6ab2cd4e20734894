"""One file of the library, read into items; every figure passes the gate that entries pass."""

from __future__ import annotations

import datetime as dt
import re
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, NoReturn

from fieldbook.gear.item import KINDS, OF_THE_JOB, BadGear, Item, names_in_gear
from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.quantities.dates import DATES
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.quantities.units import show_unit
from fieldbook.record.entry import Origin
from fieldbook.small_file import BadToml, read_toml

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.record.entry import Value

LONGEST = {"id": 40, "title": 40, "source": 200, "notes": 400}
_NEEDED = ("id", "title", "kind", "origin", "source")
_KNOWN = frozenset({*_NEEDED, "notes", "retired", "values", *DATES})
_ID = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
LARGEST_FILE = 1_000_000
_BY = "gear"


def refuse(where: str, item: str, key: str, problem: str) -> NoReturn:
    """Refuse the library, naming file, item and key."""
    raise BadGear(": ".join(part for part in (where, item, key, problem) if part))


def read_items(raw: bytes, where: str) -> list[Item]:
    """The items in one file.

    Args:
        raw: The file.
        where: What to call it in messages.

    Raises:
        BadGear: The message names file, item and key.
    """
    if len(raw) > LARGEST_FILE:
        refuse(where, "", "", "larger than a file of gear can be")
    try:
        tables = read_toml(raw)
    except BadToml as error:
        raise BadGear(f"{where}: {error}") from error
    for key in tables:
        if key != "item":
            refuse(where, "", key[:32], "unknown key; items are tables headed [[item]]")
    items = tables.get("item", [])
    if not isinstance(items, list) or not all(isinstance(table, dict) for table in items):
        refuse(where, "", "item", "items are tables headed [[item]]")
    return [_item(table, where) for table in items]


def _item(table: dict[str, Any], where: str) -> Item:
    name = _id(table, where)
    for key in table:
        if key not in _KNOWN:
            refuse(where, name, key[:32], "unknown key; figures stand under [item.values]")
    texts = {key: _text(table, key, where, name) for key in LONGEST}
    kind = _one_of("kind", table.get("kind"), KINDS, where, name)
    origin = Origin(_one_of("origin", table.get("origin"), tuple(Origin), where, name))
    retired = table.get("retired", False)
    if not isinstance(retired, bool):
        refuse(where, name, "retired", "is true or false")
    figures = table.get("values", {})
    if not isinstance(figures, dict) or not figures:
        refuse(where, name, "values", "is a table of one figure or more, headed [item.values]")
    values = _values(kind, origin, figures, where, name)
    dates = {key: _date(table[key], key, where, name) for key in DATES if key in table}
    _check_dates(kind, dates, where, name)
    return Item(
        **texts,
        kind=kind,
        origin=origin,
        values=MappingProxyType(values),
        dates=MappingProxyType(dates),
        retired=retired,
        file=where,
    )


def _id(table: dict[str, Any], where: str) -> str:
    name = table.get("id")
    if not isinstance(name, str) or not name:
        refuse(where, str(table.get("title", "an item"))[:40], "id", "is missing")
    if len(name) > LONGEST["id"] or not _ID.fullmatch(name):
        refuse(where, name[:40], "id", "is small letters, digits and single dashes, 40 at most")
    return name


def _text(table: dict[str, Any], key: str, where: str, name: str) -> str:
    text = table.get(key, "")
    if not isinstance(text, str):
        refuse(where, name, key, "is text")
    if key in _NEEDED and not text.strip():
        refuse(where, name, key, "is missing")
    if len(text) > LONGEST[key]:
        refuse(where, name, key, f"is longer than {LONGEST[key]} characters")
    return text.strip()


def _one_of(key: str, given: object, known: tuple[str, ...], where: str, name: str) -> str:
    if not isinstance(given, str) or given not in known:
        refuse(where, name, key, f"is one of: {', '.join(known)}")
    return given


def _values(
    kind: str, origin: Origin, figures: Mapping[str, Any], where: str, name: str
) -> dict[str, Value]:
    known = names_in_gear(kind)
    given: dict[str, Any] = {}
    for key, figure in figures.items():
        if key in DATES:
            refuse(where, name, key, "is a date: it stands above, beside id and title")
        if key in OF_THE_JOB:
            refuse(where, name, key, "is written on each job and not kept here")
        if key not in known:
            refuse(where, name, key[:32], f"does not belong to '{kind}'")
        given[key] = figure if isinstance(figure, dict) else {"value": figure}
        given[key].setdefault("origin", str(origin))
    values = {key: _admitted(kind, key, figure, where, name) for key, figure in given.items()}
    lacking = [n for n in kinds()[kind].needs if n not in OF_THE_JOB and n not in values]
    if lacking:
        refuse(where, name, lacking[0], "is missing")
    return values


_ANY = {"place": 1, "piece": "joint", "stop_load": "1 lbf"}
"""What takes the place of the rest that a kind needs while one figure alone is checked."""


def _admitted(kind: str, key: str, figure: object, where: str, name: str) -> Value:
    rest = {n: _ANY[n] for n in kinds()[kind].needs if n != key}
    try:
        draft = draft_from({"kind": kind, "by": _BY, "values": rest | {key: figure}})
    except Refused as problem:
        raise BadGear(f"{where}: {name}: {key}: {problem}") from problem
    value = draft.values[key]
    if _unit_is_guessed(key, value):
        unit = show_unit(value.unit)
        refuse(where, name, key, f"has no unit: write it as text, such as '{value.text} {unit}'")
    return value


def _unit_is_guessed(key: str, value: Value) -> bool:
    """Whether the unit was left out where a metric book would understand another one."""
    known = definition(key)
    if value.number is None or known.unit == known.metric:
        return False
    return parse(value.text, known, metric=True).unit != value.unit


def _date(given: object, key: str, where: str, name: str) -> str:
    text = given.isoformat() if type(given) is dt.date else given
    if not isinstance(text, str):
        refuse(where, name, key, "is a date such as 2026-05-14")
    try:
        return parse(text, definition(key)).text
    except NotUnderstood as problem:
        raise BadGear(f"{where}: {name}: {key}: {problem}") from problem


def _check_dates(kind: str, dates: Mapping[str, str], where: str, name: str) -> None:
    known = names_in_gear(kind)
    for key in dates:
        if key not in known:
            refuse(where, name, key, f"does not belong to '{kind}'")
    for done, due in (DATES[:2], DATES[2:]):
        if dates.get(due, "9999") < dates.get(done, ""):
            refuse(where, name, due, f"is before {done}")
