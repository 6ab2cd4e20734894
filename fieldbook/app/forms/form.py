"""A form: a few quantities in the order of the work."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from textual.message import Message

from fieldbook.app.forms.form_line import LEAST_LABEL, FieldLine, label_of
from fieldbook.app.widgets.debounce import REPEATED
from fieldbook.app.widgets.plain_container import PlainVertical
from fieldbook.quantities.definition import definition
from fieldbook.quantities.labels import within
from fieldbook.quantities.typed import NotUnderstood, plain_value
from fieldbook.record.entry import Origin
from fieldbook.walk.entry.runs import LENGTH

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterable, Mapping

    from textual.app import ComposeResult

    from fieldbook.app.host import Host
    from fieldbook.record.entry import Value


def _of_no_job(name: str, said: Mapping[str, Value]) -> str:
    """What looks wrong by itself, in a form that belongs to no step of a job."""
    from fieldbook.walk.entry.doubts import doubt_about  # noqa: PLC0415 - loads pint

    return doubt_about(None, None, name, said)


class Form(PlainVertical):
    """Asks for quantities one after the other; Enter goes on, and on the last one completes."""

    DEFAULT_CSS = "Form { height: auto; }"

    app: Host

    @dataclass
    class Completed(Message):
        """Every line was passed and every value is understood."""

        form: Form
        values: dict[str, Value]

    @dataclass
    class Lacking(Message):
        """The form would complete, but for lines that may be left empty for a reason."""

        form: Form
        values: dict[str, Value]
        labels: tuple[str, ...]

    @dataclass
    class Pressed(Message):
        """`=` was pressed in a number field, or `-` in an empty one."""

        form: Form
        key: str

    def __init__(
        self,
        asks: Iterable[str],
        *,
        must: Iterable[str] = (),
        excusable: Iterable[str] = (),
        metric: bool = False,
        origin: Origin = Origin.MEASURED,
        offers: tuple[str, ...] = (),
        runs: bool = False,
    ) -> None:
        """Ask for the quantities `asks`.

        Args:
            asks: Their names, in order.
            must: Those that are needed.
            excusable: Those of them that may be left empty for a reason.
            metric: Whether numbers without a unit are metric.
            origin: How the figures are known.
            offers: Words for the reason that a digit writes.
            runs: Whether like joints may be typed at once.
        """
        super().__init__()
        self._asks = tuple(asks)
        self._must = frozenset(must)
        self._excusable = frozenset(excusable)
        self._metric = metric
        self._origin = origin
        self._offers = offers
        self._runs = runs
        self._asked_why = False
        self.doubts: Callable[[str, Mapping[str, Value]], str] = _of_no_job
        """Why a quantity looks wrong, by itself or with what was typed above it in the open job."""
        self.one_more: Mapping[str, str] | None = None
        """What is in the form before anything is typed, where it asks for one more of what is
        written already; else None."""
        self.lines: list[FieldLine] = []
        """The lines, from the top, once the form is up."""

    def compose(self) -> ComposeResult:
        """A line for each quantity, the fields below one another, every label whole."""
        labels = (label_of(definition(n), must=n in self._must) for n in self._asks)
        before = max([LEAST_LABEL, *(len(label) + 1 for label in labels)])
        self.lines = [
            FieldLine(
                definition(name),
                must=name in self._must,
                metric=self._metric,
                origin=self._origin,
                offers=self._offers if name == "reason" else (),
                before=before,
                runs=self._runs and name == LENGTH,
            )
            for name in self._asks
        ]
        yield from self.lines

    def asks_as(self, other: Form) -> bool:
        """Whether another form asks the very same, so that this one can be used in its place."""
        return self._nature == other._nature

    @property
    def _nature(self) -> tuple[object, ...]:
        return (
            self._asks, self._must, self._excusable, self._metric, self._origin, self._offers,
            self._runs,
        )  # fmt: skip

    @property
    def asks(self) -> tuple[str, ...]:
        """The quantities that it asks for, in order."""
        return self._asks

    @property
    def run(self) -> int | None:
        """How many like joints are typed at once; None where one is."""
        return next((line.run for line in self.lines if line.run is not None), None)

    @property
    def confirmed(self) -> bool:
        """Whether anything in it was asked about and kept as it is."""
        return any(line.confirmed for line in self.lines)

    @property
    def texts(self) -> dict[str, str]:
        """What is in each line."""
        return {line.definition.name: line.text for line in self.lines}

    def fill(self, texts: Mapping[str, str]) -> None:
        """Type `texts` into the lines of their names."""
        for line in self.lines:
            if line.definition.name in texts:
                line.text = texts[line.definition.name]

    def start_again(self, texts: Mapping[str, str]) -> None:
        """Forget what was typed, asked and found wrong, and start with `texts`."""
        self._asked_why = False
        for line in self.lines:
            line.start_again(texts.get(line.definition.name, ""))

    def begin(self, at: Collection[str] = ()) -> None:
        """Put the cursor into a line named in `at`, else into the first empty one, or the first."""
        lines = self.lines
        named = (line for line in lines if line.definition.name in at)
        empty = (line for line in lines if not line.text)
        for line in [*named, *empty, *lines][:1]:
            line.focus_field()

    def type_ahead(self, character: str) -> None:
        """What is typed outside the fields goes into the first empty line, if one is typed into."""
        self.begin()
        line = next((line for line in self.lines if not line.text), None)
        if line is not None:
            line.type_ahead(character)

    def understood(self) -> dict[str, Value] | None:
        """The values of all lines; None, with the cursor on the line, where one needs another look.

        A value that looks wrong is asked about once.
        """
        values: dict[str, Value] = {}
        for line in self.lines:
            if not self._passes(line, values):
                line.focus_field()
                return None
        return values

    def _passes(self, line: FieldLine, values: dict[str, Value]) -> bool:
        try:
            value = line.value()
        except NotUnderstood:
            return False
        if value is None:
            return True
        name = line.definition.name
        if line.doubted(self.doubts(name, {**values, name: value})):
            self.app.guard.start()  # the key that bounced is no answer
            return False
        values[name] = value
        return True

    def complete(self) -> None:
        """Complete the form if every line is understood; else go to the first that is not."""
        values = self.understood()
        if values is None:
            return
        lacking = [n for n in self._asks if n in self._must and n not in values]
        unknown = [line.definition for line in self.lines if line.not_known]
        if self._excusable.issuperset(lacking) and {d.name for d in unknown} >= {*lacking}:
            named = ", ".join(within(quantity.label) for quantity in unknown)
            reason = {"reason": plain_value(f"not known: {named}")} if lacking else {}
            self.post_message(self.Completed(self, values | reason))
        elif self._asked_why and self._excusable.issuperset(lacking):
            labels = tuple(within(definition(name).label) for name in lacking)
            self.post_message(self.Lacking(self, values, labels))
        else:
            self._ask_for(lacking)

    def _ask_for(self, lacking: list[str]) -> None:
        self._asked_why = self._excusable.issuperset(lacking) and not self._is_one_too_many
        first = next(line for line in self.lines if line.definition.name == lacking[0])
        words = "needed: left, right, or first letter" if first.is_choice else "needed"
        if self._asked_why:
            words = "fill in, ? if nobody knows, or Enter again to skip"
        elif self._is_one_too_many:
            words = "needed; no more of them: Esc, then d"
        first.trouble(words)
        first.focus_field()
        self.app.guard.start()

    @property
    def _is_one_too_many(self) -> bool:
        """Whether one more is asked for and nothing of it is typed: it may not be there at all."""
        start = self.one_more
        return start is not None and all(
            text == start.get(name, "") for name, text in self.texts.items()
        )

    def on_field_line_passed(self, event: FieldLine.Passed) -> None:
        """Go to the next line; from one left empty to the next that is needed, else complete.

        A crew that has written what it wants to write presses Enter once more and has saved.
        """
        event.stop()
        lines = self.lines
        place = lines.index(event.line)
        # Going on from what was just typed saves nothing and answers nothing: no quiet is needed.
        goes_on = event.line.text and not event.line.troubled and place + 1 < len(lines)
        if not goes_on and not self.app.guard.takes():
            return
        passed: dict[str, Value] = {}
        if not self._passes(event.line, passed):
            return
        if (passed or event.line.not_known) and place + 1 < len(lines):
            lines[place + 1].focus_field()
        elif not passed and not event.line.must and (needed := self._needed_from(place)):
            needed.focus_field()
        else:
            self.complete()

    def _needed_from(self, place: int) -> FieldLine | None:
        """The next line, round the end too, that is needed and still empty."""
        turned = self.lines[place:] + self.lines[:place]
        return next((line for line in turned if line.must and not line.text.strip()), None)

    def on_field_line_key(self, event: FieldLine.Key) -> None:
        """Pass `=` and `-` up."""
        event.stop()
        if self.app.guard.takes(REPEATED if event.key == "=" else 1.0):
            self.post_message(self.Pressed(self, event.key))
