"""Binds a job to its listener, and hears only what is new since it was last asked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.watch.listen.listener import Listener
from fieldbook.watch.listen.scene import Scene
from fieldbook.watch.listen.sighting import Sighting, heard, sightings
from fieldbook.watch.listen.telling import Telling, telling

if TYPE_CHECKING:
    from fieldbook.record.job import Job
    from fieldbook.watch.gauge.instrument import Instrument
    from fieldbook.watch.state.position import Moment
    from fieldbook.watch.state.rigging import Rigging


class Hearing:
    """The readings of a job, heard one after another."""

    def __init__(self, job: Job) -> None:
        """Hear `job`, nothing so far."""
        self._job = job
        self._key: object = None
        self._heard: list[str] = []
        self._scene: Scene | None = None
        self._listener: Listener | None = None
        self._last: Sighting | None = None

    def tell(
        self, now: Moment, tool: Instrument | None, rig: Rigging, missing: tuple[str, ...]
    ) -> Telling:
        """What the readings so far tell.

        Args:
            now: Where the job is.
            tool: Its gauge as rigged.
            rig: Its lift path.
            missing: What keeps the gauge from being read.
        """
        lacking = [*missing, *now.record.missing]
        if now.level is None:
            lacking.append("depth to water")
        if not now.is_lifted:
            return Telling("nothing to tell")
        if lacking or tool is None or now.record.string is None:
            return Telling("unknown", missing=tuple(dict.fromkeys(lacking)))
        self._catch_up(now, tool, rig)
        if self._listener is None or self._scene is None or self._last is None:
            return Telling("nothing to tell", missing=("a gauge reading",))
        return telling(self._scene, self._listener, self._last)

    def _catch_up(self, now: Moment, tool: Instrument, rig: Rigging) -> None:
        entries = heard(self._job)
        ids = [entry.id for entry in entries]
        scene = (now.level, now.top, now.water_weight, now.counted_in)
        key = (id(now.record), scene, tool, rig.is_reel)
        if key != self._key or ids[: len(self._heard)] != self._heard:
            self._key, self._heard = key, []
            self._scene = Scene(now, tool, rig)
            self._listener = self._last = None
        for at in range(len(self._heard), len(entries)):
            after = entries[at + 1] if at + 1 < len(entries) else None
            for sight in sightings(self._job, now.record, entries[at], after):
                self._hear(sight)
        self._heard = ids

    def _hear(self, sight: Sighting) -> None:
        assert self._scene is not None
        turned = self._last is not None and self._last.setting != sight.setting
        if self._listener is None or turned:
            self._listener = Listener(self._scene, sight)
        self._listener.add(sight)
        if sight.reading is not None:
            self._last = sight
