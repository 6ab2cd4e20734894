"""Initials: who records, who saw it, whose paper it is."""

from __future__ import annotations

import re
import unicodedata

INITIALS = ("initials", "witness", "written_by", "entered_by")
"""Quantities that are somebody's initials."""
_SHAPE = re.compile(r"LM*(?:\.?-?LM*){0,3}\.?")
"""Letters with their marks; a dot behind each, and a hyphen before the next, as in J.-P.R."""


def initials_problem(text: str) -> str:
    """Why a text is nobody's initials, in plain words; empty where it may be.

    They are 1 to 4 letters of any script, with dots and hyphens between them as people write them.
    A figure or a sign names nobody, and a blank inside makes two of one person. What was recorded
    before stays as it was: this is asked of what is new.

    >>> initials_problem("J.R.")
    ''
    >>> initials_problem("7")
    'initials are 1 to 4 letters, as QA or J.R.'
    """
    shape = "".join(map(_kind, text))
    return "" if _SHAPE.fullmatch(shape) else "initials are 1 to 4 letters, as QA or J.R."


def _kind(character: str) -> str:
    kind = unicodedata.category(character)[0]
    return kind if kind in "LM" else character if character in ".-" else "?"
