"""The walk of a drop line and a work: the book's own steps, and a company's."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING

from fieldbook.walk.definition.checking import check_step
from fieldbook.walk.definition.company import company_files, with_company
from fieldbook.walk.definition.record_now import RECORD_NOW, recorded_now
from fieldbook.walk.definition.step_table import read_defaults, read_step, read_tables, refuse
from fieldbook.walk.definition.steps import ANY_TIME, LINES, PHASES, WORKS, BadWalk, Step
from fieldbook.walk.walk import Walk

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from fieldbook.record.job import Job


def load_for(job: Job, extra: Path | None) -> Walk:
    """The walk of `job`, as `load_leaving_out`, for its line and work and as it starts.

    Raises:
        BadWalk: Its log does not say which walk it is.
    """
    walk = load_leaving_out(job.text("job", "line"), job.text("job", "work"), extra)
    return as_started(walk, job.text("job", "start"))


def as_started(walk: Walk, start: str) -> Walk:
    """A whole walk as a job takes it that starts like this; a check moves no string and plans."""
    if start != RECORD_NOW or walk.work == "check":
        return walk
    return replace(walk, steps=recorded_now(walk.steps))


def load(line: str, work: str, extra: Path | None = None) -> Walk:
    """The whole walk of a job on `line` for `work`.

    Args:
        line: "pvc", "steel" or "hose".
        work: "pull", "set", "pull and set" or "check".
        extra: Folder of a company's own step files, if it has one.

    Raises:
        BadWalk: There is no such line or work, or a file of steps is wrong.
    """
    for word, known in ((line, LINES), (work, WORKS)):
        if word not in known:
            raise BadWalk(f"'{word[:32]}' is not one of: {', '.join(known)}")
    if extra is None:
        return _own_walk(line, work)
    return _with_files(line, work, company_files(extra))


def load_leaving_out(line: str, work: str, extra: Path | None) -> Walk:
    """As `load`, but without those of the company's files that are wrong; it says which and why.

    A crew is never left unable to record because of a file that the office wrote. No hold point of
    the book is weaker for it. What only the file left out asks, hold points among it, is not asked,
    which has to be said; it is open again on the same job once the file is mended.

    Raises:
        BadWalk: There is no such line or work.
    """
    own = load(line, work)
    if extra is None:
        return own
    try:
        return load(line, work, extra)
    except BadWalk as problem:
        return _without_what_is_wrong(own, extra, str(problem))


def _without_what_is_wrong(own: Walk, extra: Path, problem: str) -> Walk:
    try:
        written = company_files(extra)
    except BadWalk:
        return replace(own, left_out=(problem,))
    walk = own
    taken: list[Path] = []
    left_out: list[str] = []
    for path in written:
        try:
            walk = _with_files(own.line, own.work, [*taken, path])
        except BadWalk as found:
            left_out.append(str(found))
        else:
            taken.append(path)
    return replace(walk, left_out=tuple(left_out))


def _with_files(line: str, work: str, company: Sequence[Path]) -> Walk:
    steps = with_company(own_steps(), company, line, work)
    try:
        check_walk(steps, company[-1].name if company else "")
    except BadWalk:
        for count in range(1, len(company)):  # the first file after which it does not go together
            _with_files(line, work, company[:count])
        raise
    return Walk(line, work, tuple(steps))


@cache
def own_steps() -> tuple[Step, ...]:
    """Every step the book comes with, whatever its line and work, in the order of the files.

    Raises:
        BadWalk: A file of steps is wrong.
    """
    folder = files("fieldbook.walk") / "steps"
    found: list[Step] = []
    for phase in (*PHASES, ANY_TIME):
        where = f"{phase}.toml"
        found += read_phase((folder / where).read_bytes(), where, phase)
    return tuple(found)


def read_phase(text: bytes, where: str, phase: str) -> list[Step]:
    """The steps in one file of the book's own.

    Args:
        text: The file.
        where: What to call it in messages.
        phase: The phase it must be of.

    Raises:
        BadWalk: The message names file, step and key.
    """
    tables = read_tables(text, where, keys=frozenset({"phase", "default"}))
    if tables.get("phase") != phase:
        refuse(where, "", "phase", f"is '{phase}' in this file")
    default = read_defaults(tables.get("default", {}), where)
    steps = []
    for table in tables["step"]:
        # Who may release is said once a file, and means only the hold points in it.
        but = set() if "hold" in table else {"release"}
        shared = {key: value for key, value in default.items() if key not in but}
        step = read_step(shared | table, where, phase)
        check_step(step, where)
        if not step.id.startswith(f"{phase}."):
            refuse(where, step.id, "id", f"begins with '{phase}.'")
        steps.append(step)
    return steps


@cache
def _own_walk(line: str, work: str) -> Walk:
    steps = [step for step in own_steps() if step.is_for(line, work)]
    check_walk(steps, f"{line}, {work}")
    return Walk(line, work, tuple(steps))


def check_walk(steps: Sequence[Step], where: str) -> None:
    """Refuse steps that do not go together in one walk.

    Raises:
        BadWalk: An id is twice, or a step leans on one that is not there.
    """
    for name, times in Counter(step.id for step in steps).items():
        if times > 1:
            refuse(where, name, "id", "stands twice in one walk")
    by_id = {step.id: step for step in steps}
    for step in steps:
        main = by_id.get(step.beside)
        if step.beside and (main is None or not main.repeat):
            refuse(where, step.id, "beside", f"'{step.beside}' is no step here that repeats")
        held = by_id.get(step.same_person)
        if step.same_person and (held is None or held.hold is None):
            refuse(where, step.id, "same_person", f"'{step.same_person}' is no hold point here")
