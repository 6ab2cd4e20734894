"""The proof at length: `python -m tests.store.long_run [KILLS]`, from the top of the repository.

It kills a recording program 5,000 times, or as often as is said, and prints what became of it.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from tests.store.kill_run import kill_often

KILLS = 5_000
SEED = 1


def main() -> int:
    """Run it and print the figures; 1 when an entry was lost."""
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else KILLS
    with tempfile.TemporaryDirectory(dir=".", prefix=".long-run-") as root:
        figures = kill_often(Path(root), kills, SEED)
    print(figures)
    return 1 if figures.lost else 0


if __name__ == "__main__":
    raise SystemExit(main())
