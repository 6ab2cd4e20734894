"""One line of a form: a quantity, what was typed for it, and what is wrong with that."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.content import Content
from textual.message import Message

from fieldbook.app.forms.choice import Choice
from fieldbook.app.forms.field import Field
from fieldbook.app.widgets.cached_lines import CachedWidget
from fieldbook.app.widgets.literal import Literal
from fieldbook.quantities.estimates import NOT_KNOWN
from fieldbook.quantities.figures import is_bare, understood
from fieldbook.quantities.initials import INITIALS, initials_problem
from fieldbook.quantities.typed import NotUnderstood, parse
from fieldbook.quantities.units import show_unit
from fieldbook.walk.entry.runs import run_in

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.widgets import Input

    from fieldbook.quantities.definition import Definition
    from fieldbook.record.entry import Origin, Value

LEAST_LABEL = 15  # cells before a field
_FIELD = 12  # cells of a field for a figure
GAUGE_READING = "gauge_reading"
_PLACE = 15  # cells of one for a place on the map: "-72.38402 deg", and the cursor behind it


def label_of(asked: Definition, *, must: bool) -> str:
    """What is before the field of a quantity."""
    return f"{asked.label} *" if must else asked.label


class FieldLine(CachedWidget):
    """A quantity on a form.

    It draws its label and what was understood itself: a widget for each would make a form four
    times as slow.
    """

    DEFAULT_CSS = """
    FieldLine {
        height: auto; layout: vertical; text-wrap: nowrap;
        & Field, & Choice { margin: 0 0 0 15; }
        & Field { width: 12; background: $panel; }
        &.-place Field { width: 15; }
        &.-words Field, & Choice { width: 1fr; }
        & Field:focus { background: $primary; color: $background; }
        & Field:nocolor { text-style: underline; }
        & Field:nocolor:focus { text-style: reverse; }
        & .trouble { padding: 0 0 0 2; color: $error; text-style: bold; }
        & .trouble.caution { color: $warning; }
    }
    """

    @dataclass
    class Passed(Message):
        """Enter was pressed on the line."""

        line: FieldLine

    @dataclass
    class Typed(Message):
        """A gauge reading is being typed: what is understood of it so far, or None."""

        value: Value | None

    @dataclass
    class Key(Message):
        """A key that means something to the form was pressed in a field."""

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
        before: int = LEAST_LABEL,
        runs: bool = False,
    ) -> None:
        """Ask for one quantity.

        Args:
            definition: The quantity.
            must: Whether the form needs it.
            metric: Whether a number without a unit is in the metric unit.
            origin: How its figure is known.
            offers: Words that a digit writes while nothing is typed.
            before: Cells before the field, for the label.
            runs: Whether "12 at 21.0" is understood as a run of joints.
        """
        super().__init__(id=f"field-{definition.name}")
        self.definition = definition
        self.must = must
        self._unit = definition.unit_in(metric=metric)
        self._metric = metric
        self._origin = origin
        self._runs = runs
        self._asked_about = ""
        self.set_class(definition.is_words, "-words")
        self.set_class(definition.dimension == "angle", "-place")
        self._field = _field_for(definition, offers)
        self._unit_words = show_unit(self._unit) if isinstance(self._field, Field) else ""
        self._untyped = self._unit_words  # the unit that is meant, where none is typed
        self._trouble = Literal("", classes="trouble gone")
        self._before = before
        if before != LEAST_LABEL:
            self._field.styles.margin = (0, 0, 0, before)

    def compose(self) -> ComposeResult:
        """The field; trouble is below once there is any, which most lines never have."""
        yield self._field

    def render(self) -> Content:
        """The label before the field, what was understood behind it."""
        label = label_of(self.definition, must=self.must)
        used = self._before + (_PLACE if self.has_class("-place") else _FIELD) + 1
        unit_words = "" if self.has_class("-words") else self._unit_words
        if len(unit_words) > self.size.width - used:  # the figure is in the field already
            unit_words = self._untyped
        return Content.assemble(label.ljust(used), (unit_words, "$muted"))

    @property
    def text(self) -> str:
        """What is typed or chosen."""
        return self._field.value if isinstance(self._field, Field) else self._field.chosen

    @text.setter
    def text(self, text: str) -> None:
        if isinstance(self._field, Field):
            self._field.value = text
        else:
            self._field.chosen = text

    def type_ahead(self, character: str) -> None:
        """Type a character that came before the cursor did; a choice takes none."""
        if isinstance(self._field, Field):
            self._field.type_ahead(character)

    @property
    def run(self) -> int | None:
        """How many joints are typed at once; None where a run is not typed."""
        return run_in(self.text)[0] if self._runs else None

    def _of_one(self, text: str) -> str:
        return run_in(text)[1] if self._runs else text

    def start_again(self, text: str) -> None:
        """Forget what was typed and what was said about it, and start with `text`."""
        self.text = text
        self._asked_about = ""
        self.trouble("")

    def focus_field(self) -> None:
        """Put the cursor into the line."""
        if not self._field.has_focus:  # it would be drawn again
            self._field.focus()

    def value(self) -> Value | None:
        """What is typed, as a value; None where nothing is typed.

        Raises:
            NotUnderstood: It is not a value of the quantity; the trouble is shown too.
        """
        if not self.text.strip() or self.not_known:
            self.trouble("")
            return None
        try:
            value = self._parsed()
        except NotUnderstood as problem:
            self.trouble(str(problem))
            raise
        self.trouble("")
        return value

    @property
    def not_known(self) -> bool:
        """Whether `?` is typed where a figure belongs: an answer, that nobody knows it."""
        return not self.definition.is_words and self.text.strip() == NOT_KNOWN

    def _parsed(self) -> Value:
        if self.definition.dimension == "file":
            from fieldbook.app.forms.path_field import path_value  # noqa: PLC0415 - for the few files only

            return path_value(self.text)
        value = parse(
            self._of_one(self.text), self.definition, metric=self._metric, origin=self._origin
        )
        if self.definition.name in INITIALS and (problem := initials_problem(value.text)):
            raise NotUnderstood(problem)
        return value

    @property
    def confirmed(self) -> bool:
        """Whether what is typed was asked about, and kept."""
        return bool(self._asked_about) and self._asked_about == self.text

    def doubted(self, words: str) -> bool:
        """Whether the crew must be asked about the value; it is asked once for what is typed.

        Args:
            words: Why it looks wrong; empty where it does not.
        """
        if not words or self._asked_about == self.text:
            return False
        self._asked_about = self.text
        self.trouble(f"{words}: Enter again to keep it", caution=True)
        return True

    @property
    def is_choice(self) -> bool:
        """Whether a word is chosen and nothing is typed."""
        return isinstance(self._field, Choice)

    @property
    def troubled(self) -> bool:
        """Whether something is said to be wrong with the line, or was asked about it."""
        return bool(self._trouble.text)

    def trouble(self, words: str, *, caution: bool = False) -> None:
        """Show what is wrong, or nothing."""
        if words and not self._trouble.is_attached:
            self.mount(self._trouble)
        self._trouble.say(words, "caution" if caution else "")
        self._trouble.set_class(not words, "gone")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what is understood as it is typed."""
        event.stop()
        if event.value != self._asked_about:
            self.trouble("")
        if self.definition.dimension == "file":
            return
        understood_now: Value | None = None
        try:
            value = understood_now = parse(
                self._of_one(event.value), self.definition, metric=self._metric
            )
        except NotUnderstood:
            unit_words = untyped = show_unit(self._unit)
        else:
            each = f"{self.run} x " if self.run else ""
            unit = value.unit or self.definition.counted_in
            unit_words = f"= {each}{understood(value)} {show_unit(unit)}" if unit else ""
            untyped = show_unit(unit) if is_bare(value) else ""
        if (unit_words, untyped) != (self._unit_words, self._untyped):
            self._unit_words, self._untyped = unit_words, untyped
            self.refresh()
        if self.definition.name == GAUGE_READING:
            self.post_message(self.Typed(understood_now))

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


def _field_for(definition: Definition, offers: tuple[str, ...]) -> Field | Choice:
    if definition.choices or definition.dimension == "yes or no":
        return Choice(definition.choices or ("yes", "no"))
    if definition.dimension == "file":
        from fieldbook.app.forms.path_field import PathField  # noqa: PLC0415 - for the few files only

        return PathField(definition)
    return Field(definition, offers=offers)
