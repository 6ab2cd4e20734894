"""Initials name a person: 1 to 4 letters of any script; old logs read as before."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.quantities.admit import Refused, draft_from, new_problems, problems
from fieldbook.quantities.initials import initials_problem
from fieldbook.quantities.typed import plain_value
from fieldbook.record.entry import Draft

GOOD = [
    "Q",
    "QA",
    "qa",
    "JRK",
    "JRKM",
    "J.R.",
    "J.-P.",
    "J-P",
    "J.R",
    "Å.Ø.",
    "ŠČ",
    "李",
    "אב",
    "क्ष",
    "ЮЯ",
]
BAD = ["7", "-", ".", "a b", "A1", "12", "QAQAQ", "J..R", "-J", "J-", "J--P", "Q A", "Q\tA", " QA",
       "QA ", "Q\u200bA", "Q_A", "Q/A", "²", "Ⅷ", "\u0301", "Q\udc80", "?"]  # fmt: skip


@pytest.mark.parametrize("text", GOOD)
def test_letters_are_initials(text: str) -> None:
    assert initials_problem(text) == ""
    assert (
        draft_from({"kind": "load", "by": f" {text} ", "values": {"gauge_reading": 1}}).by == text
    )


@pytest.mark.parametrize("text", BAD)
def test_what_names_nobody_is_not_taken_and_is_read_where_it_was_recorded(text: str) -> None:
    assert initials_problem(text)
    draft = Draft("note", text, note="n")

    assert any("initials are 1 to 4 letters" in words for words in new_problems(draft))
    assert problems(draft) == []  # what a log from before says


@pytest.mark.parametrize("text", ["7", "-", "a b"])
def test_enter_takes_no_such_initials(text: str) -> None:
    with pytest.raises(Refused, match="initials: initials are 1 to 4 letters"):
        draft_from({"kind": "note", "by": text, "note": "n"})


@pytest.mark.parametrize("name", ["witness", "written_by", "entered_by"])
@pytest.mark.parametrize("text", ["7", "-", "a b"])
def test_who_stands_beside_is_named_by_initials_too(name: str, text: str) -> None:
    draft = Draft("note", "QA", {name: plain_value(text)}, "n")

    assert any("initials are 1 to 4 letters" in words for words in new_problems(draft))
    assert problems(draft) == []
    assert new_problems(Draft("note", "QA", {name: plain_value("RO")}, "n")) == []


@given(st.text(max_size=8))
def test_initials_have_one_to_four_letters_and_no_blank_or_digit(text: str) -> None:
    if not initials_problem(text):
        assert 1 <= sum(character.isalpha() for character in text) <= 4
        assert not any(c.isspace() or c.isdigit() for c in text)
