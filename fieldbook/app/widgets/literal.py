"""Text shown as it is: what a person typed is never markup and never an escape."""

from __future__ import annotations

from rich.cells import cell_len
from textual.content import Content
from textual.widgets import Static

from fieldbook.app.theme.state_styles import rules_under
from fieldbook.app.widgets.cached_lines import CachedWidget
from fieldbook.quantities.plain import plain


class Literal(Static, CachedWidget):
    """A line or a paragraph of literal text.

    It may wear the colour of a state; the word itself is always beside the colour.
    """

    DEFAULT_CSS = f"""
    Literal {{
        height: auto;
        {rules_under("&.")}
        &.gone {{ display: none; }}
    }}
    """

    def __init__(
        self,
        text: str = "",
        *,
        classes: str = "",
        id: str | None = None,  # noqa: A002 - Textual's word
    ) -> None:
        """Show `text`."""
        super().__init__(_content(text), markup=False, classes=classes, id=id)
        self.auto_links = False  # there are none, and to look for them takes as long as the text
        self.text = text
        self._state = ""

    def say(self, text: str, state: str = "") -> None:
        """Show other text, and wear the class of `state`."""
        if text != self.text:
            self.show(text, _content(text))
        if state != self._state:
            for name in filter(None, (self._state, state)):
                self.set_class(name == state, name)
            self._state = state

    def show(self, text: str, content: Content) -> None:
        """Show `content`, which says `text`."""
        self.text = text
        self.update(content, layout=not self._fits(content))

    def _fits(self, content: Content) -> bool:
        """Whether other text takes just the lines that there are, so that nothing else moves."""
        if not self.styles.auto_dimensions:
            return True
        width, height = self.content_size
        if not width or self.styles.is_auto_width:
            return False
        lines = content.plain.split("\n")
        if all(cell_len(line) <= width for line in lines):
            return len(lines) == height
        return content.get_height(self.styles.get_render_rules(), width) == height


def _content(text: str) -> Content:
    return Content("\n".join(plain(line) for line in text.split("\n")))
