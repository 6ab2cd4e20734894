"""The job's tables as CSV: one header a column with its unit, safe to open in a spreadsheet."""

from __future__ import annotations

import csv
import io
import unicodedata
from typing import TYPE_CHECKING

from fieldbook.office.export.bill import HEADS, bill
from fieldbook.office.export.cell_time import TIME_HEADS, time_cells
from fieldbook.quantities.convert import number_in
from fieldbook.quantities.definition import Definition, definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable

    from fieldbook.record.entry import Entry
    from fieldbook.record.job import Job

TABLES = {
    "tally": ("joint", "footage"),
    "readings": ("load", "drain", "pump_out", "meter", "level"),
    "materials": ("material", "hours"),
    "findings": ("finding",),
}
"""Table name -> the kinds of entry it holds; `events` holds every entry, struck ones too."""

# A cell that starts with one of these runs as a formula in a spreadsheet.
_FORMULA_STARTS = ("=", "+", "-", "@")


def defused(text: str) -> str:
    """Text for a cell, with an apostrophe before whatever a spreadsheet would run.

    A spreadsheet may pass over blanks, and characters that are not seen, before a sign, and takes
    a full-width sign, or a small one, for the plain one.

    >>> defused("=1+1")
    "'=1+1"
    >>> defused(" \N{FULLWIDTH EQUALS SIGN}1+1")
    "' \N{FULLWIDTH EQUALS SIGN}1+1"
    """
    shown = plain(text)
    first = next((character for character in text if not _is_unseen(character)), "")
    is_run = unicodedata.normalize("NFKC", first).startswith(_FORMULA_STARTS)
    return f"'{shown}" if is_run else shown


def _is_unseen(character: str) -> bool:
    return unicodedata.category(character)[0] in "ZCM"


def table(job: Job, name: str) -> str:
    """One of `TABLES` as CSV text, live entries only, in the order of the log."""
    entries = sorted(
        (entry for kind in TABLES[name] for entry in job.live(kind)), key=lambda entry: entry.order
    )
    columns = _columns(TABLES[name], entries)
    heads = ["seq", *TIME_HEADS, "by", "kind", *map(_head, columns), "note"]
    rows = [
        [*_who(entry), *(_cell(entry, column) for column in columns), defused(entry.note)]
        for entry in entries
    ]
    return _csv([heads, *rows])


def events(job: Job) -> str:
    """Every entry as recorded, a row each, with what was typed and who struck it."""
    rows = [["seq", *TIME_HEADS, "by", "device", "kind", "struck by", "typed", "note", "id",
             "strikes"]]  # fmt: skip
    for entry in job.entries:
        typed = "; ".join(f"{name} {figure(value)}" for name, value in entry.values.items())
        struck = ", ".join(f"{striker.by} ({striker.seq})" for striker in job.struck_by(entry))
        seq, time, zone, by, kind = _who(entry)
        rows.append(
            [seq, time, zone, by, defused(entry.device), kind, defused(struck), defused(typed),
             defused(entry.note), entry.id, entry.strikes or ""]
        )  # fmt: skip
    return _csv(rows)


def bill_table(job: Job) -> str:
    """Hours, miles, approvals and materials, summed as `bill` sums them, a line a row."""
    lines = ([defused(cell) for cell in line.cells] for line in bill(job))
    return _csv([HEADS, *lines])


def _who(entry: Entry) -> list[str]:
    return [str(entry.seq), *time_cells(entry.time), defused(entry.by), entry.kind]


def _columns(kind_names: Iterable[str], entries: list[Entry]) -> list[Definition]:
    """The quantities that any entry speaks of, in the order their kinds list them."""
    spoken = {name for entry in entries for name in entry.values}
    order = dict.fromkeys(
        name for kind in kind_names for name in (*kinds()[kind].needs, *kinds()[kind].may)
    )
    return [definition(name) for name in order if name in spoken]


def _head(column: Definition) -> str:
    return f"{column.name} [{column.unit}]" if column.unit else column.name


def _cell(entry: Entry, column: Definition) -> str:
    value = entry.values.get(column.name)
    if value is None:
        return ""
    if value.number is None:
        return defused(value.text)
    # A negative number is a number to a spreadsheet, not a formula.
    return f"{number_in(value, column.unit):.6g}"


def _csv(rows: Iterable[Iterable[str]]) -> str:
    text = io.StringIO()
    csv.writer(text, lineterminator="\r\n").writerows(rows)
    return text.getvalue()
