"""A job written entry by entry, and walks made of a few steps."""

from __future__ import annotations

from typing import Any

from fieldbook.record.entry import Entry
from fieldbook.record.job import Job
from fieldbook.walk.definition.loading import check_walk, read_phase
from fieldbook.walk.walk import Walk
from tests.watch.jobs import entry


class Log:
    """A job that grows."""

    def __init__(self) -> None:
        self.job = Job()

    def write(
        self, kind: str, *, by: str = "QA", note: str = "", strikes: str = "", **values: Any
    ) -> Entry:
        document: dict[str, Any] = {"kind": kind, "by": by, "values": values, "note": note}
        if strikes:
            document["strikes"] = strikes
        made = entry(document, self.job.last_seq + 1)
        self.job.add(made)
        return made

    def strike(self, struck: Entry) -> Entry:
        return self.write("strike", strikes=struck.id, reason="by mistake")


def walk_of(**phases: str) -> Walk:
    """A walk for steel, pull and set, from the text of step files, phase by phase."""
    steps = []
    for phase, text in phases.items():
        file = f'phase = "{phase}"\n{text}'
        steps += read_phase(file.encode(), f"{phase}.toml", phase)
    check_walk(steps, "test")
    return Walk("steel", "pull and set", tuple(steps))


def step(name: str, more: str = "") -> str:
    """The text of one step of a file."""
    return f'[[step]]\nid = "{name}"\ntitle = "T"\ndo = "Do it."\nsource = "none"\n{more}\n'
