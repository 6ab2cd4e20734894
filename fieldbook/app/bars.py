"""Numbers as plain shapes: a share as a bar."""

from __future__ import annotations

_BAR = 20


def bar(share: float, cells: int = _BAR) -> str:
    """A share as a bar that is full at the limit, with a mark past it.

    >>> bar(0.5, 4)
    '[##..]'
    """
    filled = min(round(share * cells), cells)
    return f"[{'#' * filled}{'.' * (cells - filled)}]{' OVER' if share > 1.0 else ''}"
