"""The company's numbers: what stands in the file, or what is wrong in it."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.gear.emergency import Number, load_numbers
from fieldbook.gear.item import BadGear
from fieldbook.office.samples import sample_folder

ONE = '[[number]]\nwho = "Office"\ncall = "555-0142"\n'


def test_the_numbers_come_in_the_order_of_the_file(tmp_path: Path) -> None:
    path = tmp_path / "emergency.toml"
    path.write_text(ONE + ONE.replace("Office", " Yard "), encoding="utf-8")

    assert load_numbers(path) == (Number("Office", "555-0142"), Number("Yard", "555-0142"))


def test_no_file_is_no_number(tmp_path: Path) -> None:
    assert load_numbers(tmp_path / "emergency.toml") == ()


def test_the_sample_numbers_can_be_read() -> None:
    assert len(load_numbers(sample_folder() / "emergency.toml")) == 3


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ('[[number]]\nwho = "Office"', "number 1: call: is missing"),
        (ONE + "[[number]]\nwho = 3", "number 2: who: is missing, or is not text"),
        (ONE.replace("555-0142", "5" * 61), "number 1: call: is longer than 60"),
        (ONE + 'note = "x"', "number 1: note: unknown key"),
        (ONE * 13, "number: more than 12"),
        ("number = 3", "number: numbers are tables"),
        ("[other]", "other: unknown key"),
        ("[[number]", "not TOML"),
        ("#" * 100_001, "larger than"),
    ],
)
def test_what_is_wrong_is_named(tmp_path: Path, text: str, words: str) -> None:
    path = tmp_path / "emergency.toml"
    path.write_text(text, encoding="utf-8")

    with pytest.raises(BadGear) as told:
        load_numbers(path)
    assert str(told.value).startswith("emergency.toml: ")
    assert words in str(told.value)


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    with pytest.raises(BadGear, match="cannot be read"):
        load_numbers(tmp_path)
