"""A company's own steps: a folder of TOML files that adds steps and rewords those of the book.

A table whose id the book knows rewords that step: only the keys given change, and its `lines` and
`jobs` say in which walks. Any other table is a new step, and `after` says behind which one it
comes; it takes the phase of that step, and is left out of walks that do not have it. What a hold
point is, who may release it and what is written down can be made stricter, never less so.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from fieldbook.small_file import read_small
from fieldbook.walk.definition.checking import check_step
from fieldbook.walk.definition.step_table import (
    LARGEST_FILE,
    check_type,
    name_of,
    read_step,
    read_tables,
    refuse,
)
from fieldbook.walk.definition.steps import LINES, WORKS, BadWalk, Step

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

_REWORDS = frozenset(
    {"title", "do", "source", "caution", "asks", "must", "known", "fixed", "origin", "release"}
    | {"checks", "minutes", "refuted"}
)
_ONLY_MORE = ("asks", "must", "checks")


def company_files(folder: Path) -> list[Path]:
    """A company's step files, in the order in which they are read: that of their names.

    Raises:
        BadWalk: The folder cannot be read.
    """
    try:
        if not folder.is_dir():
            raise BadWalk(f"{folder}: there is no such folder of steps")
        return sorted(folder.glob("*.toml"))
    except OSError as error:
        raise BadWalk(f"{folder}: cannot be read: {error.strerror}") from error


def with_company(own: Sequence[Step], company: Iterable[Path], line: str, work: str) -> list[Step]:
    """The steps of one walk with a company's changes.

    Args:
        own: Every step of the book's own.
        company: The company's files, in order.
        line: The drop line of the walk.
        work: The work of the walk.

    Raises:
        BadWalk: A file is wrong; every table is looked at, whatever the walk.
    """
    phases = {step.id: step.phase for step in own}
    added: set[str] = set()
    walk = [step for step in own if step.is_for(line, work)]
    for where, table in _tables(company):
        name = name_of(table, where)
        if name in phases and name not in added:
            _check_keys(table, where)
            _check_rewording([step for step in own if step.id == name], table, where)
            if line in table.get("lines", LINES) and work in table.get("jobs", WORKS):
                walk = [_reworded(s, table, where) if s.id == name else s for s in walk]
            continue
        step, after = _new_step(table, where, phases)
        phases[name] = step.phase
        added.add(name)
        if step.is_for(line, work):
            _insert(walk, step, after)
    return walk


def _tables(company: Iterable[Path]) -> Iterable[tuple[str, dict[str, Any]]]:
    for path in company:
        try:
            raw = read_small(path, LARGEST_FILE, links=True)
        except OSError as error:
            raise BadWalk(f"{path.name}: cannot be read: {error.strerror}") from error
        for table in read_tables(raw, path.name, keys=frozenset())["step"]:
            yield path.name, table


def _new_step(table: dict[str, Any], where: str, phases: dict[str, str]) -> tuple[Step, str]:
    name = name_of(table, where)
    after = table.get("after")
    if not isinstance(after, str) or after not in phases:
        known = f"; there is no step '{after}'" if isinstance(after, str) else ""
        new = "the book has no step of this id, and a new one" if after is None else "a new step"
        refuse(where, name, "after", f"{new} says which step it comes behind{known}")
    rest = {key: value for key, value in table.items() if key != "after"}
    step = read_step(rest, where, phases[after])
    check_step(step, where)
    return replace(step, company=True), after


def _insert(walk: list[Step], step: Step, after: str) -> None:
    places = [place for place, other in enumerate(walk) if other.id == after]
    if places:
        walk.insert(places[-1] + 1, step)


def _selects(table: dict[str, Any], step: Step) -> bool:
    """Whether a rewording means this variant of its step."""
    lines, works = table.get("lines", LINES), table.get("jobs", WORKS)
    for_line = any(line in step.lines for line in lines)
    return for_line and any(work in step.jobs for work in works)


def _check_keys(table: dict[str, Any], where: str) -> None:
    name = name_of(table, where)
    for key, value in table.items():
        if key not in _REWORDS | {"id", "lines", "jobs"}:
            refuse(where, name, key, "cannot be changed in a step of the book")
        check_type(key, value, where, name)


def _check_rewording(variants: Sequence[Step], table: dict[str, Any], where: str) -> None:
    """Try the rewording on every variant that it means, whatever walk is loaded."""
    chosen = [step for step in variants if _selects(table, step)]
    if not chosen:
        refuse(where, name_of(table, where), "lines", "and jobs leave no walk that has this step")
    for step in chosen:
        _reworded(step, table, where)


def _reworded(step: Step, table: dict[str, Any], where: str) -> Step:
    given = {key: value for key, value in table.items() if key in _REWORDS}
    base = {"id": step.id, "title": step.title, "do": step.do, "source": step.source}
    read = read_step(base | given, where, step.phase)
    changed = replace(step, **{key: getattr(read, key) for key in given})
    changed = replace(changed, refuted=step.refuted + read.refuted)
    check_step(changed, where)
    for key, problem in _less(step, changed):
        refuse(where, step.id, key, problem)
    return changed


def _less(step: Step, changed: Step) -> Iterator[tuple[str, str]]:
    """Each key by which `changed` asks for less than the step of the book does."""
    for key in _ONLY_MORE:
        if lost := set(getattr(step, key)) - set(getattr(changed, key)):
            yield key, f"leaves out '{min(lost)}', which cannot be taken away"
    if more := set(changed.release) - set(step.release):
        yield "release", f"lets '{min(more)}' release it, who may not by the book"
    for name, word in step.fixed.items():
        if changed.fixed.get(name) != word:
            yield "fixed", f"'{name}' stays '{word}'"
