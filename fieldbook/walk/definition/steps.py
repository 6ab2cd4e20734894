"""A step of the walk, and the words that its data may use."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

from fieldbook.record.entry import Origin

if TYPE_CHECKING:
    from collections.abc import Mapping

    from fieldbook.walk.definition.hold_rules import HoldRule

PHASES = MappingProxyType(
    {
        "plan": "Plan",
        "arrive": "Arrive",
        "test": "Test",
        "ready": "Ready",
        "pull": "Pull",
        "inspect": "Inspect",
        "choose": "Choose",
        "set": "Set",
        "start_up": "Start up",
        "close": "Close",
    }
)
"""The phases in the order of the work, and what a screen calls them."""

ANY_TIME = "any_time"
"""Steps that belong to no phase: what can happen at any time, and what to do when it has."""

LINES = ("pvc", "steel", "hose")
WORKS = ("pull", "set", "pull and set", "check")
ROLES = ("crew lead", "tech", "helper", "office", "owner")
SIGNAL_WORDS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"""ANSI Z535: death or injury will, could; minor injury could; no injury, but damage."""

CHECKS = (
    "lift", "gauge", "draining", "pressure", "pull in service", "hose window", "gear", "depth",
    "supply", "amps", "windings", "insulation", "voltage drop",
    "setting", "tally plan", "specific capacity", "tank precharge", "pump run", "air line",
    "chlorine", "power lines", "wind",
)  # fmt: skip
"""Live checks that a step may wake, each of which the watch makes: a hold leans on them."""
REPEATS = ("joints", "footage", "pieces", "as needed")
HOLD_POINTS = range(1, 19)
_TWO_HOLDS = 7

LONGEST_TITLE = 30
LONGEST_DO = 150
LONGEST_CAUTION = 110
MOST_ASKS = 9


class BadWalk(ValueError):
    """The data of a walk is wrong; the message names file, step and key."""


@dataclass(frozen=True, slots=True)
class Caution:
    """What can hurt at a step.

    Attributes:
        word: The signal word of ANSI Z535.
        text: What can happen and how to keep clear of it.
    """

    word: str
    text: str


def _no_words() -> Mapping[str, str]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the walk.

    Attributes:
        id: Its name in entries, such as "pull.joint".
        phase: One of `PHASES`, or `ANY_TIME`.
        title: What a screen calls it.
        do: What to do, in a line or two.
        source: Where it comes from.
        caution: What can hurt, if anything.
        records: Kind of entry that saving its form makes; "done" when nothing is measured.
        asks: Quantities on the form, in the order of the work.
        must: Those that must be written, or be missing for a reason that is.
        fixed: Quantity -> word that the form starts with.
        known: Quantities that the form starts with as the job last said them; one that it does not
            ask, its entry says again by itself.
        origin: How its figures are known unless the crew says otherwise.
        repeat: Of what the form makes one entry after the other until the step is marked done;
            empty for a step that is done once.
        hold: Number of the hold point that it is; None when it is none.
        release: Roles that may release the hold.
        witness: Whether a second person must put initials beside the first.
        same_person: Step whose hold must have been released by the same person.
        refuted: What refutes its hold, besides what refutes every hold of its number.
        beside: Step that this one goes along with; it is not asked for until that one is done.
        every: Joints, or feet of hose, of the step it goes beside, after which it is due.
        adopts: Whether an entry of its kind that names no step counts for it.
        lines: Drop lines it is for.
        jobs: Works it is for.
        when: Condition under which it is part of the walk.
        checks: Live checks that it wakes.
        minutes: How long it usually takes.
        company: Whether a company added it to the steps of the book.
        turn: Its place among those that a job which records at once takes in turn, or among those
            that wait; 0 on a job that is planned first.
        waits: Whether such a job never asks it in turn: it is on the list for later.
        wanted: What the office asks of it: `must` of the whole walk.
        page: The page of ticks it is on; empty where it has a form of its own.
        tick: What its tick writes, besides that it is done.
    """

    id: str
    phase: str
    title: str
    do: str
    source: str
    caution: Caution | None = None
    records: str = "done"
    asks: tuple[str, ...] = ()
    must: tuple[str, ...] = ()
    fixed: Mapping[str, str] = field(default_factory=_no_words, hash=False)
    known: tuple[str, ...] = ()
    origin: Origin = Origin.MEASURED
    repeat: str = ""
    hold: int | None = None
    release: tuple[str, ...] = ()
    witness: bool = False
    same_person: str = ""
    refuted: tuple[HoldRule, ...] = ()
    beside: str = ""
    every: float | None = None
    adopts: bool = False
    lines: tuple[str, ...] = LINES
    jobs: tuple[str, ...] = WORKS
    when: str = "always"
    checks: tuple[str, ...] = ()
    minutes: float = 0.0
    company: bool = False
    turn: int = 0
    waits: bool = False
    wanted: tuple[str, ...] = ()
    page: str = ""
    tick: Mapping[str, str] = field(default_factory=_no_words, hash=False)

    def is_for(self, line: str, work: str) -> bool:
        """Whether it belongs to this drop line and work."""
        return line in self.lines and work in self.jobs

    @property
    def each_entry_is_the_yes(self) -> bool:
        """Whether saving an entry releases the hold for that entry, as at every joint (HP7)."""
        return self.hold is not None and bool(self.repeat)

    @property
    def each_entry_says(self) -> str:
        """What each such entry is the yes to."""
        return "lower hold carries" if self.hold == _TWO_HOLDS else "a good reading"
