"""How the walk is laid out, and what gives way where the screen is short or narrow.

On a short or narrow screen the letters take the place of the form, since nobody types while they
act; the well and the limits stay.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from textual.geometry import Size

TALL_ROWS = 30
"""Rows from which a screen is tall."""
ROOMY_COLUMNS, ROOMY_ROWS = 160, 45
"""Columns and rows from which nothing that has to be seen misses the room."""

PLOT_COLUMNS = 60
"""Columns of the trace beside the form."""
_BESIDE_A_PLOT = 184
"""Columns from which a roomy screen has room for it: the lift from the top down takes 82 of them,
the limits 42."""


def is_short(size: Size) -> bool:
    """Whether a screen of that size has no room for more than has to be said.

    Its class says so only after the screen has heard that it has another size.
    """
    return size.height < TALL_ROWS


def is_roomy(size: Size) -> bool:
    """Whether a screen of that size has room left for what can also be looked up."""
    return size.width >= ROOMY_COLUMNS and size.height >= ROOMY_ROWS


def has_room_to_plot(size: Size) -> bool:
    """Whether a screen of that size has room for the trace beside all that is written."""
    return is_roomy(size) and size.width >= _BESIDE_A_PLOT


STYLE = """
WalkScreen {
    & #where { height: 1; padding: 0 1; text-style: bold; }
    & #where { text-wrap: nowrap; text-overflow: ellipsis; }
    & #body { height: 1fr; }
    & #left { width: 1fr; padding: 0 0 0 1; scrollbar-size-vertical: 1; }
    & #right { width: 35; }
    & StepCard, & CheckPanel, & RecentEntries { padding: 0 1 0 0; }
    /* An eighth, as whole shares of no rows at all are one row each, which would scroll. */
    & RecentEntries { height: 0.125fr; min-height: 0; }
    & #form { height: auto; }
    & #said { height: auto; padding: 0 1; text-style: bold; }
    & .gone { display: none; }
    &.-tall #form, &.-tall RecentEntries { margin: 1 0 0 0; }
    &.-tall StopPanel, &.-tall HoldPanel { margin: 1 0; }
    & #acts.-asleep { color: $muted; }
    & #acts-beside { display: none; }
    &.-short #acts, &.-narrow #acts { display: none; }
    &.-short #acts-beside, &.-narrow #acts-beside { display: block; }
    &.-short #acts-beside.-asleep, &.-narrow #acts-beside.-asleep { display: none; }
    &.-short #form.-awake, &.-narrow #form.-awake { display: none; }
    &.-short.-ticks #acts-beside { display: none; }
    &.-wide #right { width: 42; }
    & BigFigures { display: none; }
    &.-tall BigFigures { display: block; }
    &.-tall #where { display: none; }
}
"""
