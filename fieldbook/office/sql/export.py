"""Puts the shelf into the database: what changed, once, in whole jobs.

Entries are never changed and never taken out, so an entry that the database has is left alone.
Run twice it changes nothing; stopped at any moment it leaves whole jobs, and goes on next time.
"""

from __future__ import annotations

import json
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import create_engine, delete, event, insert, make_url, select, update
from sqlalchemy.exc import ArgumentError, NoSuchModuleError, SQLAlchemyError

from fieldbook.office.export.address import redacted, redacted_in
from fieldbook.office.sql.rows import entry_row, job_row, reading_rows, well_mark, well_row
from fieldbook.office.sql.schema import ABOUT, ENTRIES, FORMAT, JOBS, METADATA, READINGS, WELLS
from fieldbook.quantities.plain import plain
from fieldbook.small_file import refuse_special
from fieldbook.store.job.book import Book
from fieldbook.store.log.disk import write_new
from fieldbook.store.shelf.wells import wells

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from sqlalchemy import Connection, Engine
    from sqlalchemy.engine.interfaces import DBAPIConnection
    from sqlalchemy.pool import ConnectionPoolEntry

    from fieldbook.office.sql.rows import Row
    from fieldbook.store.shelf.shelf import Shelf
    from fieldbook.store.shelf.summary import Summary

_DRIVERS = {"postgresql": "postgresql+psycopg", "postgres": "postgresql+psycopg"}


class CannotExport(Exception):
    """The database cannot be used; the message says why, and never a password."""


@dataclass(slots=True)
class Exported:
    """What an export did.

    Attributes:
        to: The database, without what opens it.
        jobs: Numbers of the jobs that were written, new or changed.
        same: How many jobs were there already as they are.
        entries: How many entries were added.
        behind: Numbers of jobs of which the database has entries that this shelf has not: gather
            them first. What this shelf has of them is there, the rest is left alone.
        unread: Why a job was left out, by its folder.
    """

    to: str
    jobs: list[str] = field(default_factory=list)
    same: int = 0
    entries: int = 0
    behind: list[str] = field(default_factory=list)
    unread: dict[str, str] = field(default_factory=dict)

    @property
    def clean(self) -> bool:
        """Whether nothing needs a person."""
        return not self.behind and not self.unread


def export(
    shelf: Shelf, url: str, *, on_progress: Callable[[int, int], None] = lambda _done, _of: None
) -> Exported:
    """Bring a database up to a shelf.

    Args:
        shelf: The jobs, as last refreshed.
        url: Of the database, as SQLAlchemy spells it.
        on_progress: Is called with how many of how many jobs are there.

    Raises:
        CannotExport: The database cannot be reached, or its tables are of another format.
    """
    engine = _engine(url)
    done = Exported(redacted(url))
    try:
        _reach(engine, url)
        with _said(url):
            _Export(engine, shelf, done).run(on_progress)
    finally:
        engine.dispose()
    return done


def _reach(engine: Engine, url: str) -> None:
    """Connect once: a driver may say of an address whatever it likes, by any kind of error."""
    file = engine.url.database
    try:
        if engine.dialect.name == "sqlite" and file and not file.startswith((":", "file:")):
            # Made by us, so that nobody else can read it; what we cannot make SQLite tells.
            with suppress(OSError):
                write_new(Path(file), b"")
        with engine.connect():
            pass
    except Exception as error:
        raise CannotExport(_in_a_line(error, url)) from error


