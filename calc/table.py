"""Reads the tables of `calc/tables`.

A table is a CSV file. Lines that start with `#` come first and state what the table is, its
source and edition, and which figures were seen and which are from memory; `source` returns them.
The first other line names the columns, each with its unit in brackets.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from calc.errors import OutOfRange


@cache
def _lines(name: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    text = (files("calc") / "tables" / f"{name}.csv").read_text(encoding="utf-8")
    head = tuple(line[1:].strip() for line in text.splitlines() if line.startswith("#"))
    body = tuple(line for line in text.splitlines() if line.strip() and not line.startswith("#"))
    return head, body


@cache
def rows(name: str) -> tuple[dict[str, str], ...]:
    """The rows of table `name`, each as column name -> text."""
    return tuple(csv.DictReader(_lines(name)[1]))


def source(name: str) -> str:
    """The header of table `name`: what it is and where its figures come from."""
    return " ".join(_lines(name)[0])


def row(name: str, column: str, wanted: str) -> dict[str, str]:
    """The row of table `name` whose `column` reads `wanted`.

    Raises:
        OutOfRange: There is no such row; the message lists what there is.
    """
    known = {each[column]: each for each in rows(name)}
    if wanted not in known:
        raise OutOfRange(f"no {column} {wanted!r} in the table; there is {'; '.join(known)}")
    return known[wanted]
