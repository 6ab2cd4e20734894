"""Digits of solid half blocks, three rows high, to be read from two metres in the sun."""

from __future__ import annotations

from functools import lru_cache
from types import MappingProxyType

_ROWS = 6
"""Half rows: five of a digit and one below it."""

_SHAPES = MappingProxyType(
    {
        "0": ("###", "# #", "# #", "# #", "###"),
        "1": (" # ", "## ", " # ", " # ", "###"),
        "2": ("###", "  #", "###", "#  ", "###"),
        "3": ("###", "  #", " ##", "  #", "###"),
        "4": ("# #", "# #", "###", "  #", "  #"),
        "5": ("###", "#  ", "###", "  #", "###"),
        "6": ("###", "#  ", "###", "# #", "###"),
        "7": ("###", "  #", "  #", " # ", " # "),
        "8": ("###", "# #", "###", "# #", "###"),
        "9": ("###", "# #", "###", "  #", "###"),
        "-": ("   ", "   ", "###", "   ", "   "),
        "/": ("  #", "  #", " # ", "#  ", "#  "),
        "?": ("###", "  #", " ##", "   ", " # "),
        ".": (" ", " ", " ", " ", "#"),
        ",": (" ", " ", " ", " ", "#", "#"),
        " ": (" ", " ", " ", " ", " "),
    }
)
_HALVES = MappingProxyType(
    {(True, True): "█", (True, False): "▀", (False, True): "▄", (False, False): " "}
)


@lru_cache(maxsize=64)
def solid(figure: str) -> tuple[str, ...]:
    """A number in three rows of blocks; a character without a shape is left out.

    >>> for row in solid("4.2"):
    ...     print(row)
    █ █   ▀▀█
    ▀▀█   █▀▀
      ▀ ▀ ▀▀▀
    """
    shapes = [_SHAPES[character] for character in figure if character in _SHAPES]
    rows = [
        " ".join(shape[at] if at < len(shape) else " " * len(shape[0]) for shape in shapes)
        for at in range(_ROWS)
    ]
    return tuple(
        "".join(_HALVES[upper == "#", lower == "#"] for upper, lower in zip(*pair, strict=True))
        for pair in zip(rows[::2], rows[1::2], strict=True)
    )
