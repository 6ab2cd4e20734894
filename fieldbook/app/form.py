"""A form: a few quantities in the order of the work."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.containers import Vertical
from textual.message import Message

from fieldbook.app.fields import FieldLine
from fieldbook.quantities.definition import definition
from fieldbook.quantities.typed import NotUnderstood
from fieldbook.record.entry import Origin

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from textual.app import ComposeResult

    from fieldbook.record.entry import Value


class Form(Vertical):
    """Asks for quantities one after the other; Enter goes on, and on the last one completes."""

    DEFAULT_CSS = "Form { height: auto; }"

    @dataclass
    class Completed(Message):
        """Every line was passed and every value is understood."""

        form: Form
        values: dict[str, Value]

    @dataclass
    class Pressed(Message):
        """`=` or `-` was pressed in an empty field."""

        form: Form
        key: str

    def __init__(
        self,
        asks: Iterable[str],
        *,
        must: Iterable[str] = (),
        metric: bool = False,
        origin: Origin = Origin.MEASURED,
    ) -> None:
        """Ask for the quantities `asks`.

        Args:
            asks: Their names, in order.
            must: Those that are needed.
            metric: Whether numbers without a unit are metric.
            origin: How the figures are known.
        """
        super().__init__()
        self._asks = tuple(asks)
        self._must = frozenset(must)
        self._metric = metric
        self._origin = origin

    def compose(self) -> ComposeResult:
        """A line for each quantity."""
        for name in self._asks:
            yield FieldLine(
                definition(name),
                must=name in self._must,
                metric=self._metric,
                origin=self._origin,
            )

    @property
    def lines(self) -> list[FieldLine]:
        """The lines, from the top."""
        return list(self.query(FieldLine))

    @property
    def texts(self) -> dict[str, str]:
        """What is typed, line by line, so that nothing half typed is lost."""
        return {line.definition.name: line.text for line in self.lines if line.text}

    def fill(self, texts: Mapping[str, str]) -> None:
        """Type `texts` into the lines of their names."""
        for line in self.lines:
            if line.definition.name in texts:
                line.text = texts[line.definition.name]

    def begin(self) -> None:
        """Put the cursor into the first empty line, or the first."""
        lines = self.lines
        for line in [*(line for line in lines if not line.text), *lines][:1]:
            line.focus_field()

    def complete(self) -> None:
        """Complete the form if every line is understood; else go to the first that is not."""
        values: dict[str, Value] = {}
        for line in self.lines:
            try:
                value = line.value()
            except NotUnderstood:
                line.focus_field()
                return
            if value is None:
                continue
            if line.doubted(value):
                line.focus_field()
                return
            values[line.definition.name] = value
        self.post_message(self.Completed(self, values))

    def on_field_line_passed(self, event: FieldLine.Passed) -> None:
        """Go to the next line; after the last, or on one left empty, complete the form.

        A crew that has written what it wants to write presses Enter once more and has saved.
        """
        event.stop()
        lines = self.lines
        place = lines.index(event.line)
        try:
            value = event.line.value()
        except NotUnderstood:
            return
        if value is not None and event.line.doubted(value):
            return
        if value is not None and place + 1 < len(lines):
            lines[place + 1].focus_field()
        else:
            self.complete()

    def on_field_line_key(self, event: FieldLine.Key) -> None:
        """Pass `=` and `-` up."""
        event.stop()
        self.post_message(self.Pressed(self, event.key))
