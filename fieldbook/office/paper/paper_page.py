"""The form as a page that prints, black on white, on letter and on A4."""

from __future__ import annotations

from importlib.resources import files
from typing import TYPE_CHECKING

from fieldbook.office.sheet.markup import css_text, element, page

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

    from fieldbook.office.paper.paper import Blank, PaperForm, Task
    from fieldbook.office.paper.paper_rows import Table


def paper_page(form: PaperForm) -> str:
    """The form as one HTML document that fetches nothing."""
    name = " ".join(filter(None, (form.head[0][1], form.title))).strip()
    style = (files(__package__) / "paper.css").read_text(encoding="utf-8")
    style += f"@page {{ @bottom-left {{ content: {css_text(f'fieldbook paper, {name}')}; }} }}\n"
    body = [
        element("header", element("h1", "Paper for the day the book cannot be written"),
                element("p", name)),
        element("p", element("strong", form.left_out)) if form.left_out else None,
        element("dl", *(_fact(label, said) for label, said in form.head), class_="head"),
        element("p", "Day", _line(), "Written by (initials)", _line(), class_="who"),
        element("p", "* is needed. A hold waits for initials and time; so does a row of joints."
                " Put it into the book afterwards, entry by entry, with its times."),
        element("section", element("h2", "Before anything is lifted"),
                element("dl", *(_fact(label, words) for label, words in form.limits)),
                element("ul", *(element("li", words) for words in form.safety)),
                class_="limits"),
        *(element("section", element("h2", heading), *map(_task, tasks))
          for heading, tasks in form.parts),
    ]  # fmt: skip
    return page(f"Paper {name}", style, [element("main", *body)])


def _fact(label: str, said: str) -> Element:
    value = element("dd", said) if said else element("dd", class_="empty")
    return element("div", element("dt", label), value)


def _task(task: Task) -> Element:
    step = task.step
    caution = step.caution if not task.done else None
    words = [
        element("h3", element("span", "x" if task.done else "", class_="box"), step.title,
                element("small", f" {task.when}") if task.when else None),
        element("p", step.do) if not task.done else None,
        element("p", element("strong", caution.word), f": {caution.text}") if caution else None,
    ]  # fmt: skip
    return element(
        "article",
        *words,
        element("div", *map(_place, task.blanks), class_="places") if task.blanks else None,
        *(_rows(task.table) if task.table is not None else ()),
        _end(task),
        class_="rows" if task.table is not None else "once",
    )


def _end(task: Task) -> Element | None:
    step = task.step
    if task.done:
        return element("p", task.done, class_="done")
    if step.each_entry_is_the_yes:
        words = f"HOLD {step.hold}: initials on a row confirm: {step.each_entry_says}"
        return element("p", element("strong", words), class_="hold")
    if step.hold is not None:
        second = (element("span", "second person", _line()),) if step.witness else ()
        reason = (
            (element("span", "check not OK: reason", _line("long")),
             element("span", "going by", _line("long")))
            if step.checks
            else ()
        )  # fmt: skip
        hold = element("strong", f"HOLD {step.hold}")
        by = f" by {' or '.join(step.release)}"
        yes = element("span", "initials", _line(), "at", _line())
        return element("p", element("span", hold, by), yes, *second, *reason, class_="hold")
    if task.table is None:
        return element("p", "at", _line(), "by", _line(), class_="end")
    return None


def _place(blank: Blank) -> Element:
    label = element("span", f"{blank.label}{' *' if blank.must else ''}", class_="label")
    if blank.said:
        return element("span", label, element("b", blank.said))
    if blank.choices:
        boxes = [
            element("span", element("span", class_="box"), word, class_="choice")
            for word in blank.choices
        ]
        return element("span", label, *boxes)
    return element("span", label, _line("" if blank.unit else "long"), blank.unit)


def _line(class_: str = "") -> Element:
    return element("i", class_=f"line {class_}".strip())


def _rows(table: Table) -> list[Element]:
    head = element("tr", *(element("th", text) for text in table.heads))
    body = [element("tr", *(element("td", cell) for cell in row)) for row in table.rows]
    choices = [f"{label}: {', '.join(words)}" for label, words in table.choices]
    return [
        *(element("p", element("small", words)) for words in choices),
        element("table", element("thead", head), element("tbody", *body)),
    ]
