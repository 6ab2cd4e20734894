"""Follows the readings of one lift and keeps every explanation that they leave standing.

Each explanation carries its own belief about what is unsure; at every reading it is weighed by the
density it gave to what was then read, and new ones begin beside it. What has become twenty
thousand times less likely than the best is let go.
"""

from __future__ import annotations

from dataclasses import replace
from math import exp, log
from typing import TYPE_CHECKING

from fieldbook.watch.listen.explanations import (
    Burst,
    Explanation,
    Turn,
    is_steady,
    odds,
    partly,
    turns,
)
from fieldbook.watch.listen.families import BREAKING_OUT, EXPECTED, FAMILIES
from fieldbook.watch.listen.gaussian import Fit, belief, meet, sharpened
from fieldbook.watch.listen.scene import Situation

if TYPE_CHECKING:
    from fieldbook.watch.listen.scene import Scene, Shown
    from fieldbook.watch.listen.sighting import Sighting

_LET_GO = 10.0  # natural log of how much less likely than the best
_MOST_CACHED = 40
_PARENTS = 2
_PARENT_WITHIN = 4.0
_HOLDS, _LETS_GO = log(0.65), log(0.35)  # what held is held at the next reading, or free
_CATCHES_AGAIN = log(0.3)  # what catches again and again, after a reading when it did not
_QUIET = 2  # readings as before, after which what has let go is no longer spoken of
_STILL_HELD = log(0.03)  # odds that what is held fast came up a joint meanwhile
_DRAINS, _STAYS_FULL, _STOPS_PART_WAY = log(0.85), log(0.12), log(0.03)


_Weighing = tuple[Explanation, Fit]
"""An explanation weighed by a reading that it has not learnt from yet."""


