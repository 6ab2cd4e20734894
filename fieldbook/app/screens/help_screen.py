"""Help: the keys of the screen below, made from its own bindings, and the words of the trade."""

from __future__ import annotations

import tomllib
from importlib.resources import files
from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen

from fieldbook.app.forms.form_line import FieldLine
from fieldbook.app.widgets.action_list import BACK, ActionList
from fieldbook.app.widgets.keys import keys_of, printed
from fieldbook.app.widgets.literal import Literal
from fieldbook.quantities.safety import SAFETY

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from textual.app import ComposeResult
    from textual.screen import Screen

_ALL_ACTIONS = "Ctrl+P Each of these by its name, to be typed in part"
_IN_A_FIELD = (
    "Enter: next line; from an empty one to the next that is needed (*), or save.  Up, down: move.",
    "A number may carry its unit: 20.98, 21' 3\", 6.4 m, 742 lb, 340 kg.",
    "In the length of a joint, 12 at 21.0 writes twelve like joints: holds then not witnessed.",
    "In an empty number line = repeats the last joint, and - offers to cross out the last entry.",
    "Choices: left and right, or first letter.  Esc leaves the line, then letters act.",
)
_VERDICTS = (
    "OK: the load is under the limit.  caution: 80 % of it or more.",
    "STOP: over the limit.  can't say: something that is needed is missing.",
)


class HelpScreen(ModalScreen[None]):
    """Keys and words."""

    DEFAULT_CSS = """
    HelpScreen {
        & VerticalScroll { padding: 0 1; }
        & .title { margin: 1 0 0 0; }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,enter,f1", "back", "Back"),
    ]

    def __init__(self, screen: Screen[object]) -> None:
        """Help with `screen`."""
        super().__init__()
        self._keys = [*keys_of(screen), *keys_of(screen.app)]
        self._fields = [line.definition for line in screen.query(FieldLine)]

    def compose(self) -> ComposeResult:
        """Keys, fields, words, safety; a widget for each group, as one for each line is slow."""
        with VerticalScroll():
            for title, lines in self._groups():
                yield Literal(title, classes="title")
                yield Literal("\n".join(f"  {line}" for line in lines))
        yield ActionList(BACK)

    def _groups(self) -> Iterator[tuple[str, Iterable[str]]]:
        keys = (f"{printed(binding):<7}{binding.description}" for binding in self._keys)
        yield "Keys here  (arrows: scroll)", (*keys, _ALL_ACTIONS)
        if self._fields:
            yield "On this form", (f"{field.label}: {field.meaning}" for field in self._fields)
        yield "In a form", _IN_A_FIELD
        yield "Verdicts", _VERDICTS
        yield "Words", (f"{word}: {meaning}" for word, meaning in glossary().items())
        yield "Safety", SAFETY

    def on_mount(self) -> None:
        """Arrow keys scroll."""
        self.query_one(VerticalScroll).focus()

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)


def glossary() -> dict[str, str]:
    """The words of the trade and what they mean."""
    text = (files(__package__) / "glossary.toml").read_text(encoding="utf-8")
    return {str(word): str(meaning) for word, meaning in tomllib.loads(text).items()}
