"""A container that draws nothing of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.color import Color
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.strip import Strip
from textual.widget import Widget

if TYPE_CHECKING:
    from textual.geometry import Region


class PlainContainer(Widget):
    """Comes last among the bases of a container without border and text; paints its background.

    At every paint Textual asks each widget on the screen for its lines, the clean ones too, and a
    container answers as slowly as a widget with text. Its own `BLANK` would leave out the filters
    that take the colour away on a terminal that shows none.
    """

    def render_lines(self, crop: Region) -> list[Strip]:
        """As many empty lines as are asked for."""
        style = self.visual_style
        strip = Strip.blank(crop.width, style.rich_style)
        background = style.background or Color(0, 0, 0)
        for line_filter in self.get_line_filters():
            strip = strip.apply_filter(line_filter, background)
        return [strip] * crop.height


class PlainVertical(Vertical, PlainContainer):
    """One below the other."""


class PlainHorizontal(Horizontal, PlainContainer):
    """One beside the other."""


class PlainScroll(VerticalScroll, PlainContainer):
    """One below the other, as far down as it takes."""
