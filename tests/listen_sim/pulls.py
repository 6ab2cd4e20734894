"""Pulls as crews write them down: entries of a real job, with a fault from some reading on."""

from __future__ import annotations

import datetime as dt
import random
from dataclasses import dataclass, field
from typing import Any

from fieldbook.quantities.admit import draft_from
from fieldbook.record.entry import Entry
from fieldbook.record.ids import new_id
from fieldbook.record.job import Job
from fieldbook.watch.listen.telling import Telling
from fieldbook.watch.watcher import Watcher
from tests.listen_sim import drawing
from tests.listen_sim.faults import CLEAN, Fault, Place, reading
from tests.listen_sim.strings import PUMP_FT, VALVE_FT, Line, World

_START = dt.datetime(2026, 5, 14, 8, 0, tzinfo=dt.timezone(dt.timedelta(hours=-5)))
AFTER = 3
"""Readings that a fault is given to be decided."""


@dataclass
class Pull:
    """One pull or set, as it is written down.

    Attributes:
        line: Its string.
        world: What is true of it.
        fault: What goes wrong.
        places: Where each reading was taken.
        begins: Index of the first reading under the fault.
        tellings: What the book said after each reading from there on, or after every one.
    """

    line: Line
    draw: random.Random
    world: World
    fault: Fault = CLEAN
    setting: bool = False
    places: list[Place] = field(default_factory=list)
    shown: list[float] = field(default_factory=list)
    caught: list[float] = field(default_factory=list)
    begins: int | None = None
    tellings: list[Telling] = field(default_factory=list)
    job: Job = field(default_factory=Job)
    minutes: float = 0.0
    out: float = 0.0
    count: int = 0
    drained: bool = False

    def __post_init__(self) -> None:
        self.quiet = self.draw.uniform(0.6, 1.0)
        for document in setup(self.line):
            self.write(document)
        self.watcher = Watcher(self.job)

    def write(self, document: dict[str, Any]) -> None:
        """Record one entry at the clock of the pull."""
        kind = document["kind"]
        values = {name: value for name, value in document.items() if name != "kind"}
        draft = draft_from({"kind": kind, "by": "QA", "values": values})
        time = _START + dt.timedelta(minutes=self.minutes)
        seq = self.job.last_seq + 1
        self.job.add(Entry(new_id(time), seq, time, "QA", "d-sim", kind, draft.values, draft.note))

    def read(self, raised: float = 0.0) -> int:
        """Read the gauge where the string stands."""
        place = Place(self.out, raised, self.minutes, self.drained, self.setting)
        jitter = self.draw.gauss(0.0, 0.15)
        fault = self.fault
        if fault.white[1] and fault.frozen is None:
            # What catches comes and goes: sometimes nothing, seldom twice the same.
            size = abs(fault.white[0]) + self.draw.gauss(0.0, fault.white[1])
            first = not self.places or self.fault.start == self.places[-1]
            caught = first or self.draw.random() < 0.75
            pull = max(size, 0.4 * abs(fault.white[0])) if caught else 0.0
            fault = fault._replace(white=(pull if fault.white[0] > 0.0 else -pull, 0.0))
        self.caught.append(fault.white[0])
        exact = reading(self.line, self.world, place, fault, jitter=jitter)
        noise = 0.0 if fault.frozen is not None else self.draw.gauss(
            0.0, self.quiet * self.line.error
        )  # fmt: skip
        step = self.line.shows
        self.places.append(place)
        self.shown.append(max(round((exact + noise) / step) * step, 0.0))
        return int(self.shown[-1])

    def tell(self) -> None:
        """Ask the book."""
        self.tellings.append(self.watcher.telling())

    def hold(self, raised: float) -> None:
        """A reading while the string hangs."""
        self.minutes += self.draw.uniform(0.5, 2.0)
        self.write({"kind": "load", "gauge_reading": self.read(raised), "raised": raised})

    def drain(self) -> None:
        """The crew drains the line, reading before and after; a fault may begin in between."""
        by = "plug and bar" if self.line.hose else "weep hole"
        before = self.read()
        self.minutes += self.draw.uniform(3.0, 6.0)
        self.drained = True
        if self.fault.name == CLEAN.name and self.wanted == "not drained":
            self.begin()
        after = self.read()
        self.write(
            {
                "kind": "drain",
                "drained_by": by,
                "load_before": before,
                "load_after": after,
                "air_drawn": "no" if self.wanted == "not drained" else "yes",
            }
        )

    wanted: str = ""

    def begin(self) -> None:
        """The fault begins, after the newest reading."""
        first = Place(self.out, 0.0, self.minutes, self.drained, self.setting)
        last = self.places[-1] if self.places else first
        if last.out != self.out:
            last = last._replace(out=self.out, raised=0.0)
        shown = self.shown[-1] if self.shown else None
        self.fault = drawing.fault(self.wanted, self.line, self.world, last, shown, self.draw)
        self.begins = len(self.places)

    def move(self, *, raised: float | None = None) -> None:
        """One joint or length of hose out, or in, with its reading."""
        self.minutes += self.draw.uniform(2.0, 5.0)
        self.count += 1
        line = self.line
        if line.hose:
            fed = self.count * line.joint_ft
            self.out = line.joints * line.joint_ft - fed if self.setting else fed
            entry: dict[str, Any] = {"kind": "footage", "footage": fed}
        else:
            entry = {"kind": "joint", "joint_number": self.count, "joint_length": line.joint_ft}
            if self.setting:
                self.out = line.end_of_joint(line.joints - self.count)
        entry["direction"] = "in" if self.setting else "out"
        entry["gauge_reading"] = self.read(raised or 0.0)
        if raised is not None and not line.hose:
            entry["raised"] = raised
        self.write(entry)
        if not line.hose and not self.setting:
            self.out = line.end_of_joint(self.count)


