"""The keys of a screen, from its own bindings: for help, and for the command palette."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from textual.app import App
from textual.binding import Binding
from textual.screen import ModalScreen, Screen

if TYPE_CHECKING:
    from collections.abc import Iterator

_PRINTED = {
    "question_mark": "?",
    "pageup": "PgUp",
    "pagedown": "PgDn",
    "plus": "+",
    "equals_sign": "=",
    "minus": "-",
    "slash": "/",
    "escape": "Esc",
    "enter": "Enter",
}
_THEIRS = (Screen, ModalScreen, App)
"""Textual's own classes; what they bind is no business of a crew's."""


def keys_of(node: Screen[Any] | App[Any]) -> Iterator[Binding]:
    """Each key that a screen, or the app, binds itself, once an action.

    What has the focus makes no difference: a letter is listed while a field has it too.
    """
    seen = set()
    for cls in type(node).__mro__:
        if cls in _THEIRS:
            return
        for binding in Binding.make_bindings(cls.__dict__.get("BINDINGS", ())):
            does = node.check_action(binding.action.partition("(")[0], ())
            if binding.show and does and binding.action not in seen:
                seen.add(binding.action)
                yield binding


def printed(binding: Binding) -> str:
    """The key as it is printed on the keyboard."""
    key = binding.key
    return key.upper() if key[1:].isdigit() else _PRINTED.get(key, key)
