"""Day and night where a terminal has sixteen colours, or eight, or none.

Of `themes` most shades would fall on the same few of sixteen: a field on its paper, the yellow of a
caution on white. So here each is one of the sixteen from the start, and none that is weak on its
paper. The box of a field is one of the first eight, since a bare console draws the bright ones as
backgrounds no brighter.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from textual.theme import Theme

from fieldbook.app.theme.themes import DAY, NIGHT

if TYPE_CHECKING:
    from textual.app import App

SIXTEEN = (
    "#000000", "#aa0000", "#00aa00", "#aa5500", "#0000aa", "#aa00aa", "#00aaaa", "#aaaaaa",
    "#555555", "#ff5555", "#55ff55", "#ffff55", "#5555ff", "#ff55ff", "#55ffff", "#ffffff",
)  # fmt: skip
"""The colours as Rich tells them apart, which is how a shade becomes one of them."""
(
    _BLACK, _RED, _GREEN, _BROWN, _BLUE, _MAGENTA, _CYAN, _GREY,
    _DARK, _BRIGHT_RED, _BRIGHT_GREEN, _YELLOW, _BRIGHT_BLUE, _PINK, _BRIGHT_CYAN, _WHITE,
) = SIXTEEN  # fmt: skip

_FEWEST = 8


def dress(app: App[None]) -> None:
    """Give the app other colours where its terminal has too few for the usual ones."""
    if app.console.color_system == "standard":
        for theme in few_colours(grey=app.no_color):
            app.register_theme(theme)


def few_colours(*, grey: bool) -> tuple[Theme, Theme]:
    """Day and night in the sixteen colours, or in the greys among them."""
    day_box, night_box, night_muted = (_GREY, _DARK, _WHITE) if grey else (_CYAN, _BLUE, _GREY)
    day = _theme(DAY, _BLACK, _WHITE, day_box, _BLACK, _BLUE)
    night = _theme(NIGHT, _WHITE, _BLACK, night_box, night_muted, _BRIGHT_CYAN)
    if grey:
        return day, night
    day.success, day.warning, day.error = _BLACK, _MAGENTA, _RED
    night.success, night.warning, night.error = _BRIGHT_GREEN, _YELLOW, _BRIGHT_RED
    day.variables["unknown"], night.variables["unknown"] = _BLUE, _PINK
    return day, night


def _theme(like: Theme, ink: str, paper: str, box: str, muted: str, line: str) -> Theme:
    """A theme that goes by the name of another, all its text in one ink."""
    bar = dict.fromkeys((n for n in like.variables if n.startswith("scrollbar")), ink)
    bar |= dict.fromkeys((n for n in bar if n.startswith("scrollbar-background")), paper)
    cursor = {"input-cursor-background": ink, "input-cursor-foreground": paper}
    states = {"unknown": ink, "stop-text": paper, "muted": muted, "border": line}
    return Theme(
        name=like.name,
        primary=line,
        secondary=muted,
        accent=line,
        foreground=ink,
        background=paper,
        surface=paper,
        panel=box,
        success=ink,
        warning=ink,
        error=ink,
        dark=like.dark,
        variables=bar | cursor | states,
    )


def without_any() -> bool:
    """Whether the terminal has no colours at all, as its kind is known to the system."""
    try:
        import curses  # noqa: PLC0415 - not there on Windows
    except ImportError:
        return False
    try:
        curses.setupterm(os.environ.get("TERM", ""), 1)
    except curses.error:
        return False
    return curses.tigetnum("colors") < _FEWEST
