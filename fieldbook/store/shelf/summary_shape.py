"""Whether a line of the index is a summary that everything which reads one can use.

Its checksum says only that the line is what somebody wrote. One of another shape, from another
program or a hand, is taken for none, and the job is read again from its logs.
"""

from __future__ import annotations

import datetime as dt
import math
from typing import TYPE_CHECKING, Any, TypeGuard

from fieldbook.quantities.admit import value_problem
from fieldbook.record.entry import Value
from fieldbook.record.promised import KINDS
from fieldbook.store.shelf.summary import HISTORY, TELLING

if TYPE_CHECKING:
    from fieldbook.store.shelf.summary import Summary

_WORDS = (
    "folder", "job", "number", "title", "owner", "well", "well_id", "site", "line", "work",
    "begun", "saved", "stands", "datum", "out_on", "finished",
)  # fmt: skip
_LISTS = ("pumps", "findings", "causes")
_WAIT = {"id", "kind", "due", "words", "by", "told"}
_PROBLEM = {"file": str, "line": int, "words": str, "damage": bool}
_OF_ALL = {"kind", "time"}
_KEYS = frozenset(
    (*_WORDS, *_LISTS, "begun_at", "at", "sealed", "entries", "problems", "history", "waits",
     "seen", "stamp", "basis", "words")
)  # fmt: skip


def is_summary(document: object) -> TypeGuard[Summary]:
    """Whether `document` is a summary as `summarize` makes them."""
    return (
        isinstance(document, dict)
        and document.keys() <= _KEYS
        and all(type(document.get(name)) is str for name in _WORDS)
        and all(type(document.get(name, "")) is str for name in ("basis", "words"))
        and _is_folder(document["folder"])
        and all(_is_words(document.get(name)) for name in _LISTS)
        and all(_is_time(document[name]) for name in ("begun", "saved"))
        and all(_is_day(document[name]) for name in ("out_on", "finished"))
        and all(_is_number(document.get(name)) for name in ("begun_at", "at"))
        and type(document.get("sealed")) is bool
        and type(document.get("entries")) is int
        and _all(document.get("problems"), _is_problem)
        and _all(document.get("history"), _is_history)
        and _all(document.get("waits"), _is_wait)
        and _is_counts(document.get("seen"))
        and (document["begun"] != "" or not (document["well"] or document["well_id"]))
    )


def _all(found: object, is_one: Any) -> bool:  # noqa: ANN401 - any of the checks below
    return isinstance(found, list) and all(isinstance(one, dict) and is_one(one) for one in found)


def _is_folder(name: str) -> bool:
    """Whether it names a folder on the shelf and no other place."""
    return name not in ("", ".", "..") and not {"/", "\\", "\0"} & set(name)


def _is_words(found: object) -> bool:
    return isinstance(found, list) and all(type(word) is str for word in found)


def _is_number(found: object) -> bool:
    return type(found) in (int, float) and abs(found) < math.inf  # type: ignore[arg-type] # a number


def _is_time(text: str) -> bool:
    try:
        return text == "" or dt.datetime.fromisoformat(text).tzinfo is not None
    except ValueError:
        return False


def _is_day(text: str) -> bool:
    try:
        return text == "" or dt.date.fromisoformat(text) is not None
    except ValueError:
        return False


def _is_problem(problem: dict[str, Any]) -> bool:
    return problem.keys() == _PROBLEM.keys() and all(
        type(problem[name]) is kind for name, kind in _PROBLEM.items()
    )


def _is_history(entry: dict[str, Any]) -> bool:
    kind, figures = entry.get("kind"), entry.keys() - _OF_ALL
    return (
        type(kind) is str
        and kind in HISTORY
        and type(entry.get("time")) is str
        and entry["time"] != ""
        and _is_time(entry["time"])
        and figures <= set(HISTORY[kind])
        and not figures.isdisjoint(TELLING)
        and all(_is_figure(kind, name, entry[name]) for name in figures)
        and _is_day(entry.get("set_on", ""))
    )


def _is_figure(kind: str, name: str, figure: object) -> bool:
    """Whether an entry of that kind may say it, by the rules by which one is read from a log."""
    if type(figure) is str:
        return not value_problem(kind, name, Value(figure))
    return (
        isinstance(figure, list)
        and len(figure) == 2
        and _is_number(figure[0])
        and type(figure[1]) is str
        and not value_problem(kind, name, Value("", figure[0], figure[1]))
    )


def _is_wait(wait: dict[str, Any]) -> bool:
    return (
        wait.keys() == _WAIT
        and all(type(word) is str for word in wait.values())
        and wait["kind"] in KINDS
        and wait["told"] != ""
        and _is_time(wait["told"])
    )


def _is_counts(seen: object) -> bool:
    return isinstance(seen, dict) and all(
        isinstance(counts, dict) and all(type(count) is int for count in counts.values())
        for counts in seen.values()
    )
