"""Lines of a widget that are kept while nothing about it changes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Self

from textual.widget import Widget

if TYPE_CHECKING:
    from textual.geometry import Region, Size
    from textual.strip import Strip


class CachedWidget(Widget):
    """A widget that is asked to draw only after `refresh`.

    Textual asks every widget on the screen at each paint, and one that has its lines at hand still
    looks up borders, colours and filters to give them. A form is two dozen of them; most stay as
    they are while a joint is saved. To be named last among the bases, so that the first one's
    styles are inherited.
    """

    _kept: tuple[Region, Size, list[Strip]] | None = None

    def refresh(
        self,
        *regions: Region,
        repaint: bool = True,
        layout: bool = False,
        recompose: bool = False,
    ) -> Self:
        """Draw again at the next paint."""
        self._kept = None
        return super().refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)

    def notify_style_update(self) -> None:
        """Draw again, as a style is another now."""
        self._kept = None
        super().notify_style_update()

    def render_lines(self, crop: Region) -> list[Strip]:
        """The lines of the part `crop`: those given last, where nothing changed since."""
        if self._kept is None or self._kept[:2] != (crop, self.outer_size):
            self._kept = (crop, self.outer_size, super().render_lines(crop))
        return self._kept[2]
