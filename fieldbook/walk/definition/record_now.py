"""The walk of a job that records at once: few steps in turn, pages of ticks, and a list for later.

It is made from the steps of the whole walk, so that everything asked there can still be opened.
What is taken in turn, and what of it stays a hold point, is data: `record_now.toml`.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field, replace
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from fieldbook.walk.definition.steps import ANY_TIME, Step

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

PLAN_FIRST, RECORD_NOW = "plan first", "record now"
STARTS = (PLAN_FIRST, RECORD_NOW)
"""How a job starts; one that does not say asks the whole plan first."""


NO_FAULT = "no fault seen"
"""What a tick on the page of the inspection writes as the finding."""


@dataclass(frozen=True, slots=True)
class Turn:
    """The place of one step in the walk of a job that records at once.

    Attributes:
        number: Its place, from 1.
        stays_hold: Whether a hold point stays one.
        page: The page of ticks it is on; empty for a step with a form of its own.
        says: What its tick writes, besides that it is done.
        asks: What its form asks before all else.
        must: What of its form it cannot go on without.
        once: Whether one entry is enough of a step that repeats.
    """

    number: int
    stays_hold: bool = False
    page: str = ""
    says: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    asks: tuple[str, ...] = ()
    must: tuple[str, ...] = ()
    once: bool = False


@cache
def turns() -> Mapping[str, Turn]:
    """Step id -> its place; steps that are not in it wait on the list."""
    found = {}
    for number, table in enumerate(_tables()["turn"], 1):
        names = table.get("ticks") or [table.get("hold") or table["step"]]
        turn = Turn(
            number,
            stays_hold="hold" in table,
            page=table.get("page", ""),
            says=MappingProxyType(dict(table.get("says", {}))),
            asks=tuple(table.get("asks", ())),
            must=tuple(table.get("must", ())),
            once=table.get("once", False),
        )
        found.update(dict.fromkeys(names, turn))
    return MappingProxyType(found)


@cache
def wanted() -> tuple[str, ...]:
    """The steps that wait and that the office asks for, most wanted first."""
    return tuple(_tables()["later"]["wanted"])


@cache
def _tables() -> dict[str, Any]:
    text = (files(__package__) / "record_now.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def recorded_now(steps: Sequence[Step]) -> tuple[Step, ...]:
    """The steps of a whole walk as a job that records at once takes them, in the same order.

    A company's own hold point stays one, at its place: a company's rule is not ours to loosen.
    """
    found: list[Step] = []
    number = 0
    for step in steps:
        turn = turns().get(step.id)
        number = turn.number if turn is not None else number
        if turn is not None:
            found.append(_in_turn(step, turn))
        elif step.phase == ANY_TIME or (step.company and step.hold is not None):
            found.append(replace(step, turn=number))
        else:
            found.append(_waiting(step))
    return tuple(found)


def _in_turn(step: Step, turn: Turn) -> Step:
    first = tuple(name for name in turn.asks if name in step.asks)
    asks = (*first, *(name for name in step.asks if name not in first))
    must = tuple(name for name in step.must if name in turn.must)
    taken = replace(step, turn=turn.number, asks=asks, must=must, wanted=step.must)
    if turn.page:
        says = {name: word for name, word in turn.says.items() if name in step.asks}
        taken = replace(taken, page=turn.page, tick=MappingProxyType(says))
    if turn.page or turn.once:
        taken = replace(taken, repeat="")
    return taken if turn.stays_hold else _no_hold(taken)


def _waiting(step: Step) -> Step:
    place = wanted().index(step.id) if step.id in wanted() else len(wanted())
    return _no_hold(replace(step, waits=True, turn=place, must=(), wanted=step.must))


def _no_hold(step: Step) -> Step:
    return replace(step, hold=None, release=(), witness=False, same_person="", refuted=())
