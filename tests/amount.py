"""How much the slow proofs try: a sample in CI, all of it with `FIELDBOOK_LONG=1 pytest`.

A sample leaves out no property, only repetitions of it.
"""

from __future__ import annotations

import os
from typing import TypeVar

T = TypeVar("T")
LONG = os.environ.get("FIELDBOOK_LONG", "0") != "0"


def amount(sample: T, *, whole: T) -> T:
    """What is tried in CI, or in the long run."""
    return whole if LONG else sample
