"""Text from people, made safe to show anywhere."""

from __future__ import annotations

import unicodedata


def plain(text: str) -> str:
    """`text` with no control, format or surrogate characters, so that it can only be read.

    Terminal escapes, direction overrides and invisible characters become a visible mark; tabs and
    line ends become a space.

    >>> plain("joint 3" + chr(27) + "[2J")
    'joint 3?[2J'
    """
    if text.isprintable():
        return text
    return "".join(_shown(character) for character in text)


def _shown(character: str) -> str:
    if character in "\t\n\r":
        return " "
    return "?" if unicodedata.category(character) in {"Cc", "Cf", "Cs", "Co", "Cn"} else character
