"""A figure that nobody measured: `~110`, `about 110`."""

from __future__ import annotations

import re

_ABOUT = re.compile(r"(?:~|(?:about|approx\.?|abt\.?)(?![a-z])) *", re.IGNORECASE)
NOT_KNOWN = "?"
"""What is typed where nobody knows: an answer, and the line stays blank."""


def without_about(text: str) -> str:
    """The figure as it would be typed had it been measured.

    >>> without_about("~110 lb"), without_about("about 6 in"), without_about("110")
    ('110 lb', '6 in', '110')
    """
    return _ABOUT.sub("", text.strip(), count=1) if is_about(text) else text


def is_about(text: str) -> bool:
    """Whether what is typed says of itself that it is an estimate."""
    return _ABOUT.match(text.strip()) is not None
