"""The few shapes that a sheet is made of: a section, a list of facts, a table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldbook.office.sheet.markup import Child, element
from fieldbook.quantities.definition import definition
from fieldbook.quantities.figures import figure
from fieldbook.quantities.kinds import kinds
from fieldbook.record.entry import Origin

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import datetime
    from xml.etree.ElementTree import Element

    from fieldbook.record.entry import Value
    from fieldbook.record.job import Job

LINE_WORDS = {"pvc": "threaded PVC", "steel": "galvanized steel", "hose": "riser hose on a reel"}
"""Each drop line as a reader outside the trade may call it."""

_PLAIN_ORIGINS = frozenset({Origin.MEASURED, Origin.STATED})
_CLASS_OF = {"#": "n", "@": "one"}
_LONGEST_WORD = 18  # a longer one may be broken anywhere, so that no table grows off the paper
_NOT_A_FACT = frozenset(
    {"step", "reason", "relies_on", "recorded", "witness", "role", "part"}
    | {"written_by", "written_on", "written_at", "entered_by"}
)


def section(title: str, *children: Child, class_: str = "") -> Element:
    """A part of the sheet under its heading."""
    return element("section", element("h2", title), *children, class_=class_ or "part")


def facts(pairs: Iterable[tuple[str, Child]]) -> Element | None:
    """Label and value, line by line; None when there is nothing to say."""
    rows = [
        element("div", element("dt", label), element("dd", value))
        for label, value in pairs
        if value is not None and value != ""
    ]
    return element("dl", *rows) if rows else None


def said(job: Job, kind: str, names: Sequence[str] = ()) -> list[tuple[str, Child]]:
    """What the newest entries of a kind say, quantity by quantity, as facts.

    Args:
        job: The job.
        kind: The kind of entry.
        names: The quantities wanted, in order; all that belong to the kind when left out.
    """
    belong = (*kinds()[kind].needs, *kinds()[kind].may)
    wanted = names or [name for name in belong if name not in _NOT_A_FACT]
    return [
        (definition(name).label, value_element(value, name))
        for name in wanted
        if (value := job.value(kind, name)) is not None
    ]


def value_element(value: Value, name: str = "") -> Element:
    """A value as typed, and where it comes from unless somebody measured or said it."""
    words = element("span", figure(value, name))
    if value.number is not None and value.origin not in _PLAIN_ORIGINS:
        words.append(element("small", f" {value.origin.value}"))
    return words


def table(heads: Sequence[str], rows: Iterable[Sequence[Child]]) -> Element:
    """A table whose heads stand again on every page it runs over.

    A head that begins with `#` is of figures, which are set to the right; one that begins with `@`
    is of cells that stay on one line. A column in which no row says anything is left out.
    """
    filled = [list(row) for row in rows]
    columns = [at for at in range(len(heads)) if any(row[at] not in ("", None) for row in filled)]
    head = element("tr", *(_cell("th", heads[at].lstrip("#@"), heads[at]) for at in columns))
    lines = (element("tr", *(_cell("td", row[at], heads[at]) for at in columns)) for row in filled)
    return element("table", element("thead", head), element("tbody", *lines))


def _cell(tag: str, child: Child, head: str) -> Element:
    cell = element(tag, child)
    longest = max((len(word) for word in "".join(cell.itertext()).split()), default=0)
    class_ = "long" if longest > _LONGEST_WORD else _CLASS_OF.get(head[0], "")
    if class_:
        cell.set("class", class_)
    return cell


def notice(word: str, *children: Child) -> Element:
    """A framed notice under a word that cannot be overlooked."""
    return element("div", element("strong", word), *children, class_="notice")


def bullets(items: Iterable[Child]) -> Element:
    """A list of short lines."""
    return element("ul", *(element("li", item) for item in items))


def day_and_time(time: datetime) -> str:
    """Day and minute by the device's clock, as the log has it."""
    return f"{time:%Y-%m-%d %H:%M}"
