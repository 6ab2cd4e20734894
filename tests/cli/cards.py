"""Cards made from the small jobs."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

_LISTS = ("piece", "redirect", "curve_point", "line_choice")


def card(documents: Sequence[dict[str, Any]], path: Path) -> Path:
    """Write a card that says what `documents` say; what is said later of a kind goes first."""
    single: dict[str, dict[str, Any]] = {}
    lines: list[str] = []
    for document in documents:
        kind, values = document["kind"], document["values"]
        if kind in _LISTS:
            lines += [f"[[{kind}]]", *_keys(values)]
        else:
            single.setdefault(kind, {}).update(values)
    for kind, values in single.items():
        lines += [f"[{kind}]", *_keys(values)]
    path.write_text("\n".join(lines), encoding="utf-8")
    return path


def _keys(values: dict[str, Any]) -> list[str]:
    return [f"{name} = {value!r}".replace("'", '"') for name, value in values.items()]
