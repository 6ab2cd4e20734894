"""What was half typed when the book was closed; kept in the home, never in a job's log.

Nothing here is a record. A draft is in its field again when the job is opened, and is recorded
only by the person who then saves the form. It belongs to the job as it was when it was typed: once
anything was recorded since, it may have been recorded itself, or be meant for a joint that another
crew has handled, so it is not restored.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, NamedTuple

from fieldbook.quantities.plain import plain
from fieldbook.small_file import read_small, refuse_linked
from fieldbook.store.log.disk import make_folders, write_whole

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fieldbook.store.shelf.home import Home

Drafts = dict[str, dict[str, str]]
"""Step id -> quantity -> what is typed into its field and not saved."""

_LONGEST_FILE = 1_000_000  # bytes; no hand types more, so it is not a draft


class TypedAt(NamedTuple):
    """What a draft was typed into: the job as it was, and how its form reads what is typed.

    Attributes:
        seq: The job's last sequence number.
        entries: How many entries the job had; another device may add one of a number long passed.
        metric: Whether a number without a unit is metric.
        paper: Whether a paper was being put in, and not what happens now.
    """

    seq: int
    entries: int
    metric: bool = False
    paper: bool = False


def read_drafts(home: Home, job: Path, now: TypedAt) -> Drafts:
    """What was half typed into a job as it is `now`.

    Nothing where nothing was kept, where it cannot be read, or where it was typed at another state
    of the job or for another form.
    """
    try:
        refuse_linked((path := _path(home, job)).parent)
        raw = read_small(path, _LONGEST_FILE)
        kept = json.loads(raw) if len(raw) <= _LONGEST_FILE else None
    except (OSError, ValueError, RecursionError):
        return {}
    if not isinstance(kept, dict) or kept.get("typed_at") != now._asdict():
        return {}
    steps = kept.get("steps")
    return {
        step: {name: plain(text) for name, text in texts.items() if isinstance(text, str)}
        for step, texts in (steps.items() if isinstance(steps, dict) else ())
        if isinstance(texts, dict)
    }


def keep_drafts(
    home: Home, job: Path, typed_at: TypedAt, drafts: Mapping[str, Mapping[str, str]]
) -> None:
    """Keep what is half typed into a job, in the place of what was kept before.

    Raises:
        OSError: It could not be kept.
    """
    path = _path(home, job)
    refuse_linked(path.parent)
    if not drafts:
        path.unlink(missing_ok=True)
        return
    make_folders(path.parent)
    kept = {"typed_at": typed_at._asdict(), "steps": drafts}
    write_whole(path, json.dumps(kept).encode("ascii"))


def _path(home: Home, job: Path) -> Path:
    return home.path / "drafts" / f"{job.name}.json"
