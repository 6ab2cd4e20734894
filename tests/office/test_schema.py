"""everything.json is what its schema says, for every job, and the schema refuses what is not."""

from __future__ import annotations

import copy
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from fieldbook.cli import main
from fieldbook.office.export.everything import SCHEMA, everything, schema_text
from fieldbook.office.filing.localities import localities
from fieldbook.office.samples import build_job, sample_names
from fieldbook.office.sheet.context import account_of
from fieldbook.quantities.admit import problems
from fieldbook.quantities.definition import Definition, definition
from fieldbook.quantities.kinds import kinds
from fieldbook.record.entry import Draft, Origin, Value
from fieldbook.store.job.book import Book
from fieldbook.store.shelf.home import Home
from fieldbook.walk.states import StepState
from tests.office.test_sheet import told
from tests.watch.jobs import STEEL, entry, job_of

VALIDATOR = Draft202012Validator(json.loads(schema_text()))


def wrong(document: object) -> list[str]:
    # As a reader gets it: through JSON.
    read = json.loads(json.dumps(document, allow_nan=False))
    return [f"{e.json_path}: {e.message[:200]}" for e in VALIDATOR.iter_errors(read)]


@pytest.fixture(scope="module")
def sample(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    folder = build_job(Home(tmp_path_factory.mktemp("s")), "26-127-steel", complete=True)
    with Book.open(folder, "d-x", write=False) as book:
        found: dict[str, Any] = everything(account_of(book), book.heads(), localities()["MI"])
        return found


def test_the_schema_is_one() -> None:
    Draft202012Validator.check_schema(json.loads(schema_text()))


@pytest.mark.parametrize("complete", [False, True])
@pytest.mark.parametrize("name", sample_names())
def test_every_sample_job_is_what_the_schema_says(
    tmp_path: Path, name: str, complete: bool
) -> None:
    home = Home(tmp_path / "home")
    folder = build_job(home, name, complete=complete)
    out = tmp_path / "file"

    assert main(["--home", str(home.path), "jobfile", str(folder), "--out", str(out)]) == 0
    assert wrong(json.loads((out / "everything.json").read_text(encoding="utf-8"))) == []
    assert (out / SCHEMA).read_text(encoding="utf-8") == schema_text()


def of(quantity: Definition) -> st.SearchStrategy[Value]:
    """A value of a quantity, sound or absurd; what is nonsense is filtered by the gate itself."""
    origins = st.sampled_from(Origin)
    if not quantity.is_words:
        numbers = st.floats(-1e5, 1e5) | st.integers(0, 400).map(float)
        return st.builds(lambda n, o: Value(f"{n:g}", n, quantity.unit, o), numbers, origins)
    if quantity.dimension == "choice":
        words = st.sampled_from(quantity.choices)
    elif quantity.dimension == "date":
        words = st.dates().map(str)
    elif quantity.dimension == "yes or no":
        words = st.sampled_from(("yes", "no"))
    elif quantity.dimension == "time of day":
        words = st.times().map(lambda time: f"{time:%H:%M}")
    else:
        words = st.text(max_size=40)
    return st.builds(lambda w, o: Value(w, origin=o), words, origins)


@st.composite
def drafts(draw: st.DrawFn) -> Draft:
    kind = kinds()[draw(st.sampled_from(sorted(kinds())))]
    more = draw(st.lists(st.sampled_from(kind.may), unique=True, max_size=6))
    values = {name: draw(of(definition(name))) for name in (*kind.needs, *more)}
    return Draft(
        kind.name, draw(st.text(min_size=1, max_size=8)), values, draw(st.text(max_size=60))
    )


@settings(
    max_examples=25, deadline=None, suppress_health_check=list(HealthCheck)
)  # fmt: skip
@given(made=st.lists(drafts(), max_size=12))
def test_whatever_the_gate_lets_in_is_what_the_schema_says(
    tmp_path: Path, made: list[Draft]
) -> None:
    job = job_of(*STEEL)
    for draft in made:
        if not problems(draft):
            seq = job.last_seq + 1
            plain = entry({"kind": "note", "by": "QA", "note": "x"}, seq)
            job.add(type(plain)(plain.id, seq, plain.time, draft.by, plain.device, draft.kind,
                                draft.values, draft.note))  # fmt: skip
    context = told(job, tmp_path)

    assert wrong(everything(context, {"d-test-0001.jsonl": "0" * 64})) == []


def places(document: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """The path of everything in a document."""
    yield path
    if isinstance(document, dict):
        for key, value in document.items():
            yield from places(value, (*path, key))
    elif isinstance(document, list):
        for at, value in enumerate(document[:2]):
            yield from places(value, (*path, at))


def at(document: Any, path: tuple[Any, ...]) -> Any:
    for key in path:
        document = document[key]
    return document


def _without(document: Any, path: tuple[Any, ...]) -> bool:
    parent = at(document, path[:-1])
    optional = {"values", "note", "strikes"}
    if not isinstance(parent, dict) or path[-1] in optional or path[0] in ("heads", "struck"):
        return False
    if path[-2:-1] in (
        ("values",),
        ("states",),
        ("quantities",),
        ("confidence",),
    ):  # maps, with no key they need
        return False
    del parent[path[-1]]
    return True


def _with_more(document: Any, path: tuple[Any, ...]) -> bool:
    here = at(document, path)
    if not isinstance(here, dict):
        return False
    here["Not There"] = "x"
    return True


def _of_another_type(document: Any, path: tuple[Any, ...]) -> bool:
    at(document, path[:-1])[path[-1]] = ["neither", {"text": 0}]
    return True


@pytest.mark.parametrize("spoil", [_without, _with_more, _of_another_type])
def test_a_spoiled_document_is_refused_wherever_it_is_spoiled(
    sample: dict[str, Any], spoil: Callable[[Any, tuple[Any, ...]], bool]
) -> None:
    assert wrong(sample) == []
    # One path of each shape: what is an index or a name in a map stands for all of its kind.
    small = copy.deepcopy(sample)
    small["entries"] = [e for e in small["entries"] if e.get("values")][:1]
    small["struck"] = {small["entries"][0]["id"]: [small["entries"][0]["id"]]}
    small["quantities"] = dict(list(small["quantities"].items())[:1])
    small["walk"]["states"] = dict(list(small["walk"]["states"].items())[:1])
    assert wrong(small) == []
    tried = 0
    for path in list(places(small))[1:]:
        spoiled = copy.deepcopy(small)
        if spoil(spoiled, path):
            tried += 1
            assert not VALIDATOR.is_valid(spoiled), path

    assert tried >= 40


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("format",), "fieldbook job 2"),
        (("entries", 0, "seq"), 0),
        (("entries", 0, "id"), "01a21397-5537-410b-bae5-08ebc2e3daed"),  # not version 7
        (("entries", 0, "time"), "2026-05-12 06:57"),
        (("entries", 0, "by"), ""),
        (("entries", 0, "kind"), "Joint 3"),
        (("seals", 0, "hash"), "0" * 63),
        (("watch", "verdict"), "safe"),
        (("watch", "checks", 0, "verdict"), "ok"),
        (("filing", "due"), "May 3"),
        (("filing", "facts", 0, "words"), ""),
        (("bill", 0, "what"), "beer"),
    ],
)
def test_what_no_job_can_say_is_refused(
    sample: dict[str, Any], path: tuple[Any, ...], value: object
) -> None:
    spoiled = copy.deepcopy(sample)
    assert at(spoiled, path) is not None
    at(spoiled, path[:-1])[path[-1]] = value

    assert not VALIDATOR.is_valid(spoiled)


def test_the_schema_knows_every_state_and_every_origin() -> None:
    schema = json.loads(schema_text())
    states = schema["properties"]["walk"]["properties"]["states"]["additionalProperties"]["enum"]

    assert set(states) == set(StepState)
    assert set(schema["$defs"]["value"]["properties"]["origin"]["enum"]) == set(Origin)
