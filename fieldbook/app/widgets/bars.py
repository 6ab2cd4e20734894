"""Numbers as plain shapes: a share as a bar."""

from __future__ import annotations

_BAR = 20


def bar(share: float, cells: int = _BAR) -> str:
    """A share as a bar that is full at the limit, with a mark past it; half cells count.

    >>> bar(0.375, 4)
    '█▌░░'
    >>> bar(1.2, 4)
    '████ OVER'
    """
    halves = min(round(share * cells * 2), cells * 2)
    filled = "█" * (halves // 2) + "▌" * (halves % 2)
    return f"{filled:░<{cells}}{' OVER' if share > 1.0 else ''}"
