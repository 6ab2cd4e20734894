"""The attempts to make the book say what flatters: what each is made of, and what is said to it."""

from __future__ import annotations

import io
import json
import re
import tomllib
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from unittest import mock

from fieldbook.cli import main
from fieldbook.cli.printing import print_lift
from fieldbook.office.paper.lift_paper import lift_paper
from fieldbook.office.paper.paper_limits import limits_of
from fieldbook.office.samples import sample_lines
from fieldbook.quantities.definition import definitions
from fieldbook.record.job import Job
from fieldbook.store.shelf.home import Home
from fieldbook.watch.planner.plan import plan
from fieldbook.watch.planner.words import cells
from fieldbook.watch.watcher import Look, Watcher
from tests.app.scenes import put_job
from tests.store.unsynced import unsynced
from tests.verdict_words import code_of
from tests.watch.attempt_jobs import BASES
from tests.watch.jobs import job_of

Documents = list[dict[str, Any]]


@dataclass(frozen=True)
class Attempt:
    """One attempt.

    Attributes:
        item: Of the list of defects that the attempts came from.
        says: What is tried.
        base: A job of `attempt_jobs`, or a sample up to a step: "26-131-hose@pull.drain".
        asks: A check by name; "enter", which feeds the last of `add` to the command; "lift",
            "lift card", "paper", "plan LINE", "deepest LINE", "never": who is asked.
        before: What was said before the defects were mended.
        owed: What is owed; any one of them.
        add: Entries after those of the base, each with its kind, note and values in one table.
        put: "kind.quantity" -> what it says instead, in every entry of the base that says it.
        drop: "kind.quantity" taken out of every entry of the base; "kind" alone, all of them.
        at_most: Of "never": the reading in lbf that is not passed.
    """

    item: int
    says: str
    base: str
    asks: str
    before: str
    owed: tuple[str, ...]
    add: tuple[dict[str, Any], ...] = ()
    put: dict[str, Any] = field(default_factory=dict)
    drop: tuple[str, ...] = ()
    at_most: float | None = None


def attempts() -> list[Attempt]:
    """Every attempt of the table."""
    text = (Path(__file__).parent / "attempts.toml").read_text(encoding="utf-8")
    return [_attempt(row) for row in tomllib.loads(text)["attempt"]]


def _attempt(row: dict[str, Any]) -> Attempt:
    lists = {name: tuple(row.get(name, ())) for name in ("add", "drop")}
    return Attempt(**row | lists | {"owed": tuple(row["owed"].split(" or "))})


def said_to(attempt: Attempt, home: Path) -> str:
    """What the book says to it, in one word; `home` is an empty folder."""
    documents = documents_of(attempt)
    who, _, which = attempt.asks.partition(" ")
    if who == "enter":
        return _entered(home, documents)
    if who == "lift" and which.isdigit():
        return _lift_with(home, documents, which)
    job = job_of(*documents)
    if who in ("plan", "deepest"):
        row = plan(job, only=[which]).rows[0]
        return row.verdict.value if who == "plan" else _deepest(cells(row)[1])
    return _seen(job, attempt)


def _seen(job: Job, attempt: Attempt) -> str:
    look = Watcher(job).look()
    tellers: dict[str, Callable[[], str]] = {
        "lift": lambda: _lift_command(look),
        "lift card": lambda: code_of(
            lift_paper(job, look, printed="2026-05-14 12:00"), r"LIFT CARD.*\n.*\n"
        ),
        "paper": lambda: code_of(dict(limits_of(job, look))["Lift check"]),
        "never": lambda: _never(look, attempt.at_most),
    }
    if attempt.asks in tellers:
        return tellers[attempt.asks]()
    return next((c.verdict.value for c in look.checks if c.name == attempt.asks), "none")


def documents_of(attempt: Attempt) -> Documents:
    """The entries of an attempt, as `enter` takes them."""
    base, _, step = attempt.base.partition("@")
    documents = _upto(base, step) if step else [dict(d) for d in BASES[base]]
    made = []
    for document in documents:
        kind, values = document["kind"], dict(document["values"])
        if kind in attempt.drop:
            continue
        for name in list(values):
            if f"{kind}.{name}" in attempt.drop:
                del values[name]
            elif f"{kind}.{name}" in attempt.put:
                values[name] = attempt.put[f"{kind}.{name}"]
        made.append(document | {"values": values})
    return [*made, *map(_document, attempt.add)]


def _upto(name: str, step: str) -> Documents:
    found: Documents = []
    for document in sample_lines(name, complete=True):
        document.pop("at")
        if document["values"].get("step") == step:
            break
        found.append(document)
    return found


def _document(flat: dict[str, Any]) -> dict[str, Any]:
    known = definitions().keys() - {"sure"}
    values = {n: v for n, v in flat.items() if n in known}
    rest = {n: v for n, v in flat.items() if n not in known}
    return {"by": "QA"} | rest | {"values": values}


def _entered(home: Path, documents: Documents) -> str:
    *before, last = documents
    put_job(Home(home), before)
    line = io.TextIOWrapper(io.BytesIO(json.dumps(last).encode() + b"\n"), encoding="utf-8")
    out = io.StringIO()
    with unsynced(), mock.patch("sys.stdin", line), redirect_stdout(out):
        main(["--home", str(home), "enter", _number(before)])
    answer = json.loads(out.getvalue())
    if "refused" in answer:
        return "doubted" if "doubt" in answer else "refused"
    return "saved"


def _number(documents: Documents) -> str:
    return job_of(documents[0]).text("job", "job_number")


def _lift_command(look: Look) -> str:
    out = io.StringIO()
    with redirect_stdout(out):
        print_lift(look)
    return code_of(out.getvalue())


def _lift_with(home: Path, documents: Documents, joints: str) -> str:
    put_job(Home(home), documents)
    out = io.StringIO()
    with redirect_stdout(out), redirect_stderr(io.StringIO()):
        code = main(["--home", str(home), "lift", _number(documents), "--joint", joints])
    return "refused" if code == 2 else code_of(out.getvalue())


def _deepest(cell: str) -> str:
    """Whether a depth stands there: 0, and less, is none that a string hangs at."""
    found = re.search(r"-?[\d,]+", cell)
    if found is None:
        return "none"
    return "a depth" if float(found.group().replace(",", "")) > 10.0 else "nonsense"


def _never(look: Look, at_most: float | None) -> str:
    never = look.readings.never
    if never is None:
        return "unknown"
    return "low" if at_most is not None and never.m_as("lbf") <= at_most else "high"
