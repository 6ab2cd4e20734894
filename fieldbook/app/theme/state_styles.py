"""How text looks in the colour of a state, whose word is always beside it."""

from __future__ import annotations

STATES = {
    "title": "text-style: bold;",
    "hold": "text-style: bold;",
    "muted": "color: $muted;",
    "within": "color: $success;",
    "caution": "color: $warning; text-style: bold;",
    "unknown": "color: $unknown; text-style: bold;",
    "danger": "color: $error; text-style: bold;",
    "stop": "color: $stop-text; background: $error; text-style: bold;",
}
"""State -> its rules."""


def rules_under(prefix: str) -> str:
    """The rules of all states, each under `prefix` and its name, to stand within a widget's."""
    return "\n".join(f"{prefix}{state} {{ {rules} }}" for state, rules in STATES.items())
