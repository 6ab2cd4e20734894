"""Entry ids: unique on every device without asking any other, and ordered by time."""

from __future__ import annotations

import re
import secrets
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from datetime import datetime

SHAPE = "[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"
"""An entry id as a regular expression."""
_SHAPE = re.compile(SHAPE)


def new_id(time: datetime) -> str:
    """A version 7 UUID for an entry made at `time`.

    Source:
        RFC 9562, section 5.7: 48 bits of Unix milliseconds, version, 12 random bits, variant,
        62 random bits.
    """
    milliseconds = int(time.timestamp() * 1000) & 0xFFFF_FFFF_FFFF
    bits = (milliseconds << 80) | (0x7 << 76) | (secrets.randbits(12) << 64)
    bits |= (0b10 << 62) | secrets.randbits(62)
    digits = f"{bits:032x}"
    return "-".join((digits[:8], digits[8:12], digits[12:16], digits[16:20], digits[20:]))


def is_id(text: str) -> bool:
    """Whether `text` has the shape of an entry id."""
    return _SHAPE.fullmatch(text) is not None
