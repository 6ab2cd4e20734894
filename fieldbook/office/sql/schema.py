"""The tables: wells, jobs, entries, readings."""

from __future__ import annotations

from sqlalchemy import (
    BigInteger,
    Boolean,
    Column,
    DateTime,
    Double,
    ForeignKey,
    Integer,
    MetaData,
    String,
    Table,
    Text,
)

FORMAT = 1
"""Of the tables; raised when they say other than before."""
METADATA = MetaData()

ABOUT = Table("fieldbook_about", METADATA, Column("format", Integer, primary_key=True))
"""Which format the tables are in."""

WELLS = Table(
    "wells",
    METADATA,
    Column("well", String(900), primary_key=True),  # how the well is known, in one word
    Column("tag", Text, nullable=False),
    Column("owner", Text, nullable=False),
    Column("name", Text, nullable=False),
)

JOBS = Table(
    "jobs",
    METADATA,
    Column("job", String(64), primary_key=True),  # the id that every log of the job carries
    Column("well", String(900), index=True),  # none where the job tells no well
    Column("number", Text, nullable=False),
    Column("title", Text, nullable=False),
    Column("owner", Text, nullable=False),
    Column("well_name", Text, nullable=False),
    Column("site", Text, nullable=False),
    Column("line", Text, nullable=False),
    Column("work", Text, nullable=False),
    Column("begun", DateTime(timezone=True), index=True),
    Column("saved", DateTime(timezone=True)),
    Column("sealed", Boolean, nullable=False),
    Column("problems", Integer, nullable=False),  # found wrong with its logs
    Column("heads", Text, nullable=False),  # file=hash of its last line, a line each
    Column("seen", Text, nullable=False),  # names, lengths and times of its logs when exported
)

ENTRIES = Table(
    "entries",
    METADATA,
    Column("entry", String(36), primary_key=True),
    Column("job", String(64), ForeignKey("jobs.job"), nullable=False, index=True),
    Column("seq", BigInteger, nullable=False),
    Column("time", DateTime(timezone=True), nullable=False),  # UTC
    Column("utc_offset", Integer, nullable=False),  # of the device's clock, minutes
    Column("by", Text, nullable=False),
    Column("device", Text, nullable=False),
    Column("kind", String(32), nullable=False, index=True),
    Column("note", Text, nullable=False),
    Column("strikes", String(36)),
    Column("struck", Boolean, nullable=False),  # by a live entry
)

READINGS = Table(
    "readings",
    METADATA,
    Column("entry", String(36), ForeignKey("entries.entry"), primary_key=True),
    Column("quantity", String(64), primary_key=True),
    Column("job", String(64), ForeignKey("jobs.job"), nullable=False, index=True),
    Column("text", Text, nullable=False),  # as typed
    Column("number", Double),  # as typed, in `unit`; none for words
    Column("unit", Text, nullable=False),
    Column("value", Double),  # in `value_unit`, the one unit of the quantity
    Column("value_unit", Text, nullable=False),
    Column("origin", Text, nullable=False),
)
