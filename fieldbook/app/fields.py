"""One line of a form: a quantity, what was typed for it, and what is wrong with that."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.containers import Horizontal, Vertical
from textual.message import Message

from fieldbook.app.choice import Choice
from fieldbook.app.field import Field
from fieldbook.app.literal import Literal
from fieldbook.app.path_field import PathField, path_value
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.quantities.units import show_unit

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.widgets import Input

    from fieldbook.quantities.definition import Definition
    from fieldbook.record.entry import Origin, Value


class FieldLine(Vertical):
    """A quantity on a form."""

    DEFAULT_CSS = """
    FieldLine {
        height: auto;
        & Horizontal { height: 1; }
        & .label { width: 15; height: 1; text-overflow: ellipsis; text-wrap: nowrap; }
        & Input { width: 13; background: $panel; }
        &.-words Input { width: 1fr; }
        & Input:focus { background: $primary; color: $background; }
        & Input:nocolor:focus { text-style: reverse; }
        & Choice { width: 1fr; }
        & .told { width: 1fr; height: 1; padding: 0 0 0 1; text-wrap: nowrap; }
        &.-words .told { display: none; }
        & .trouble { padding: 0 0 0 2; color: $error; text-style: bold; }
        & .trouble.caution { color: $warning; }
    }
    """

    @dataclass
    class Passed(Message):
        """Enter was pressed on the line."""

        line: FieldLine

    @dataclass
    class Key(Message):
        """A key that means something to the form was pressed in an empty field."""

        line: FieldLine
        key: str

    def __init__(
        self,
        definition: Definition,
        *,
        must: bool,
        metric: bool,
        origin: Origin,
        offers: tuple[str, ...] = (),
    ) -> None:
        """Ask for one quantity.

        Args:
            definition: The quantity.
            must: Whether the form needs it.
            metric: Whether a number without a unit is in the metric unit.
            origin: How its figure is known.
            offers: Words that a digit writes while nothing is typed.
        """
        super().__init__(id=f"field-{definition.name}")
        self.definition = definition
        self.must = must
        self._unit = definition.metric if metric else definition.unit
        self._metric = metric
        self._origin = origin
        self._offers = offers
        self._asked_about = ""
        self.set_class(definition.is_words, "-words")

    def compose(self) -> ComposeResult:
        """Label, field and what was understood; trouble below."""
        with Horizontal():
            yield Literal(self.definition.label + (" *" if self.must else ""), classes="label")
            if self.definition.choices or self.definition.dimension == "yes or no":
                yield Choice(self.definition.choices or ("yes", "no"))
            elif self.definition.dimension == "file":
                yield PathField(self.definition)
            else:
                yield Field(self.definition, offers=self._offers)
                yield Literal(show_unit(self._unit), classes="told muted")
        yield Literal("", classes="trouble gone")

    @property
    def text(self) -> str:
        """What is typed or chosen."""
        for field in self.query(Field):
            return field.value
        return self.query_one(Choice).chosen

    @text.setter
    def text(self, text: str) -> None:
        for field in self.query(Field):
            field.value = text
        for choice in self.query(Choice):
            choice.chosen = text

    def focus_field(self) -> None:
        """Put the cursor into the line."""
        self.query_one("Field, Choice").focus()

    def value(self) -> Value | None:
        """What is typed, as a value; None where nothing is typed.

        Raises:
            NotUnderstood: It is not a value of the quantity; the trouble is shown too.
        """
        if not self.text.strip():
            self.trouble("")
            return None
        try:
            value = self._parsed()
        except NotUnderstood as problem:
            self.trouble(str(problem))
            raise
        self.trouble("")
        return value

    def _parsed(self) -> Value:
        if self.definition.dimension == "file":
            return path_value(self.text)
        return parse(self.text, self.definition, metric=self._metric, origin=self._origin)

    def doubted(self, value: Value) -> bool:
        """Whether the crew must be asked about the value; it is asked once for what is typed."""
        from fieldbook.quantities.convert import doubt  # noqa: PLC0415 - loads pint

        words = doubt(value, self.definition)
        if not words or self._asked_about == self.text:
            return False
        self._asked_about = self.text
        self.trouble(f"{words}: Enter again to keep it", caution=True)
        return True

    @property
    def troubled(self) -> bool:
        """Whether something is said to be wrong with the line, or was asked about it."""
        return bool(self.query_one(".trouble", Literal).text)

    def trouble(self, words: str, *, caution: bool = False) -> None:
        """Show what is wrong, or nothing."""
        line = self.query_one(".trouble", Literal)
        line.say(words, "caution" if caution else "")
        line.set_class(not words, "gone")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what is understood as it is typed."""
        event.stop()
        self.trouble("")
        if self.definition.dimension == "file":
            return
        told = self.query_one(".told", Literal)
        try:
            value = parse(event.value, self.definition, metric=self._metric)
        except NotUnderstood:
            told.say(show_unit(self._unit))
            return
        shown = f"= {value.number:,.6g} {show_unit(value.unit)}" if value.number is not None else ""
        told.say(shown if value.unit else "")

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Enter: the form decides where to go."""
        event.stop()
        self.post_message(self.Passed(self))

    def on_choice_passed(self, event: Choice.Passed) -> None:
        """Enter on a choice."""
        event.stop()
        self.post_message(self.Passed(self))

    def on_field_key(self, event: Field.Key) -> None:
        """`=` or `-`: the form decides what it means."""
        event.stop()
        self.post_message(self.Key(self, event.key))
