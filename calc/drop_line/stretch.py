"""How a string lengthens, and how hard it pulls when held."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc.errors import OutOfRange
from calc.units import magnitude, quantity

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from calc.drop_line.free_body import Cut
    from calc.drop_line.hose import Hose
    from calc.units import Quantity


@dataclass(frozen=True, slots=True)
class Section:
    """A length of string of one stiffness, from `axial_stiffness` or `hose_stiffness`."""

    length: Quantity
    stiffness: Quantity


def axial_stiffness(*, area: Quantity, modulus: Quantity) -> Quantity:
    """Force that would stretch a section by its own length: A E.

    Source: Hooke's law.

    Raises:
        OutOfRange: A value is not more than zero.
    """
    metal = magnitude(area, "in**2", "metal area", above=0.0)
    return quantity(metal * magnitude(modulus, "psi", "modulus", above=0.0), "lbf")


def hose_stiffness(hose: Hose) -> Quantity | None:
    """Working tension over the stretch it makes, or None when the hose's sheet gives neither.

    Raises:
        OutOfRange: The sheet gives a tension or a stretch that is not more than zero.

    Source: straight line between the sheet's two points; common practice, no published source.
    """
    if hose.working_tension is None or hose.stretch is None:
        return None
    if not hose.stretch > 0.0:
        raise OutOfRange(f"the stretch is {hose.stretch:g}; it must be more than zero")
    tension = magnitude(hose.working_tension, "lbf", "working tension", above=0.0)
    return quantity(tension / hose.stretch, "lbf")


def elastic_stretch(*, load: Quantity, sections: Sequence[Section]) -> Quantity:
    """Lengthening of sections in a row under one load at the lower end: sum of P L / (A E).

    Raises:
        OutOfRange: There is no section, or a length or stiffness is not more than zero.

    Source: Hooke's law; API RP 7G 16th ed. prints it for steel as L T / (735,000 W).
    """
    return quantity(magnitude(load, "lbf", "load") * _compliance(sections), "in")


def own_weight_stretch(
    *, weight_per_length: Quantity, length: Quantity, stiffness: Quantity
) -> Quantity:
    """Lengthening of a uniform string under its own weight: half of w L times L / (A E).

    Args:
        weight_per_length: As a force per length, buoyed where it hangs in water.
        length: Of the string.
        stiffness: A E.

    Raises:
        OutOfRange: A length or stiffness is not more than zero.

    Source: mechanics.
    """
    span = magnitude(length, "ft", "length", above=0.0)
    weight = magnitude(weight_per_length, "lbf/ft", "weight per length") * span
    load = quantity(weight / 2.0, "lbf")
    return elastic_stretch(load=load, sections=[Section(length, stiffness)])


def hanging_stretch(cuts: Sequence[Cut], *, stiffness: Sequence[Quantity | None]) -> Quantity:
    """Lengthening of a hanging string under its wall tensions, as `wall_tensions` gives them.

    Args:
        cuts: Upper and lower cut of each piece, from the top.
        stiffness: A E of each piece, from the top; None for one that does not stretch, a pump.

    Raises:
        OutOfRange: Not one stiffness per piece, or one that is not more than zero.

    Source: Hooke's law on the mean tension of each piece. The thinning of a wall under pressure
    shortens a string by a little more (Poisson); that is left out.
    """
    if len(cuts) != 2 * len(stiffness):
        raise OutOfRange(f"{len(stiffness)} stiffnesses for {len(cuts) // 2} pieces")
    total = 0.0
    for upper, lower, rigidity in zip(cuts[::2], cuts[1::2], stiffness, strict=True):
        if rigidity is not None:
            mean = (upper.tension_lbf + lower.tension_lbf) / 2.0
            span = 12.0 * (lower.depth_ft - upper.depth_ft)
            total += mean * span / magnitude(rigidity, "lbf", "stiffness", above=0.0)
    return quantity(total, "in")


def thermal_stretch(
    *, length: Quantity, expansion: Quantity, before: Quantity, after: Quantity
) -> Quantity:
    """Lengthening from a change of temperature, negative when it cools.

    Source: Machinery's Handbook 31st ed. Table 15.

    Args:
        length: Before the change.
        expansion: Strain per degree, such as 3.0e-5 per delta_degF.
        before: Temperature at which the length was measured.
        after: Temperature in the well.

    Raises:
        OutOfRange: A negative length or expansion.
    """
    change = magnitude(after, "degF", "temperature after") - magnitude(
        before, "degF", "temperature before"
    )
    rate = magnitude(expansion, "1/delta_degF", "expansion", at_least=0.0)
    return quantity(magnitude(length, "in", "length", at_least=0.0) * rate * change, "in")


def stuck_rate(sections: Sequence[Section]) -> Quantity:
    """Force each inch of hook travel adds once the string is held below these sections.

    Args:
        sections: From the hook to where the string is held; the shorter, the harder.

    Raises:
        OutOfRange: There is no section, or a length or stiffness is not more than zero.

    Source: Hooke's law, A E / L; the rope and mast are taken as stiff, the worst case.
    """
    return quantity(1.0 / _compliance(sections), "lbf/in")


@dataclass(frozen=True, slots=True)
class Overpull:
    """How much more may be pulled before the first wall reaches its allowable.

    Attributes:
        left: The least margin; None when any piece has no rating. Negative is past it already.
        governs: The cut with the least known margin; None when none is rated.
        missing: Pieces without a rating.
    """

    left: Quantity | None
    governs: Cut | None
    missing: tuple[str, ...]


def overpull_left(cuts: Iterable[Cut]) -> Overpull:
    """The overpull the string itself leaves, every wall down to the hold taking it in full.

    Source: the least margin down the string; nothing published.

    Args:
        cuts: Those above the hold; all of them when its depth is not known.
    """
    margins: list[tuple[float, Cut]] = []
    missing: dict[str, None] = {}
    for cut in cuts:
        rated = cut.piece.allowable_lbf
        if rated is None:
            missing[f"rating of {cut.name}"] = None
        else:
            margins.append((rated - cut.tension_lbf, cut))
    least = min(margins, key=lambda margin: margin[0], default=None)
    if least is None:
        return Overpull(None, None, tuple(missing))
    left = None if missing else quantity(least[0], "lbf")
    return Overpull(left, least[1], tuple(missing))


def _compliance(sections: Sequence[Section]) -> float:
    """Inches of stretch per lbf."""
    if not sections:
        raise OutOfRange("there is no section to stretch")
    return sum(
        magnitude(section.length, "in", "length of a section", above=0.0)
        / magnitude(section.stiffness, "lbf", "stiffness of a section", above=0.0)
        for section in sections
    )
