"""Which jobs were on the same well, known by the index.

A well is known by its tag (`well_id`), which stays the same job after job. Where a job names no
tag, the well is known by its owner and its name together; such a job belongs to the tag that other
jobs with that owner and name carry, if they all carry the same one. A name without an owner, or an
owner without a name, tells no well: two owners each have a "well 2", and figures of another well
are worse than none.
"""

from __future__ import annotations

from collections import defaultdict
from itertools import islice
from typing import TYPE_CHECKING

from fieldbook.record.memory import Memory, remember
from fieldbook.store.job.book import Book

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from fieldbook.record.job import Job
    from fieldbook.store.shelf.shelf import Shelf
    from fieldbook.store.shelf.summary import Summary

_MOST_READ = 12
WellKey = tuple[str, ...]
"""("tag", tag) or ("name", owner, well), spelled the same whoever typed it."""


def well_tag(tag: str) -> str:
    """A tag without what people write differently: capitals, spaces, dashes.

    >>> well_tag("K-0417") == well_tag("k 0417")
    True
    """
    return "".join(character for character in tag.casefold() if character.isalnum())


def well_name(name: str) -> str:
    """A name without capitals and punctuation.

    >>> well_name("Barn  well, No. 2")
    'barn well no 2'
    """
    return " ".join("".join(c if c.isalnum() else " " for c in name.casefold()).split())


def wells(summaries: Iterable[Summary]) -> dict[WellKey, list[Summary]]:
    """The jobs of each well, in the order given; a job that tells no well is left out."""
    rows = [(_tag(summary), _name(summary), summary) for summary in summaries]
    tags: defaultdict[WellKey, set[WellKey]] = defaultdict(set)
    for tag, name, _ in rows:
        if tag and name:
            tags[name].add(tag)
    found: defaultdict[WellKey, list[Summary]] = defaultdict(list)
    for tag, name, summary in rows:
        key = tag
        if not key and name:
            known = tags.get(name, set())
            key = next(iter(known)) if len(known) == 1 else name
        if key:
            found[key].append(summary)
    return dict(found)


def jobs_on_well(shelf: Shelf, job: Job) -> list[Summary]:
    """The earlier jobs on the well of `job`, the newest first, as of the last refresh of `shelf`.

    Earlier is what was begun before it by the clocks of the devices.
    """
    if not job.entries:
        return []
    begun = job.entries[0].time.timestamp()
    own = {
        "owner": job.text("job", "owner"),
        "well": job.text("job", "well_name"),
        "well_id": job.text("job", "well_id") or job.text("well", "well_id"),
    }
    for jobs in wells([own, *shelf.index.documents()]).values():
        if jobs[0] is own:
            earlier = [summary for summary in jobs[1:] if summary["begun_at"] < begun]
            return sorted(earlier, key=lambda summary: -summary["begun_at"])
    return []


def earlier_on_well(shelf: Shelf, job: Job) -> Iterator[Job]:
    """The earlier jobs on the same well, the newest first, each read from its logs when asked for.

    Which jobs there are is known by the index as it was last refreshed: call `shelf.refresh` first
    where the shelf may have changed since. A job that cannot be read is passed over.
    """
    for summary in jobs_on_well(shelf, job):
        try:
            with Book.open(shelf.folder_of(summary), "", write=False) as book:
                if book.job.entries:
                    yield book.job
        except OSError:
            continue


def memory_of_well(shelf: Shelf, job: Job) -> Memory | None:
    """What the earlier jobs on the well of `job` remember; at most so many are read."""
    return remember(islice(earlier_on_well(shelf, job), _MOST_READ))


def _tag(summary: Summary) -> WellKey:
    tag = well_tag(summary["well_id"])
    return ("tag", tag) if tag else ()


def _name(summary: Summary) -> WellKey:
    owner, well = well_name(summary["owner"]), well_name(summary["well"])
    return ("name", owner, well) if owner and well else ()
