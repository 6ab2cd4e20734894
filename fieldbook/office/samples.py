"""The sample jobs, made into a shelf by recording their entries as a crew would."""

from __future__ import annotations

import datetime as dt
import json
from importlib.resources import files
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fieldbook.quantities.admit import draft_from
from fieldbook.store.job.book import Book
from fieldbook.store.log.disk import make_folders, write_whole
from fieldbook.store.shelf.shelf import Shelf

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.store.shelf.home import Home

BEGUN = "begun"
FINISHED = "finished"


def sample_folder() -> Path:
    """Where the sample jobs lie: in the installed package, or beside it in a checkout."""
    installed = Path(str(files("fieldbook"))) / "sample_jobs"
    return installed if installed.is_dir() else installed.parents[1] / "sample_jobs"


def sample_names() -> list[str]:
    """The sample jobs by name."""
    return sorted(path.name.removesuffix(f".{BEGUN}.jsonl") for path in _begun())


def _begun() -> list[Path]:
    return sorted(sample_folder().glob(f"*.{BEGUN}.jsonl"))


def sample_lines(name: str, *, complete: bool = False) -> Iterator[dict[str, Any]]:
    """The entries of a sample job in order: as far as it was begun, or to its end.

    Each is a document as `fieldbook enter` takes it, with the time it was made under `at`.
    """
    for part in (BEGUN, FINISHED) if complete else (BEGUN,):
        path = sample_folder() / f"{name}.{part}.jsonl"
        for line in path.read_text(encoding="utf-8").splitlines():
            yield json.loads(line)


def build_shelf(home: Home, *, complete: bool = False) -> None:
    """Record every sample job on the shelf of `home`, and give it the sample gear and numbers.

    Args:
        home: The book's home.
        complete: Whether each job is walked to its end.
    """
    make_folders(home.gear_folder)
    write_whole(home.emergency_file, (sample_folder() / "emergency.toml").read_bytes())
    for path in sorted((sample_folder() / "gear").glob("*.toml")):
        write_whole(home.gear_folder / path.name, path.read_bytes())
    for name in sample_names():
        build_job(home, name, complete=complete)


def build_job(home: Home, name: str, *, complete: bool = False) -> Path:
    """Record one sample job on the shelf of `home` and return its folder."""
    documents = list(sample_lines(name, complete=complete))
    times = [dt.datetime.fromisoformat(document.pop("at")) for document in documents]
    shelf = Shelf(home)
    clock = iter(times)
    opening = draft_from(documents[0])
    folder = shelf.create(opening, clock=lambda: next(clock))
    with Book.open(folder, home.device_id(), clock=lambda: next(clock)) as book:
        for document in documents[1:]:
            book.record(draft_from(document))
    return folder
