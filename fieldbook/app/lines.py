"""Several lines of literal text in one widget, each in the colour of its state."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from textual.content import Content

from fieldbook.app.literal import Literal
from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable

_STYLES = {
    "": "",
    "title": "bold",
    "muted": "$muted",
    "within": "$success",
    "caution": "bold $warning",
    "unknown": "bold $unknown",
    "danger": "bold $error",
    "stop": "bold $stop-text on $error",
}


class Line(NamedTuple):
    """One line; the word of its state always stands in the text too."""

    text: str
    state: str = ""


class Lines(Literal):
    """Lines that are drawn together, which costs a fraction of a widget for each."""

    def say_lines(self, lines: Iterable[Line]) -> None:
        """Show `lines`, leaving out those without text."""
        shown = [line for line in lines if line.text]
        text = "\n".join(f"{line.state} {line.text}" for line in shown)
        if text == self.text:
            return
        drawn = [Content.styled(plain(line.text), _STYLES[line.state]) for line in shown]
        self.show(text, Content("\n").join(drawn))
