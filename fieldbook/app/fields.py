"""One line of a form: a quantity, what was typed for it, and what is wrong with that."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input

from fieldbook.app.literal import Literal
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.quantities.units import show_unit

if TYPE_CHECKING:
    from textual import events
    from textual.app import ComposeResult

    from fieldbook.quantities.definition import Definition
    from fieldbook.record.entry import Origin, Value


class FieldLine(Vertical):
    """A quantity on a form."""

    DEFAULT_CSS = """
    FieldLine {
        height: auto;
        & Horizontal { height: 1; }
        & .label { width: 17; height: 1; text-overflow: ellipsis; text-wrap: nowrap; }
        & Input { width: 14; background: $panel; }
        & Input:focus { background: $primary; color: $background; }
        & Input:nocolor:focus { text-style: reverse; }
        & Choice { width: 1fr; }
        & .told { width: 1fr; height: 1; padding: 0 0 0 1; text-wrap: nowrap; }
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

    def __init__(self, definition: Definition, *, must: bool, metric: bool, origin: Origin) -> None:
        """Ask for one quantity.

        Args:
            definition: The quantity.
            must: Whether the form needs it.
            metric: Whether a number without a unit is in the metric unit.
            origin: How its figure is known.
        """
        super().__init__(id=f"field-{definition.name}")
        self.definition = definition
        self.must = must
        self._metric = metric
        self._origin = origin
        self._asked_about = ""

    def compose(self) -> ComposeResult:
        """Label, field and what was understood; trouble below."""
        unit = self.definition.metric if self._metric else self.definition.unit
        with Horizontal():
            yield Literal(self.definition.label + (" *" if self.must else ""), classes="label")
            if self.definition.choices or self.definition.dimension == "yes or no":
                yield Choice(self.definition.choices or ("yes", "no"))
            else:
                yield Field(self.definition)
                yield Literal(show_unit(unit), classes="told muted")
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
            if self.must:
                self.trouble("needed")
                raise NotUnderstood("needed")
            self.trouble("")
            return None
        try:
            value = parse(self.text, self.definition, metric=self._metric, origin=self._origin)
        except NotUnderstood as problem:
            self.trouble(str(problem))
            raise
        self.trouble("")
        return value

    def doubted(self, value: Value) -> bool:
        """Whether the crew must be asked about the value; it is asked once for what is typed."""
        from fieldbook.quantities.convert import doubt  # noqa: PLC0415 - loads pint

        words = doubt(value, self.definition)
        if not words or self._asked_about == self.text:
            return False
        self._asked_about = self.text
        self.trouble(f"{words}: Enter again to keep it", caution=True)
        return True

    def trouble(self, words: str, *, caution: bool = False) -> None:
        """Show what is wrong, or nothing."""
        line = self.query_one(".trouble", Literal)
        line.say(words, "caution" if caution else "")
        line.set_class(not words, "gone")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what is understood as it is typed."""
        event.stop()
        self.trouble("")
        told = self.query_one(".told", Literal)
        unit = self.definition.metric if self._metric else self.definition.unit
        try:
            value = parse(event.value, self.definition, metric=self._metric)
        except NotUnderstood:
            told.say(show_unit(unit))
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


class Field(Input):
    """A field for typing; in an empty number field `=` and `-` are the form's."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "app.focus_previous", "Field above", show=False),
        Binding("down", "app.focus_next", "Field below", show=False),
    ]

    def __init__(self, definition: Definition) -> None:
        """A field for one quantity."""
        super().__init__(compact=True, select_on_focus=False, max_length=400)
        self.cursor_blink = False
        self._definition = definition

    async def _on_key(self, event: events.Key) -> None:
        """Let the form have `=` and `-` where they cannot be part of a figure."""
        figure = not self._definition.is_words
        negative = self._definition.at_least is None and self._definition.above is None
        keys = ("=",) if negative else ("=", "-")
        if not self.value and figure and event.character in keys:
            event.stop()
            event.prevent_default()
            line = next(a for a in self.ancestors if isinstance(a, FieldLine))
            self.post_message(FieldLine.Key(line, event.character or ""))
            return
        await super()._on_key(event)


class Choice(Widget, can_focus=True):
    """A word chosen from a few, by arrow keys or its first letter."""

    DEFAULT_CSS = """
    Choice {
        height: 1;
        background: $panel;
        &:focus { background: $primary; color: $background; }
        &:nocolor:focus { text-style: reverse; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1)", "Choice before", show=False),
        Binding("right,space", "step(1)", "Next choice", show=False),
        Binding("backspace,delete", "clear", "No choice", show=False),
        Binding("enter", "pass", "Next field", show=False),
        Binding("up", "app.focus_previous", "Field above", show=False),
        Binding("down", "app.focus_next", "Field below", show=False),
    ]

    @dataclass
    class Passed(Message):
        """Enter was pressed."""

        choice: Choice

    def __init__(self, choices: tuple[str, ...]) -> None:
        """Offer `choices`, none of them chosen."""
        super().__init__()
        self._choices = choices
        self._chosen = ""

    @property
    def chosen(self) -> str:
        """The chosen word, or an empty text."""
        return self._chosen

    @chosen.setter
    def chosen(self, word: str) -> None:
        self._chosen = word if word in self._choices else ""
        self.refresh()

    def render(self) -> Content:
        """All words with the chosen one in brackets, or only that one where they do not fit."""
        every = " ".join(f"[{c}]" if c == self._chosen else f" {c} " for c in self._choices)
        if len(every) <= self.size.width:
            return Content(every)
        if not self._chosen:
            return Content(f"< choose of {len(self._choices)} >")
        place = self._choices.index(self._chosen) + 1
        return Content(f"< {self._chosen} > {place}/{len(self._choices)}")

    def action_step(self, by: int) -> None:
        """Choose the next word, or the one before."""
        at = self._choices.index(self._chosen) if self._chosen else (-1 if by > 0 else 0)
        self.chosen = self._choices[(at + by) % len(self._choices)]

    def action_clear(self) -> None:
        """Choose none."""
        self.chosen = ""

    def action_pass(self) -> None:
        """Go on."""
        self.post_message(self.Passed(self))

    def on_key(self, event: events.Key) -> None:
        """A first letter chooses the next word that begins with it."""
        letter = (event.character or "").lower()
        if not letter.strip():
            return
        begin = self._choices.index(self._chosen) + 1 if self._chosen else 0
        turned = self._choices[begin:] + self._choices[:begin]
        for word in turned:
            if word.lower().startswith(letter):
                self.chosen = word
                event.stop()
                return

    def on_click(self) -> None:
        """The mouse chooses the next word."""
        self.action_step(1)