class _Export:
    def __init__(self, engine: Engine, shelf: Shelf, done: Exported) -> None:
        self._engine = engine
        self._shelf = shelf
        self._done = done

    def run(self, on_progress: Callable[[int, int], None]) -> None:
        jobs = self._shelf.index.documents()
        known_wells = wells(jobs)
        well_of = {j["folder"]: well_mark(key) for key, of in known_wells.items() for j in of}
        with self._engine.begin() as connection:
            METADATA.create_all(connection)
            _check_format(connection)
            found = connection.execute(select(JOBS.c.job, JOBS.c.seen, JOBS.c.well)).all()
        kept = {job: (seen, well) for job, seen, well in found}
        for number, summary in enumerate(jobs):
            on_progress(number, len(jobs))
            well = well_of.get(summary["folder"])
            if kept.get(summary["job"]) == (_seen(summary), well):
                self._done.same += 1
            else:
                self._job(summary, well)
        with self._engine.begin() as connection:
            _put_wells(connection, [well_row(key, of) for key, of in known_wells.items()])
        on_progress(len(jobs), len(jobs))

    def _job(self, summary: Summary, well: str | None) -> None:
        folder = self._shelf.folder_of(summary)
        try:
            with Book.open(folder, "", write=False) as book:
                if not book.job_id:
                    self._done.unread[folder.name] = "no log here can be told the job of"
                    return
                with self._engine.begin() as connection:
                    self._put(connection, book, job_row(book, well, _seen(summary)))
        except OSError as error:
            self._done.unread[folder.name] = error.strerror or str(error)

    def _put(self, connection: Connection, book: Book, row: Row) -> None:
        job, job_id = book.job, book.job_id
        is_known = connection.execute(select(JOBS.c.job).where(JOBS.c.job == job_id)).first()
        asked = select(ENTRIES.c.entry, ENTRIES.c.struck).where(ENTRIES.c.job == job_id)
        struck = {row.entry: row.struck for row in connection.execute(asked)}
        if struck.keys() - {entry.id for entry in job.entries}:
            self._done.behind.append(row["number"])
        elif is_known is not None:
            connection.execute(update(JOBS).where(JOBS.c.job == job_id).values(row))
        if is_known is None:
            connection.execute(insert(JOBS), row)
        new = [entry for entry in job.entries if entry.id not in struck]
        if new:
            connection.execute(insert(ENTRIES), [entry_row(job_id, job, e) for e in new])
        if readings := [reading for entry in new for reading in reading_rows(job_id, entry)]:
            connection.execute(insert(READINGS), readings)
        for entry in job.entries:
            if struck.get(entry.id, not job.is_live(entry)) == job.is_live(entry):
                changed = update(ENTRIES).where(ENTRIES.c.entry == entry.id)
                connection.execute(changed.values(struck=not job.is_live(entry)))
        self._done.entries += len(new)
        self._done.jobs.append(row["number"])


def _put_wells(connection: Connection, rows: list[Row]) -> None:
    """Every well as this shelf names it; one that no job is of any longer goes."""
    for row in rows:
        connection.execute(delete(WELLS).where(WELLS.c.well == row["well"]))
    if rows:
        connection.execute(insert(WELLS), rows)
    visited = select(JOBS.c.well).where(JOBS.c.well.is_not(None))
    connection.execute(delete(WELLS).where(WELLS.c.well.not_in(visited)))


def _seen(summary: Summary) -> str:
    return json.dumps(summary.get("stamp"), separators=(",", ":"))


def _check_format(connection: Connection) -> None:
    there = connection.execute(select(ABOUT.c.format)).scalar()
    if there is None:
        connection.execute(insert(ABOUT), {"format": FORMAT})
    elif there != FORMAT:
        raise CannotExport(
            f"its tables are of format {there}, ours is {FORMAT}: export to a new database"
        )


def _engine(url: str) -> Engine:
    try:
        address = make_url(url)
        driver = _DRIVERS.get(address.drivername, address.drivername)
        engine = create_engine(address.set(drivername=driver))
    except (NoSuchModuleError, ModuleNotFoundError) as error:
        words = "no driver for this kind of database is installed:"
        raise CannotExport(f"{words} {plain(redacted_in(str(error), url))[:200]}") from error
    except (ArgumentError, ValueError, TypeError) as error:  # such as a port that is no number
        words = "that is no address of a database; write it as sqlite:///jobs.sqlite"
        raise CannotExport(words) from error
    if engine.dialect.name == "sqlite":
        _refuse_special(address.database)
        event.listen(engine, "connect", _keep_relations)
    return engine


def _refuse_special(database: str | None) -> None:
    """Refuse a link or a pipe in the place of a database file: it is written where it leads.

    Raises:
        CannotExport: There is one.
    """
    if not database or database == ":memory:" or database.startswith("file:"):
        return
    try:
        refuse_special(Path(database))
    except OSError as error:
        raise CannotExport(error.strerror or str(error)) from error


def _keep_relations(connection: DBAPIConnection, _record: ConnectionPoolEntry) -> None:
    """Have SQLite hold the foreign keys, which it does only where it is asked."""
    cursor = connection.cursor()
    cursor.execute("PRAGMA foreign_keys = ON")
    cursor.close()


@contextmanager
def _said(url: str) -> Iterator[None]:
    """Says in one line what the database said."""
    try:
        yield
    except SQLAlchemyError as error:
        raise CannotExport(_in_a_line(error, url)) from error


def _in_a_line(error: Exception, url: str) -> str:
    said = redacted_in(str(getattr(error, "orig", None) or error), url).strip().split("\n")[0]
    return plain(f"{redacted(url)}: {said[:200] or type(error).__name__}")
