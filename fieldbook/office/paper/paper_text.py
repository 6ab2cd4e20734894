"""The form as plain text, for any printer and any terminal."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from fieldbook.quantities.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fieldbook.office.paper.paper import Blank, PaperForm, Task
    from fieldbook.office.paper.paper_rows import Table

_WIDTH = 78
_LINE = "_" * 12
_LONG = "_" * 28
_TIED = "\N{NO-BREAK SPACE}"
"""A space that no line is broken at; it is printed as any other."""


def paper_text(form: PaperForm) -> str:
    """The form, 78 characters wide, in letters that every printer has."""
    return "\n".join(plain_ascii(line) for line in _lines(form)) + "\n"


def plain_ascii(line: str) -> str:
    """`line` with a question mark for every letter that a plain printer may not have."""
    return plain(line).replace(_TIED, " ").encode("ascii", "replace").decode("ascii")


def _lines(form: PaperForm) -> Iterator[str]:
    yield f"PAPER FOR THE DAY THE BOOK CANNOT BE WRITTEN: {form.title}"
    yield "=" * _WIDTH
    yield from textwrap.wrap(form.left_out, _WIDTH)
    for label, said in form.head:
        yield _fact(label, said)
    yield f"{'Day':<26}{_LINE}   Written by (initials) {_LINE}"
    yield "* is needed. A hold waits for initials and time; a row of joints for them too."
    yield ""
    yield "BEFORE ANYTHING IS LIFTED"
    for label, words in form.limits:
        yield from textwrap.wrap(_fact(label, words), _WIDTH, subsequent_indent=" " * 26)
    for words in form.safety:
        yield from textwrap.wrap(words, _WIDTH)
    for heading, tasks in form.parts:
        yield ""
        yield f"--- {heading.upper()} ".ljust(_WIDTH, "-")
        for task in tasks:
            yield ""
            yield from _task(task)


def _fact(label: str, said: str) -> str:
    return f"{label:<26}{said or _LONG}"


def _task(task: Task) -> Iterator[str]:
    step = task.step
    when = f"  ({task.when})" if task.when else ""
    title = f"[{'x' if task.done else ' '}] {step.title}{when}"
    yield from textwrap.wrap(title, _WIDTH, subsequent_indent=" " * 4)
    if not task.done:
        yield from _wrapped(step.do)
    if step.caution is not None and not task.done:
        yield from _wrapped(f"{step.caution.word}: {step.caution.text}")
    yield from _pack([_place(blank) for blank in task.blanks])
    if task.table is not None:
        yield from _rows(task.table)
    if step.each_entry_is_the_yes:
        yield f"    HOLD {step.hold}: initials on a row confirm: {step.each_entry_says}"
    elif step.hold is not None and not task.done:
        yes = [f"HOLD {step.hold}, by {' or '.join(step.release)}:", f"initials {_LINE} at {_LINE}"]
        if step.witness:
            yes.append(f"second person {_LINE}")
        if step.checks:
            yes += ["where a check is not OK:", f"reason {_LONG}", f"going by {_LONG}"]
        yield from _pack(yes)
    if task.done:
        yield f"    {task.done}"
    elif step.hold is None and task.table is None:
        yield f"    at {_LINE} by {_LINE}"


def _place(blank: Blank) -> str:
    need = "*" if blank.must else ""
    unit = f" {blank.unit}" if blank.unit else ""
    if blank.said:
        return f"{blank.label}{need}: {blank.said}"
    if blank.choices:
        return f"{blank.label}{need}: " + "  ".join(f"( ){_TIED}{word}" for word in blank.choices)
    return f"{blank.label}{need} {_LINE if unit else _LONG}{unit}"


def _pack(places: list[str]) -> Iterator[str]:
    """As many places in a line as fit, none of them broken where it can be helped."""
    line = ""
    for place in places:
        if line and len(line) + len(place) + 7 > _WIDTH:
            yield from _wrapped(line)
            line = ""
        line = f"{line}   {place}" if line else place
    if line:
        yield from _wrapped(line)


def _rows(table: Table) -> Iterator[str]:
    letters = [chr(ord("A") + at) for at in range(len(table.heads))]
    yield from _pack([f"{a} {head}" for a, head in zip(letters, table.heads, strict=True)])
    for label, words in table.choices:
        yield from _wrapped(f"{label}: {', '.join(words)}")
    # Every column is as wide as what is in it, and shares the rest of the line.
    said = [max(map(len, column), default=0) for column in zip(*table.rows, strict=True)]
    width = max((_WIDTH - 4) // len(letters) - 1, 4)
    widths = [max(width, wide) for wide in said]
    yield "    " + " ".join(a.ljust(wide) for a, wide in zip(letters, widths, strict=True)).rstrip()
    for row in table.rows:
        cells = [
            cell.ljust(wide, " " if cell else "_") for cell, wide in zip(row, widths, strict=True)
        ]
        yield "    " + " ".join(cells).rstrip()


def _wrapped(words: str) -> Iterator[str]:
    yield from textwrap.wrap(
        words, _WIDTH, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False
    )
