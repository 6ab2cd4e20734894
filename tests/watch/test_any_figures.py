"""Whatever a crew may write down, the watch answers."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldbook.quantities.admit import Refused, draft_from
from fieldbook.quantities.definition import definition
from fieldbook.quantities.kinds import kinds
from fieldbook.watch.document import look_document
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, record

_KINDS = ("well", "rig", "redirect", "gauge", "limit", "piece", "cable", "pump", "level", "drain",
          "load", "joint", "footage")  # fmt: skip


def figures(name: str) -> st.SearchStrategy[Any]:
    known = definition(name)
    if known.choices:
        return st.sampled_from(known.choices)
    if known.dimension == "count":
        return st.integers(-2, 90)
    if known.is_words:
        return st.sampled_from(["2026-01-02", "yes", "[/]"])
    return st.sampled_from([0, 1e-9, 0.5, 1, 2, 90, 181, 1000, 1e6, -1, -500]) | st.floats(
        -1e9, 1e9, allow_nan=False
    )


@st.composite
def documents(draw: st.DrawFn, more: tuple[str, ...] = ()) -> dict[str, Any]:
    kind = kinds()[draw(st.sampled_from((*_KINDS, *more)))]
    names = draw(st.sets(st.sampled_from([*kind.needs, *kind.may]), max_size=6)) | set(kind.needs)
    return {
        "kind": kind.name,
        "by": "QA",
        "values": {name: draw(figures(name)) for name in sorted(names)},
    }


@pytest.mark.parametrize("base", [HOSE, STEEL], ids=["hose", "steel"])
@settings(max_examples=300, deadline=None)
@given(st.lists(documents(), max_size=5))
def test_no_figure_breaks_the_watch(
    base: tuple[dict[str, Any], ...], written: list[dict[str, Any]]
) -> None:
    job = job_of(*base)
    for document in written:
        try:
            draft_from(document)
        except Refused:
            continue
        record(job, document)
    assert look_document(Watcher(job).look())["verdict"]
