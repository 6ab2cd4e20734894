"""The well drawn to scale as SVG: ground, casing, water, string and pump, with their depths."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.office.sheet.axis import Axis, apart
from fieldbook.office.sheet.markup import element

if TYPE_CHECKING:
    from collections.abc import Iterator
    from xml.etree.ElementTree import Element

    from fieldbook.office.sheet.well_picture import WellPicture

_WIDTH, _TOP = 356.0, 34.0
_BELOW = 32.0  # what is below the deepest depth
TALL, SHORT = 560.0, 380.0
_LEFT, _RIGHT = 92.0, 148.0  # the casing's walls
_MIDDLE = (_LEFT + _RIGHT) / 2
_WORDS = 176.0  # where the words beside the well begin
_LINE = 14.0  # of text, one under the other


def draw(picture: WellPicture, height: float = TALL) -> Element:
    """The well as an SVG drawing, black on white, that reads without a legend.

    Args:
        picture: What is known of the well.
        height: How tall it is drawn, 356 being its width.
    """
    floor = height - _BELOW
    scale = Axis(picture.rim or min(0.0, picture.ground), picture.deepest, _TOP, floor)
    return element(
        "svg",
        element("title", "The well and what hangs in it, to scale"),
        *_scale(scale, picture),
        *_ground(scale, picture),
        *_water(scale, picture),
        *_casing(scale, picture),
        *_parts(scale, picture),
        *_words(scale, picture, height),
        viewBox=f"0 0 {_WIDTH:.0f} {height:.0f}",
        class_="well",
        role="img",
    )


def line(x1: float, y1: float, x2: float, y2: float, class_: str = "") -> Element:
    """A straight line of a drawing."""
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, class_=class_ or "thin")


def words(text: str, x: float, y: float, class_: str = "") -> Element:
    """Text in a drawing, its base line at `y`."""
    return element("text", text, x=x, y=y, class_=class_ or "label")


def _box(left: float, top: float, right: float, end: float, class_: str) -> Element:
    wide, tall = right - left, max(end - top, 0.0)
    return element("rect", x=left, y=top, width=wide, height=tall, class_=class_)


def _scale(scale: Axis, picture: WellPicture) -> Iterator[Element]:
    yield words(f"ft below {picture.datum}", 4, 14, "small")
    for depth in scale.ticks(11):
        y = scale.at(depth)
        yield line(38, y, 44, y)
        yield words(f"{depth:z,.0f}", 34, y + 3.5, "tick")
    yield line(44, scale.start, 44, scale.end)


def _ground(scale: Axis, picture: WellPicture) -> Iterator[Element]:
    y = scale.at(picture.ground)
    for left, right in ((54.0, _LEFT), (_RIGHT, 172.0)):
        yield line(left, y, right, y, "thick")
        for x in range(int(left) + 6, int(right) + 1, 7):
            yield line(x, y, x - 5, y + 6)


def _water(scale: Axis, picture: WellPicture) -> Iterator[Element]:
    if not picture.levels:
        return
    at_rest = dict(picture.levels).get("static water", picture.levels[-1][1])
    top = scale.at(max(at_rest, scale.low))
    yield _box(_LEFT, top, _RIGHT, scale.end, "water")
    for n in range(int((scale.end - top) / 6.0)):
        yield line(_LEFT + 3, top + 6.0 * (n + 1), _RIGHT - 3, top + 6.0 * (n + 1), "ripple")
    for _, depth in picture.levels:
        y = scale.at(max(depth, scale.low))
        yield line(_LEFT, y, _RIGHT, y, "level")
        yield element("path", d=f"M{_RIGHT - 14:.0f} {y - 7:.1f}h9l-4.5 6.5z", class_="open")


def _casing(scale: Axis, picture: WellPicture) -> Iterator[Element]:
    top = scale.at(picture.rim if picture.rim is not None else picture.ground)
    low, high = picture.screen or (picture.deepest, picture.deepest)
    for x in (_LEFT, _RIGHT):
        yield line(x, top, x, min(scale.at(low), scale.end), "wall")
        if picture.screen:
            yield line(x, scale.at(low), x, scale.at(high), "screen")
            yield line(x, scale.at(high), x, scale.end, "wall")
    known = picture.bottom is not None or picture.tagged is not None
    yield line(_LEFT, scale.end, _RIGHT, scale.end, "wall" if known else "dashed")
    if picture.tagged is not None and picture.bottom is not None:
        y = scale.at(min(picture.tagged, picture.deepest))
        yield _box(_LEFT, y, _RIGHT, scale.end, "fill")


def _parts(scale: Axis, picture: WellPicture) -> Iterator[Element]:
    ghost = "" if picture.hangs else " ghost"
    for part in picture.parts:
        top, end = scale.at(part.top), scale.at(part.end)
        if part.kind == "pump":
            yield _box(_MIDDLE - 9, top, _MIDDLE + 9, max(end, top + 12), f"pump{ghost}")
        elif part.kind in ("joint", "pup", "hose"):
            yield _box(_MIDDLE - 3, top, _MIDDLE + 3, end, f"pipe{ghost}")
            if part.kind != "hose":
                yield line(_MIDDLE - 5.5, end, _MIDDLE + 5.5, end, f"coupling{ghost}")
        else:
            yield _box(_MIDDLE - 6, end - 3, _MIDDLE + 6, end + 1, f"body{ghost}")


def _words(scale: Axis, picture: WellPicture, height: float) -> Iterator[Element]:
    labels = sorted(_labels(picture), key=lambda pair: pair[0])
    ys = apart([scale.at(depth) for depth, _ in labels], _LINE, 20.0, height - 8)
    for (depth, text), y in zip(labels, ys, strict=True):
        at = scale.at(min(max(depth, scale.low), scale.high))
        path = f"M{_RIGHT + 4:.0f} {at:.1f}L{_WORDS - 14:.0f} {at:.1f}L{_WORDS - 4:.0f} {y:.1f}"
        yield element("path", d=path, class_="leader")
        yield words(text, _WORDS, y + 3.8)


def _labels(picture: WellPicture) -> Iterator[tuple[float, str]]:
    """(depth, what lies there) of everything that has a depth."""
    if picture.rim is not None:
        yield picture.rim, f"top of casing {picture.rim:z,.1f}"
    yield picture.ground, f"ground {picture.ground:z,.1f}"
    for text, depth in picture.levels:
        yield depth, f"{text} {depth:z,.1f}"
    if picture.screen:
        low, high = picture.screen
        yield low, f"screen or open hole {low:z,.0f} to {high:z,.0f}"
    bodies = [p for p in picture.parts if p.kind not in ("joint", "pup", "hose", "pump")]
    for part in bodies:
        yield part.end, f"{part.kind} {part.end:z,.1f}"
    pump = next((part for part in picture.parts if part.kind == "pump"), None)
    if picture.intake is not None:
        yield picture.intake, f"pump intake {picture.intake:z,.1f}"
    if pump is not None:
        yield pump.end, f"end of string {pump.end:z,.1f}"
    if picture.tagged is not None:
        yield picture.tagged, f"bottom tagged {picture.tagged:z,.1f}"
    if picture.bottom is not None:
        yield picture.bottom, f"depth by record {picture.bottom:z,.1f}"