class Listener:
    """The explanations of one lift in one direction."""

    def __init__(self, scene: Scene, first: Sighting) -> None:
        """Begin before the first reading; a string that goes in fills only to the water outside."""
        self._scene = scene
        self._last: Sighting | None = None
        self.readings = 0
        self._least = float("-inf")
        self._shown: dict[Situation, Shown] = {}
        column = () if first.setting else scene.full()
        load = scene.load(first.hanging, first.raised, 0.0, column)
        self.standing = [
            Explanation(
                EXPECTED, "", Situation(column=column), Burst(), belief(scene.sds(load)), 0.0,
                None, 0,
            )
        ]  # fmt: skip

    def add(self, sight: Sighting) -> None:
        """Weigh one reading, or take the crew's word that the line was drained."""
        if sight.reading is None:
            self._drain(sight)
            return
        # Parents as they were before this reading: what is carried on is changed in place.
        parents = [replace(parent) for parent in self._parents()]
        self._shown = {}
        self._least = float("-inf")
        kept: list[_Weighing] = []
        for explanation in self.standing:
            kept += self._carried(explanation, sight)
        self._least = max(weighing[0].weight for weighing in kept) - _LET_GO
        for parent in parents:
            kept += self._begun(parent, sight)
        best = max(weighing[0].weight for weighing in kept)
        kept = [weighing for weighing in kept if weighing[0].weight > best - _LET_GO]
        kept.sort(key=lambda weighing: weighing[0].weight, reverse=True)
        self.standing = [_learnt(*weighing) for weighing in kept[:_MOST_CACHED]]
        for explanation in self.standing:
            explanation.weight -= best
        self._last = sight
        self.readings += 1

    def shares(self) -> dict[str, float]:
        """How likely each explanation is, by family, summing to 1."""
        best = max(e.weight for e in self.standing)
        found: dict[str, float] = {}
        for explanation in self.standing:
            part = exp(explanation.weight - best)
            found[explanation.family] = found.get(explanation.family, 0.0) + part
        whole = sum(found.values())
        return {family: part / whole for family, part in found.items()}

    def likeliest(self, family: str) -> Explanation:
        """The likeliest explanation of a family that is still open."""
        return max((e for e in self.standing if e.family == family), key=_weight)

    def _parents(self) -> list[Explanation]:
        """The few likeliest explanations on which a further one may come."""
        best = max(e.weight for e in self.standing)
        likely = [e for e in self.standing if e.weight > best - _PARENT_WITHIN and is_steady(e)]
        return sorted(likely, key=_weight, reverse=True)[:_PARENTS]

    def _begun(self, parent: Explanation, sight: Sighting) -> list[_Weighing]:
        """The explanations that begin at this reading, on top of `parent`."""
        shown = self._scene.shown(sight, parent.condition)
        load = abs(shown.nominal - self._scene.zero) / self._scene.gain
        found: list[_Weighing] = []
        for turn in turns(self._scene, sight, parent, self._last, load):
            chance = odds(turn, first=self._last is None)
            if chance > -_LET_GO:
                found += self._weighed(self._child(parent, turn, sight, chance), sight)
        return found

    def _child(
        self, parent: Explanation, turn: Turn, sight: Sighting, chance: float
    ) -> Explanation:
        known = parent.belief if turn.own is None else parent.belief.with_own(*turn.own)
        return Explanation(
            turn.family, turn.detail, turn.condition, turn.burst, known, parent.weight + chance,
            parent, self.readings, (), sight.hanging,
        )  # fmt: skip

    def _weighed(self, explanation: Explanation, sight: Sighting) -> list[_Weighing]:
        """The explanation after the reading; nothing when the reading rules it out."""
        assert sight.reading is not None
        shown = self._shown.get(explanation.condition)
        if shown is None:
            shown = self._scene.shown(sight, explanation.condition)
            self._shown[explanation.condition] = shown
        nominal, slopes, noise = shown
        burst = explanation.burst if not explanation.quiet else Burst()
        fit = meet(
            explanation.belief, sight.reading, nominal + burst.mean, slopes, noise + burst.sd**2
        )
        explanation.weight += fit.log_density
        return [(explanation, fit)] if explanation.weight >= self._least else []

    def _carried(self, explanation: Explanation, sight: Sighting) -> list[_Weighing]:
        """The explanation at its next reading and, where it may pass, having let go."""
        parent = explanation.parent
        if not FAMILIES[explanation.family].passing or parent is None:
            return self._weighed(explanation, sight)
        freed_head = explanation.family == BREAKING_OUT and sight.hanging != explanation.hanging
        if explanation.quiet >= _QUIET or freed_head:
            return self._weighed(_passed(explanation, parent), sight)
        caught: list[_Weighing] = []
        free = _freed(explanation, parent)
        if not explanation.quiet or explanation.burst.sd:
            held = replace(explanation, quiet=0, caught=explanation.caught + 1)
            held.weight += _CATCHES_AGAIN if explanation.quiet else _HOLDS
            if held.condition.own == "travel" and sight.hanging != held.hanging:
                held.weight += _STILL_HELD
            caught = self._weighed(held, sight)
        return [*caught, *self._weighed(free, sight)]

    def _drain(self, sight: Sighting) -> None:
        """The crew drained the line: it did, or it did not, or the water stopped part-way."""
        found: list[Explanation] = []
        for explanation in self.standing:
            base = explanation.condition
            if not base.column or base.own in ("dead", "slack", "leak", "height"):
                found.append(explanation)
                continue
            empty = Turn(explanation.family, explanation.detail, base._replace(column=()))
            outcomes = [
                (empty, _DRAINS),
                (Turn("not drained", "", base), _STAYS_FULL),
                *((turn, _STOPS_PART_WAY) for turn in partly(self._scene, sight, base)),
            ]
            for turn, chance in outcomes:
                child = self._child(explanation, turn, sight, chance)
                if turn is empty:
                    child.parent, child.began = _drained(explanation.parent), explanation.began
                    child.burst = explanation.burst
                found.append(child)
        self.standing = found


def _learnt(explanation: Explanation, fit: Fit) -> Explanation:
    explanation.belief = sharpened(explanation.belief, fit)
    explanation.misses = (*explanation.misses[-5:], fit.miss**2 / fit.variance)
    return explanation


def _freed(explanation: Explanation, parent: Explanation) -> Explanation:
    """The explanation having let go; it is spoken of a little longer."""
    if explanation.quiet:
        return replace(explanation, quiet=explanation.quiet + 1)
    known = explanation.belief
    if explanation.condition.own in ("constant", "travel"):
        known = known.with_own(0.0, 0.0)
    return replace(
        explanation,
        detail="it has let go",
        condition=parent.condition,
        belief=known,
        weight=explanation.weight + _LETS_GO,
        quiet=1,
    )


def _passed(explanation: Explanation, parent: Explanation) -> Explanation:
    """What held before, now that the explanation has passed."""
    known = explanation.belief
    if not explanation.quiet and explanation.condition.own in ("constant", "travel"):
        known = known.with_own(0.0, 0.0)
    return replace(parent, belief=known, weight=explanation.weight, misses=())


def _drained(explanation: Explanation | None) -> Explanation | None:
    """What an explanation falls back to once the line is drained."""
    if explanation is None:
        return None
    return replace(explanation, condition=explanation.condition._replace(column=()))


def _weight(explanation: Explanation) -> float:
    return explanation.weight