def setup(line: Line) -> list[dict[str, Any]]:
    """What the crew wrote before lifting."""
    found: list[dict[str, Any]] = [
        {"kind": "job", "job_number": line.key, "line": line.kind, "work": "pull"},
        {"kind": "well", "datum": "top of casing", "water_temperature": "52 F"},
        *line.rig,
        {"kind": "gauge", **line.gauge},
    ]
    runs = [line.upper_valve, line.joints - line.upper_valve] if line.upper_valve else [line.joints]
    for number, run in enumerate(runs):
        piece: dict[str, Any] = {"kind": "piece", "place": 2 * number + 1, **line.pipe}
        if line.hose:
            piece |= {"piece": "hose", "piece_length": line.joints * line.joint_ft}
        else:
            piece |= {"piece": "joint", "joint_count": run, "joint_length": line.joint_ft}
        valve = {"kind": "piece", "place": 2 * number + 2, "piece": "check valve",
                 "piece_length": VALVE_FT, "piece_weight": line.valve}  # fmt: skip
        found += [piece, valve]
    return [
        *found,
        {"kind": "cable", "cable_weight": line.cable},
        {"kind": "pump", "pump_weight": line.pump, "pump_length": PUMP_FT},
        {"kind": "level", "water_level": line.level, "level_state": "static"},
    ]


def clean_pull(line: Line, seed: int) -> Pull:
    """A whole pull, or one set in five, with nothing the matter; asked after every reading."""
    draw = random.Random(f"clean {line.key} {seed}")
    pull = Pull(line, draw, drawing.world(line, draw), setting=seed % 5 == 4)
    lifts = draw.random() < 0.5
    if not pull.setting:
        pull.hold(0.0)
        pull.tell()
        if draw.random() < (0.9 if line.hose else 0.4):
            pull.drain()
            pull.tell()
    while pull.count < line.joints - 1:
        if lifts and not line.hose:
            pull.hold(0.0)
            pull.tell()
            pull.move(raised=None if pull.setting else round(line.joint_ft - draw.random(), 1))
        else:
            pull.move()
        pull.tell()
    return pull


def faulty_pull(name: str, line: Line, seed: int) -> Pull:
    """A pull in which `name` begins after some good readings; asked at each reading from then."""
    draw = random.Random(f"{name} {line.key} {seed}")
    setting = name in drawing.WHEN_SETTING
    pull = Pull(line, draw, drawing.world(line, draw), setting=setting)
    pull.wanted = name
    lifts = draw.random() < 0.5 and not line.hose
    good = draw.randint(3, 8)
    if name in drawing.FROM_THE_START or (name == "gauge zero off" and draw.random() < 0.5):
        pull.begin()
        good = 0
    elif not setting:
        pull.hold(0.0)
        pull.hold(0.5)
        if drawing.needs_drained(name, draw):
            pull.drain()
    while pull.begins is None and len(pull.places) < good:
        _next(pull, lifts=lifts)
    if pull.begins is None:
        pull.begin()
    assert pull.begins is not None
    for _ in range(len(pull.places) - pull.begins):
        pull.tell()
    same_place = pull.fault.slope or name in ("breaking out", *drawing.WHEN_SETTING)
    for step in range(AFTER + 1):
        if len(pull.places) - pull.begins >= AFTER:
            break
        if same_place:
            start = pull.fault.start.raised if pull.fault.start is not None else 0.0
            pull.hold(
                round(start + (step + 1) * drawing.travel(line), 2) if pull.fault.slope else 0.0
            )
        else:
            _next(pull, lifts=lifts)
        pull.tell()
    return pull


def _next(pull: Pull, *, lifts: bool) -> None:
    """The next reading: by joint, or twice in each lift."""
    line = pull.line
    if lifts and not pull.setting:
        if pull.places and pull.places[-1].out == pull.out and pull.places[-1].raised < 1.0:
            pull.move(raised=round(line.joint_ft - pull.draw.random(), 1))
        else:
            pull.hold(0.0)
    else:
        pull.move()
