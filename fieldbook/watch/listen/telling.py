"""What the gauge is telling: the explanation that fits best, how well, and what to look at."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import NormalDist
from typing import TYPE_CHECKING, Any

from fieldbook.watch.listen.families import EXPECTED, FAMILIES

if TYPE_CHECKING:
    from fieldbook.watch.listen.explanations import Explanation
    from fieldbook.watch.listen.listener import Listener
    from fieldbook.watch.listen.scene import Scene
    from fieldbook.watch.listen.sighting import Sighting

CONFIDENCE = 0.95
"""Share from which an explanation is said to be the one: ours, no published source."""
CONFIDENCE_HELD = 0.85
"""The same for what holds or catches, said sooner because stopping to look costs little: ours."""
LEAST_READINGS = 2
"""Readings that an explanation must rest on: one reading may always be misread."""
FITS = 0.001
"""Chance of so bad a fit, below which even the best explanation is not believed: ours."""
_RULED_OUT = 0.05  # of the odds it had before any reading
_MOST_NAMED = 4
_WORTH_NAMING = 0.02  # share below which an explanation is not named beside a reading: ours
_GRAVE = (
    "drained", "partly drained", "not drained", "pump lost, line still full",
    "pump lost, line drained", "parted", "joint missed in the count", "joint counted twice",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class WeighedExplanation:
    """One explanation and how it fares.

    Attributes:
        name: Its name.
        detail: More words, as "below joint 7".
        share: How likely it is among all that were weighed, 0 to 1.
        fit: Chance that readings miss it by as much as these did, 0 to 1.
        readings: How many readings it rests on; of what held and let go, those when it held.
    """

    name: str
    detail: str
    share: float
    fit: float
    readings: int

    @property
    def words(self) -> str:
        """Its name with its detail."""
        return f"{self.name}: {self.detail}" if self.detail else self.name


@dataclass(frozen=True, slots=True)
class Telling:
    """What the gauge is telling.

    Attributes:
        verdict: "as expected", "decided", "cannot tell", "nothing to tell" or "unknown".
        best: What fits best.
        next_best: What fits next best.
        look_at: What to look at, to settle it or before moving.
        cannot_prove: Why draining cannot be proved by load; empty where it can.
        open_yet: What the load does not rule out beside `as expected`.
        missing: What is needed to tell anything.
    """

    verdict: str
    best: WeighedExplanation | None = None
    next_best: WeighedExplanation | None = None
    look_at: str = ""
    cannot_prove: str = ""
    open_yet: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()

    @property
    def decided(self) -> bool:
        """Whether one explanation, other than as expected, is said to be the one."""
        return self.verdict == "decided"

    @property
    def may_be(self) -> str:
        """What the newest reading may be beside as expected, likeliest first, with the shares."""
        ranked = [each for each in (self.best, self.next_best) if each is not None]
        if ranked and ranked[0].name == EXPECTED:
            return f"{ranked[0].detail}; weights, level or friction other than recorded"
        likely = [each for each in ranked if each.share >= _WORTH_NAMING and each.name != EXPECTED]
        return ", ".join(f"{each.words} ({each.share:.0%})" for each in likely)

    def lines(self) -> list[str]:
        """Plain text lines for a screen, a terminal or a sheet."""
        if self.best is None:
            need = f": needs {', '.join(self.missing)}" if self.missing else ""
            return [f"{self.verdict}{need}"]
        said = "cannot tell; best" if self.verdict == "cannot tell" else "best"
        found = [f"{said}: {self.best.words}, {self.best.share:.0%} ({_fits(self.best)})"]
        if self.next_best is not None:
            found.append(f"next: {self.next_best.words}, {self.next_best.share:.1%}")
        if self.look_at:
            found.append(f"look at: {self.look_at}")
        if self.open_yet:
            found.append(f"the load does not rule out: {', '.join(self.open_yet)}")
        if self.cannot_prove:
            found.append(self.cannot_prove)
        return found

    def document(self) -> dict[str, Any]:
        """The telling as JSON."""
        return {
            "verdict": self.verdict,
            "best": _document(self.best),
            "next_best": _document(self.next_best),
            "decided": self.decided,
            "look_at": self.look_at,
            "cannot_prove": self.cannot_prove,
            "not_ruled_out": list(self.open_yet),
            "missing": list(self.missing),
            "confidence": {"held": CONFIDENCE_HELD, "otherwise": CONFIDENCE},
        }

    def brief(self) -> dict[str, Any]:
        """Name, verdict and best, for an answer that stays small."""
        best = self.best.words if self.best is not None else None
        return {"name": "telling", "verdict": self.verdict, "best": best}


def telling(scene: Scene, listener: Listener, last: Sighting) -> Telling:
    """What the readings so far tell.

    Args:
        scene: The string and its gauge.
        listener: What follows its readings.
        last: The newest reading.
    """
    shares = sorted(listener.shares().items(), key=lambda pair: -pair[1])
    ranked = [
        _weighed(listener.likeliest(family), share, listener.readings) for family, share in shares
    ]
    best = ranked[0]
    next_best = ranked[1] if len(ranked) > 1 else None
    asked = CONFIDENCE_HELD if FAMILIES[best.name].passing else CONFIDENCE
    sure = best.share >= asked and best.fit >= FITS and best.name != "none of these"
    sure = sure and (best.name == EXPECTED or best.readings >= LEAST_READINGS)
    verdict = "cannot tell"
    if sure:
        verdict = EXPECTED if best.name == EXPECTED else "decided"
    look = FAMILIES[best.name].look_at
    if verdict == "cannot tell" and not look and next_best is not None:
        look = FAMILIES[next_best.name].look_at
    open_yet = _open_yet(dict(shares), listener.readings) if verdict == EXPECTED else ()
    return Telling(verdict, best, next_best, look, cannot_prove(scene, last), open_yet)


def cannot_prove(scene: Scene, sight: Sighting) -> str:
    """Why draining cannot be proved by load; empty where it can."""
    if sight.setting:
        return ""
    column = scene.load(sight.hanging, sight.raised, 0.0, scene.full()) - scene.load(
        sight.hanging, sight.raised, 0.0, ()
    )
    if column * scene.gain >= 2.0 * scene.error:
        return ""
    return (
        f"draining cannot be proved by load: {column * scene.gain:,.0f} lbf of reading is within"
        f" the gauge's error, {scene.error:,.0f} either way"
    )


def _open_yet(shares: dict[str, float], readings: int) -> tuple[str, ...]:
    whole = shares[EXPECTED]
    still = []
    for name in _GRAVE:
        family = FAMILIES[name]
        before = family.first + family.later * max(readings - 1, 0)
        if before > 0.0 and shares.get(name, 0.0) / whole > _RULED_OUT * before:
            still.append((shares[name] / before, name))
    return tuple(name for _, name in sorted(still, reverse=True)[:_MOST_NAMED])


def _weighed(explanation: Explanation, share: float, readings: int) -> WeighedExplanation:
    passing = FAMILIES[explanation.family].passing
    since = explanation.caught if passing else readings - explanation.began
    detail = explanation.detail
    if explanation.family == EXPECTED:
        detail = "line full" if explanation.condition.column else "no water held above the level"
    return WeighedExplanation(explanation.family, detail, share, _chance(explanation.misses), since)


def _chance(misses: tuple[float, ...]) -> float:
    """Chance of a chi-square at least this large. Source: Wilson and Hilferty 1931."""
    if not misses:
        return 1.0
    count = len(misses)
    spread = 2.0 / (9.0 * count)
    return 1.0 - NormalDist().cdf(
        ((sum(misses) / count) ** (1.0 / 3.0) - (1.0 - spread)) / spread**0.5
    )


def _fits(weighed: WeighedExplanation) -> str:
    how = "fits well" if weighed.fit >= 0.05 else "fits poorly" if weighed.fit >= FITS else (
        "does not fit"
    )  # fmt: skip
    return f"{how}, {weighed.readings} reading{'s' if weighed.readings != 1 else ''}"


def _document(weighed: WeighedExplanation | None) -> dict[str, Any] | None:
    if weighed is None:
        return None
    return {
        "name": weighed.name,
        "detail": weighed.detail,
        "share": round(weighed.share, 4),
        "fit": round(weighed.fit, 4),
        "readings": weighed.readings,
    }
