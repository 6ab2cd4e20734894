"""Every act of the screen below by its name, to be found by a part of it."""

from __future__ import annotations

from textual.command import CommandPalette


class Palette(CommandPalette):
    """Textual's palette in the colours of the book, without a sign that a font may lack."""

    DEFAULT_CSS = """
    Palette {
        background: transparent;
        & SearchIcon { display: none; }
        & #--input { border: hkey $border; border-bottom: none; }
        & CommandList { border-bottom: hkey $border; }
        & CommandList > .option-list--option-highlighted {
            color: $background; background: $primary;
        }
        & > .command-palette--help-text { text-style: not bold; }
    }
    """

    def __init__(self) -> None:
        """Ask what is to be done."""
        super().__init__(placeholder="What to do: type a part of its name")
