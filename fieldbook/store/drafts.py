"""What was half typed when the book was closed; kept in the home, never in a job's log.

Nothing here is a record. A draft stands in its field again when the job is opened, and is recorded
only by the person who then saves the form.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from fieldbook.quantities.plain import plain
from fieldbook.store.disk import make_folders, write_whole

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fieldbook.store.home import Home

Drafts = dict[str, dict[str, str]]
"""Step id -> quantity -> what is typed into its field and not saved."""

_LONGEST_FILE = 1_000_000  # bytes; no hand types more, so it is not a draft


def read_drafts(home: Home, job: Path) -> Drafts:
    """What was half typed into a job; nothing where nothing was kept or it cannot be read."""
    path = _path(home, job)
    try:
        if path.stat().st_size > _LONGEST_FILE:
            return {}
        kept = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError, RecursionError):
        return {}
    if not isinstance(kept, dict):
        return {}
    return {
        step: {name: plain(text) for name, text in texts.items() if isinstance(text, str)}
        for step, texts in kept.items()
        if isinstance(texts, dict)
    }


def keep_drafts(home: Home, job: Path, drafts: Mapping[str, Mapping[str, str]]) -> None:
    """Keep what is half typed into a job, in the place of what was kept before.

    Raises:
        OSError: It could not be kept.
    """
    path = _path(home, job)
    if not drafts:
        path.unlink(missing_ok=True)
        return
    make_folders(path.parent)
    write_whole(path, json.dumps(drafts).encode("ascii"))


def _path(home: Home, job: Path) -> Path:
    return home.path / "drafts" / f"{job.name}.json"
