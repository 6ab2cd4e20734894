"""Which facts a place asks for, on which datum, who files them and by when.

The book's own list is `localities.toml`. A company keeps its own files in the folder `localities`
of the book's home: a table whose name the book knows changes the keys given and no others; any
other table is a new place.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.plain import plain
from fieldbook.small_file import BadToml, read_small, read_toml

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

DATUMS = tuple(definition("datum").choices)
_MOST_DAYS = 3650
_LARGEST_FILE = 1_000_000


class BadLocality(ValueError):
    """The data of a place is wrong; the message names file, place and key."""


@dataclass(frozen=True, slots=True)
class Fact:
    """One fact that a record may ask for.

    Attributes:
        id: Its name in `localities.toml`.
        label: What the sheet calls it.
        sources: (kind, quantity) where a live entry says it; the first that does.
        where: Quantity -> word: only entries that say so.
        also: Further quantities of the same entry, given beside it.
        depth: Whether it is given below the datum that the place asks for.
        datum: The datum it is always given below; empty for that of the place.
        derived: Function in `derived.py` that works it out; empty when it is read.
        works: Works it belongs to; empty for all.
        lines: Drop lines it belongs to; empty for all.
    """

    id: str
    label: str
    sources: tuple[tuple[str, str], ...] = ()
    where: tuple[tuple[str, str], ...] = ()
    also: tuple[str, ...] = ()
    depth: bool = False
    datum: str = ""
    derived: str = ""
    works: tuple[str, ...] = ()
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Locality:
    """What one place asks for.

    Attributes:
        id: What `--locality` calls it.
        name: The place.
        source: The rule, and that its text is to be checked.
        facts: Ids of the facts, in the order of the record.
        files: Who files what with whom, in words.
        days: Days from the end of the work until it is due; None where nothing names them.
        datum: What depths are given below; empty for that of the job.
        also: What else the place asks for, in words.
        own: Whether the company changed or wrote it.
    """

    id: str
    name: str
    source: str
    facts: tuple[str, ...]
    files: str
    days: int | None = None
    datum: str = ""
    also: tuple[str, ...] = ()
    own: bool = False

    def due(self, finished: dt.date | None) -> dt.date | None:
        """The day to file by of work that was over on a day; None where that cannot be said."""
        if finished is None or self.days is None:
            return None
        try:
            return finished + dt.timedelta(days=self.days)
        except OverflowError:  # a clock that was far ahead: no calendar has the day
            return None


@cache
def facts() -> dict[str, Fact]:
    """Every fact by its id, in the order a record lists them."""
    text = (files(__package__) / "facts.toml").read_text(encoding="utf-8")
    return {name: _fact(name, table) for name, table in tomllib.loads(text).items()}


def _fact(name: str, table: dict[str, Any]) -> Fact:
    sources = tuple(
        (kind, word) for kind, _, word in (s.partition(".") for s in table.get("from", ()))
    )
    for kind, quantity in sources:
        assert quantity in (*kinds()[kind].needs, *kinds()[kind].may), f"{name}: {kind}.{quantity}"
    return Fact(
        id=name,
        label=table["label"],
        sources=sources,
        where=tuple(table.get("where", {}).items()),
        also=tuple(table.get("with", ())),
        depth=table.get("depth", False),
        datum=table.get("datum", ""),
        derived=table.get("derived", ""),
        works=tuple(table.get("works", ())),
        lines=tuple(table.get("lines", ())),
    )


def localities(company: Path | None = None) -> dict[str, Locality]:
    """Every place by its id, the company's own and changed ones too.

    Args:
        company: Folder of the company's files, read in the order of their names; None, or one
            that is not there, for the book's own list.

    Raises:
        BadLocality: A file is wrong.
    """
    own = files(__package__) / "localities.toml"
    found = _read(own.read_bytes(), "localities.toml", {}, is_own=False)
    if company is None or not company.is_dir():
        return found
    try:
        for path in sorted(company.glob("*.toml")):
            found = _read(
                read_small(path, _LARGEST_FILE, links=True), path.name, found, is_own=True
            )
    except OSError as error:
        raise BadLocality(f"{company}: cannot be read: {error.strerror}") from error
    return found


def place_named(name: str, company: Path | None = None) -> Locality:
    """The place of a name.

    Raises:
        BadLocality: There is none, or a file is wrong.
    """
    known = localities(company)
    if name not in known:
        raise BadLocality(f"no place '{plain(name[:40])}' is known; there are: {', '.join(known)}")
    return known[name]


def _read(
    text: bytes, where: str, known: Mapping[str, Locality], *, is_own: bool
) -> dict[str, Locality]:
    if len(text) > _LARGEST_FILE:
        raise BadLocality(f"{where}: larger than a file of places can be")
    try:
        tables = read_toml(text)
    except BadToml as error:
        raise BadLocality(f"{where}: {error}") from error
    found = dict(known)
    for name, table in tables.items():
        if not isinstance(table, dict):
            raise BadLocality(f"{where}: {name}: a place is a table headed [{name}]")
        for key, value in table.items():
            if problem := _problem(key, value):
                raise BadLocality(f"{where}: {name}: {key}: {problem}")
        found[name] = _locality(name, table, where, found.get(name), is_own=is_own)
    return found


def _locality(
    name: str, table: dict[str, Any], where: str, before: Locality | None, *, is_own: bool
) -> Locality:
    given: dict[str, Any] = {
        key: tuple(v) if isinstance(v, list) else v for key, v in table.items()
    }
    if before is not None:
        return replace(before, **given, own=is_own)
    for key in ("name", "source", "facts", "files"):
        if key not in given:
            raise BadLocality(f"{where}: {name}: {key}: is needed for a new place")
    return Locality(id=name, **given, own=is_own)


def _problem(key: str, value: object) -> str:
    """What is wrong with one key of a place; empty when nothing is."""
    check = _CHECKS.get(key)
    return check(value) if check is not None else "unknown key"


def _text(value: object) -> str:
    return "" if isinstance(value, str) and value.strip() else "is text that says something"


def _days(value: object) -> str:
    is_whole = isinstance(value, int) and not isinstance(value, bool)
    return "" if is_whole and value in range(1, _MOST_DAYS + 1) else f"is from 1 to {_MOST_DAYS}"


def _datum(value: object) -> str:
    return "" if value in DATUMS else f"is one of: {', '.join(DATUMS)}"


def _texts(value: object) -> str:
    all_text = isinstance(value, list) and all(isinstance(word, str) for word in value)
    return "" if all_text else "is a list of texts"


def _facts(value: object) -> str:
    if not isinstance(value, list) or _texts(value):
        return "is a list of texts"
    unknown = [word for word in value if word not in facts()]
    if unknown:
        return f"'{unknown[0][:40]}' is not one of: {', '.join(facts())}"
    return "" if value and len(set(value)) == len(value) else "names each fact once, one at least"


_CHECKS: dict[str, Callable[[object], str]] = {
    "name": _text, "source": _text, "files": _text, "days": _days, "datum": _datum,
    "facts": _facts, "also": _texts,
}  # fmt: skip
