"""A card gives the same answer as a job with the same figures."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest

from fieldbook.quantities.kinds import kinds
from fieldbook.record.job import Job
from fieldbook.watch.card import BadCard, blank_card, job_from_card
from fieldbook.watch.document import look_document
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import HOSE, STEEL, job_of, without


def card(documents: tuple[dict[str, object], ...]) -> str:
    lines = []
    for document in documents:
        kind, values = document["kind"], document["values"]
        assert isinstance(values, dict)
        lines.append(f"[[{kind}]]" if kind in ("piece", "redirect") else f"[{kind}]")
        lines += [f"{n} = {v!r}".replace("'", '"') for n, v in values.items()]
    return "\n".join(lines)


@pytest.mark.parametrize("documents", [HOSE, STEEL], ids=["hose", "steel"])
def test_card_and_job_agree(documents: tuple[dict[str, object], ...]) -> None:
    of_card = look_document(Watcher(job_from_card(card(documents))).look())

    assert look_document(Watcher(job_of(*documents)).look()) == of_card


def test_a_blank_card_is_toml_and_answers_unknown_with_what_is_missing() -> None:
    blank = blank_card()

    assert tomllib.loads(blank)["rig"]["parts_of_line"] == ""
    with pytest.raises(BadCard, match="drop line is needed"):
        job_from_card(blank)
    filled = blank.replace('line = ""', 'line = "steel"', 1).replace(
        'piece = ""', 'piece = "joint"'
    )
    filled = filled.replace("[[redirect]]", "[well]\n[x]").partition("[x]")[0]
    check = Watcher(job_from_card(filled.replace("\n[well]\n", "\n", 1))).look().lift.check
    assert check.missing


@pytest.mark.parametrize("documents", [HOSE, STEEL], ids=["hose", "steel"])
def test_the_blank_lift_card_asks_for_whatever_changes_the_answer(
    documents: tuple[dict[str, Any], ...],
) -> None:
    blank = tomllib.loads(blank_card())
    whole = _answer(job_of(*documents))
    for document in documents:
        for name in document["values"]:
            kind = document["kind"]
            if kind == "job" or name == "place":
                continue
            needed = name in kinds()[kind].needs
            if needed or _answer(without(documents, kind, name)) != whole:
                table = blank[kind]
                assert name in (table[0] if isinstance(table, list) else table), (kind, name)
    assert sum(len(t[0] if isinstance(t, list) else t) for t in blank.values()) <= 70


def _answer(job: Job) -> object:
    document = look_document(Watcher(job).look())
    return document["hook_load"], document["gauge"], document["links"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[rig", "not TOML"),
        ("[tent]\nx = 1", "not a section"),
        ("[rig]\nparts = 2", "not a quantity"),
        ("[rig]\nparts_of_line = 2.5", "whole number"),
        ("rig = 3", "one key a line"),
        ("[rig]\nhook_rating = nan", "hook rating"),
        ("a = " + "[" * 5000, "not TOML"),
    ],
)
def test_a_bad_card_is_refused_in_words(text: str, says: str) -> None:
    with pytest.raises(BadCard, match=says):
        job_from_card(text)
