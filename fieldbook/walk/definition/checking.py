"""What a step says, held against the quantities, the kinds of entry and the words of a walk."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import Kind, kinds
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.walk.definition.conditions import APART, IN_A_PHASE
from fieldbook.walk.definition.hold_rules import problems as problems_of_rule
from fieldbook.walk.definition.step_table import refuse
from fieldbook.walk.definition.steps import (
    ANY_TIME,
    CHECKS,
    HOLD_POINTS,
    LINES,
    LONGEST_CAUTION,
    LONGEST_DO,
    LONGEST_TITLE,
    MOST_ASKS,
    REPEATS,
    ROLES,
    SIGNAL_WORDS,
    WORKS,
    Step,
)

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

_ID = re.compile(r"[a-z][a-z0-9_]*\.[a-z][a-z0-9_]*")
_OF_THE_WALK = frozenset({"hold", "passed_over", "strike"})

_Problem = tuple[str, str]
"""The key, and what is wrong with it."""


def check_step(step: Step, where: str) -> None:
    """Refuse a step that could not be walked.

    Raises:
        BadWalk: The message names file, step and key.
    """
    for key, problem in _problems(step):
        refuse(where, step.id, key, problem)


def _problems(step: Step) -> Iterator[_Problem]:
    if not _ID.fullmatch(step.id):
        yield "id", "is two words of small letters, digits and _ with a point between them"
    yield from _texts(step)
    yield from _words(step)
    kind = kinds().get(step.records)
    if kind is None or kind.name in _OF_THE_WALK:
        yield "records", f"'{step.records}' is not a kind of entry that a form makes"
    else:
        yield from _form(step, kind)
        yield from _fixed(step, kind)
    yield from _hold(step)
    if step.every is not None and not (step.beside and step.every > 0):
        yield "every", "is more than 0, and belongs to a step that goes beside another"
    for key in ("adopts", "repeat"):
        if getattr(step, key) and step.records == "done":
            yield key, "belongs to a step that records something"


def _texts(step: Step) -> Iterator[_Problem]:
    texts = [("title", step.title, LONGEST_TITLE), ("do", step.do, LONGEST_DO)]
    texts.append(("source", step.source, LONGEST_DO))
    if step.caution is not None:
        texts.append(("caution", step.caution.text, LONGEST_CAUTION))
    for key, text, longest in texts:
        if not text.strip():
            yield key, "is empty"
        if len(text) > longest:
            yield key, f"has {len(text)} characters, {longest} at most"
        if not text.isprintable():
            yield key, "holds characters that cannot be shown"


def _words(step: Step) -> Iterator[_Problem]:
    when = APART if step.phase == ANY_TIME else IN_A_PHASE
    lists: list[tuple[str, Sequence[str], Collection[str]]] = [
        ("lines", step.lines, LINES),
        ("jobs", step.jobs, WORKS),
        ("release", step.release, ROLES),
        ("checks", step.checks, CHECKS),
        ("when", (step.when,), when),
        ("repeat", (step.repeat,) if step.repeat else (), REPEATS),
        ("caution", (step.caution.word,) if step.caution else (), SIGNAL_WORDS),
    ]
    for key, words, known in lists:
        for word in words:
            if word not in known:
                yield key, f"'{word}' is not one of: {', '.join(known)}"
    for key, words in (("lines", step.lines), ("jobs", step.jobs)):
        if not words:
            yield key, "is empty"


def _form(step: Step, kind: Kind) -> Iterator[_Problem]:
    if len(step.asks) > MOST_ASKS:
        yield "asks", f"has {len(step.asks)} quantities, {MOST_ASKS} at most"
    if len(set(step.asks)) < len(step.asks):
        yield "asks", "names a quantity twice"
    belong = {*kind.needs, *kind.may}
    for key, names in (("asks", step.asks), ("fixed", tuple(step.fixed)), ("known", step.known)):
        for name in (name for name in names if name not in belong):
            yield key, f"'{name}' does not belong to '{kind.name}'"
    for name in (name for name in step.must if name not in step.asks):
        yield "must", f"'{name}' is not among what it asks"
    said = {"step", *step.asks, *step.fixed, *step.known}
    for name in kind.needs:
        if name not in said:
            yield "asks", f"lacks '{name}', which '{kind.name}' needs"


def _fixed(step: Step, kind: Kind) -> Iterator[_Problem]:
    for name, word in step.fixed.items():
        if name in kind.needs or name in kind.may:
            try:
                parse(word, definition(name))
            except NotUnderstood as problem:
                yield "fixed", f"'{name}': {problem}"


def _hold(step: Step) -> Iterator[_Problem]:
    if step.hold is None:
        for key in ("release", "witness", "same_person", "refuted"):
            if getattr(step, key):
                yield key, "belongs to a hold point"
        return
    if step.hold not in HOLD_POINTS:
        yield "hold", f"hold points run from {HOLD_POINTS[0]} to {HOLD_POINTS[-1]}"
    if not step.repeat and not step.release:
        yield "release", "a hold point names the roles that may release it"
    if step.when == "any time":
        yield "hold", "a hold point has its turn"
    for rule in step.refuted:
        for problem in problems_of_rule(rule):
            yield "refuted", problem
