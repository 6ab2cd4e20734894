"""The last time: what earlier jobs left in this well, and what is found otherwise now."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.screen import ModalScreen

from fieldbook.app.widgets.action_list import BACK, ActionList
from fieldbook.app.widgets.literal import Literal
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from textual.app import ComposeResult

    from fieldbook.record.entry import Entry
    from fieldbook.record.memory import Memory

_NOTHING = "No earlier job on this well is on the shelf, by its tag or by owner and name."
_KINDS = ("prior", "pump", "cable", "tank", "meter", "duty")


class LastTimeScreen(ModalScreen[None]):
    """What the well remembers."""

    DEFAULT_CSS = """
    LastTimeScreen {
        align: center middle;
        & > VerticalScroll {
            width: 100%; max-width: 90; height: auto; max-height: 100%;
            border: heavy $primary; background: $surface; padding: 0 2;
        }
    }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,q,s,enter", "back", "Back")]

    def __init__(self, memory: Memory | None, found: list[str]) -> None:
        """Show a memory.

        Args:
            memory: What earlier jobs remember.
            found: What differs from it now, in words.
        """
        super().__init__()
        self._memory = memory
        self._found = found

    def compose(self) -> ComposeResult:
        """The differences first, then what was left in the well."""
        with VerticalScroll():
            memory = self._memory
            if memory is None:
                yield Literal(_NOTHING)
                yield ActionList(BACK)
                return
            yield Literal(f"The last visit: {memory.words}", classes="title")
            yield Literal("Found otherwise now:", classes="title")
            for words in self._found or ["nothing so far"]:
                yield Literal(f"  {words}", classes="caution" if self._found else "")
            if not memory.hangs:
                yield Literal(
                    "No whole string was left hanging then, and none was set on this shelf since."
                )
            yield Literal("As it was left:", classes="title")
            for words in _lines_of(memory):
                yield Literal(f"  {words}")
            yield ActionList(BACK)

    def action_back(self) -> None:
        """Back to where we were."""
        self.dismiss(None)


def _lines_of(memory: Memory) -> Iterator[str]:
    for piece in (*memory.lengths, *memory.fittings):
        yield _piece(piece)
    for name, value in memory.prior.items():
        yield f"{definition(name).label}: {figure(value, name)}"
    for (kind, name), value in memory.said.items():
        if kind in _KINDS and name not in memory.prior:
            yield f"{definition(name).label}: {figure(value, name)}"


def _piece(piece: Entry) -> str:
    names = ("nps", "schedule", "joint_count", "joint_length", "piece_length", "piece_weight")
    said = [figure(piece.values[name]) for name in names if name in piece.values]
    return f"{piece.text('piece')}: {', '.join(said)}"
