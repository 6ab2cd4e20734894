"""Day and night: our own colours, each text at least 7:1 against its background.

Colour only helps: every state is also a word, and a shape where it must be seen from afar.
"""

from textual.theme import Theme

DAY = Theme(
    name="day",
    primary="#003a70",
    secondary="#3d3d3d",
    accent="#003a70",
    foreground="#000000",
    background="#ffffff",
    surface="#ffffff",
    panel="#d8d8d8",
    success="#00461b",
    warning="#5c3200",
    error="#8a0000",
    dark=False,
    variables={
        "unknown": "#4a0072",
        "stop-text": "#ffffff",
        "muted": "#3d3d3d",
        "input-cursor-background": "#000000",
        "input-cursor-foreground": "#ffffff",
        "border": "#003a70",
        "scrollbar": "#3d3d3d",
        "scrollbar-hover": "#3d3d3d",
        "scrollbar-active": "#000000",
        "scrollbar-background": "#ececec",
        "scrollbar-background-hover": "#ececec",
        "scrollbar-background-active": "#ececec",
    },
)
NIGHT = Theme(
    name="night",
    primary="#9fd0ff",
    secondary="#c8c8c8",
    accent="#9fd0ff",
    foreground="#f2f2f2",
    background="#000000",
    surface="#000000",
    panel="#2a2a2a",
    success="#8fe3a8",
    warning="#ffcf7a",
    error="#ffb3ab",
    dark=True,
    variables={
        "unknown": "#e0bfff",
        "stop-text": "#000000",
        "muted": "#c8c8c8",
        "input-cursor-background": "#ffffff",
        "input-cursor-foreground": "#000000",
        "border": "#9fd0ff",
        "scrollbar": "#c8c8c8",
        "scrollbar-hover": "#c8c8c8",
        "scrollbar-active": "#ffffff",
        "scrollbar-background": "#1c1c1c",
        "scrollbar-background-hover": "#1c1c1c",
        "scrollbar-background-active": "#1c1c1c",
    },
)
THEMES = (DAY, NIGHT)
