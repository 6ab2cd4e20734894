"""The words that people read for a verdict, back into its code."""

from __future__ import annotations

import re

CODES = {
    "OK TO LIFT": "within",
    "LIFT WITH CAUTION": "caution",
    "CAN'T SAY": "unknown",
    "STOP": "stop",
    "OK": "within",
    "CAUTION": "caution",
}
_FIRST = re.compile("|".join(CODES), re.IGNORECASE)


def code_of(text: str, after: str = "") -> str:
    """The code of the verdict that a text begins with, or that stands first after some words.

    Args:
        text: What people read.
        after: Words that come right before the verdict; none where the text begins with it.
    """
    start = re.search(after, text, re.MULTILINE)
    assert start is not None, f"{after!r} is not in:\n{text}"
    match = _FIRST.match(text[start.end() :].lstrip())
    assert match is not None, f"no verdict after {after!r} in:\n{text}"
    return CODES[match.group().upper()]
