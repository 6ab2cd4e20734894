"""Several lines of literal text in one widget, each in the colour of its state."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from textual.content import Content

from fieldbook.app.widgets.row_view import RowView, TextLine
from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable


_ALONE = 3  # cells of a word that is not to stand in a row by itself, such as "1" or "yes"


class Lines(RowView):
    """Lines that are drawn together, which costs a fraction of a widget for each.

    A line that is too wide goes on in the next row; a title is cut.
    """

    DEFAULT_CSS = """
    Lines {
        height: auto;
        &.gone { display: none; }
    }
    """

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002
        """Say nothing yet."""
        super().__init__(id=id, classes=classes)
        self._lines: tuple[TextLine, ...] = ()

    def say_lines(self, lines: Iterable[TextLine]) -> None:
        """Show `lines`, leaving out those without text."""
        shown = tuple(
            # Made plain here, too, since an escape takes no cells and its mark takes one.
            TextLine(plain(part), line.state)
            for line in lines
            if line.text
            for part in line.text.split("\n")
        )
        if shown != self._lines:
            self._lines = shown
            self.draw_anew()

    def rows_in(self, width: int, height: int) -> Iterable[TextLine]:
        """The lines, folded or cut."""
        del height
        cut = self.styles.text_wrap == "nowrap"
        for line in self._lines:
            yield from folded(line, width, cut=cut or line.state == "title")


@lru_cache(maxsize=512)
def folded(line: TextLine, width: int, *, cut: bool = False) -> tuple[TextLine, ...]:
    """The rows that a line takes; one, where it is cut."""
    text = Content(line.text)
    if text.cell_length <= width:
        return (line,)
    if cut:
        return (TextLine(text.truncate(width, ellipsis=True).plain, line.state),)
    rows = _none_alone([row.plain for row in text.wrap(width)], width)
    return tuple(TextLine(row, line.state) for row in rows)


def _none_alone(rows: list[str], width: int) -> list[str]:
    """The rows, with the word before it beside a number or a short word that ends them alone."""
    last = rows[-1].strip()
    before, _, word = rows[-2].rstrip().rpartition(" ")
    short = len(last) <= _ALONE and " " not in last and len(word) + len(last) < width
    return [*rows[:-2], before, f"{word} {last}"] if short and before.strip() else rows
