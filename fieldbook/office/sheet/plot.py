"""The trace as an SVG plot: what the gauge should show, and what it did show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.office.sheet.axis import Axis, apart
from fieldbook.office.sheet.drawing import line, words
from fieldbook.office.sheet.markup import element

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from xml.etree.ElementTree import Element

    from fieldbook.watch.lift.trace import Trace

_WIDTH, _HEIGHT = 700.0, 272.0
_LEFT, _RIGHT = 62.0, 560.0
_TOP, _FLOOR = 22.0, 228.0


def plot(trace: Trace) -> Element | None:
    """The trace as a drawing; None where there is neither a curve nor a reading."""
    moved = [*trace.at, *(at for at, _ in trace.read)]
    loads = [*trace.full, *trace.drained, *(load for _, load in trace.read)]
    if not moved:
        return None
    if trace.never is not None:
        loads.append(trace.never)
    high = max(*loads, 1.0)
    across = Axis(0.0, max(*moved, 1.0), _LEFT, _RIGHT)
    up = Axis(min(0.0, *loads), high * 1.04, _FLOOR, _TOP)
    return element(
        "svg",
        element("title", f"Gauge readings over {trace.axis}"),
        *_frame(across, up, trace.axis),
        *_curves(across, up, trace),
        viewBox=f"0 0 {_WIDTH:.0f} {_HEIGHT:.0f}",
        class_="plot",
        role="img",
    )


def _frame(across: Axis, up: Axis, name: str) -> Iterator[Element]:
    for load in up.ticks(6):
        y = up.at(load)
        yield line(_LEFT, y, _RIGHT, y, "grid")
        yield words(f"{load:z,.0f}", _LEFT - 6, y + 3.5, "tick")
    for count in across.ticks(12):
        x = across.at(count)
        yield line(x, _FLOOR, x, _FLOOR + 5)
        yield words(f"{count:,.0f}", x, _FLOOR + 18, "middle")
    yield line(_LEFT, _FLOOR, _RIGHT, _FLOOR, "axis")
    yield line(_LEFT, _TOP, _LEFT, _FLOOR, "axis")
    yield words("gauge, lbf", 4, 12, "small")
    yield words(name, (_LEFT + _RIGHT) / 2, _FLOOR + 36, "middle")


def _curves(across: Axis, up: Axis, trace: Trace) -> Iterator[Element]:
    ends: list[tuple[float, str]] = []
    for loads, name, class_ in (
        (trace.full, "expected, line full", "curve"),
        (trace.drained, "expected, line drained", "curve dashed"),
    ):
        if loads:
            points = zip(trace.at, loads, strict=True)
            yield _through([(across.at(at), up.at(load)) for at, load in points], class_)
            ends.append((up.at(loads[-1]), name))
    if trace.never is not None:
        yield line(_LEFT, up.at(trace.never), _RIGHT, up.at(trace.never), "never")
        ends.append((up.at(trace.never), f"stop at {trace.never:z,.0f}"))
    for at, load in trace.read:
        yield element("circle", cx=across.at(at), cy=up.at(load), r=3.2, class_="reading")
    if trace.read:
        ends.append((up.at(trace.read[-1][1]), "read on the gauge"))
    ends.sort()
    places = apart([y for y, _ in ends], 15.0, _TOP - 8, _FLOOR)
    for (y, name), place in zip(ends, places, strict=True):
        yield element(
            "path", d=f"M{_RIGHT + 3:.0f} {y:.1f}L{_RIGHT + 12:.0f} {place:.1f}", class_="leader"
        )
        yield words(name, _RIGHT + 15, place + 3.8)


def _through(points: Sequence[tuple[float, float]], class_: str) -> Element:
    return element(
        "polyline", points=" ".join(f"{x:.1f},{y:.1f}" for x, y in points), class_=class_
    )
