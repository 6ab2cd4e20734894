"""A company's files: what they say is what a job gets, and what is wrong in them is named."""

from __future__ import annotations

import contextlib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.gear.inventory import load
from fieldbook.gear.item import KINDS, BadGear, Item, names_in_gear
from fieldbook.gear.reading import _item, read_items
from fieldbook.quantities.dates import DATES
from fieldbook.quantities.kinds import kinds
from fieldbook.record.entry import Origin

HEAD = """
[[item]]
id = "hook-3"
title = "Hook 3"
kind = "rig"
origin = "nameplate"
source = "stamped on the shank"
"""
GOOD = f'{HEAD}inspected = 2026-04-01\ninspection_due = "2027-04-01"\n[item.values]\n'


def read(text: str) -> Item:
    (item,) = read_items(text.encode(), "hooks.toml")
    return item


def test_an_item_says_what_its_file_says() -> None:
    item = read(GOOD + 'hook_rating = "4000 lbf"\nparts_of_line = 2\nhoist = "block and line"')

    assert (item.id, item.title, item.kind, item.retired) == ("hook-3", "Hook 3", "rig", False)
    assert item.dates == {"inspected": "2026-04-01", "inspection_due": "2027-04-01"}
    rating = item.values["hook_rating"]
    assert (rating.number, rating.unit, rating.origin) == (4000.0, "lbf", Origin.NAMEPLATE)
    assert item.values["parts_of_line"].number == 2
    assert item.values["hoist"].text == "block and line"


def test_a_figure_may_be_known_otherwise_than_the_rest() -> None:
    item = read(GOOD + 'hook_rating = { value = "18 kN", origin = "measured" }\ndrum_layer = 2')

    assert item.values["hook_rating"].origin is Origin.MEASURED
    assert item.values["hook_rating"].unit == "kN"
    assert item.values["drum_layer"].origin is Origin.NAMEPLATE


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("hook_rating = 4000", "hook-3: hook_rating: has no unit"),
        ('hook_rating = "4000"', "hook-3: hook_rating: has no unit"),
        ('hook_rating = "4,000 lbf"', "hook_rating: hook rating: a comma"),
        ('hook_rating = "4000 psi"', "hook_rating: hook rating: unknown unit 'psi'"),
        ('hook_rating = "-4 lbf"', "hook_rating: hook rating: must be more than 0"),
        ("hook_rating = nan", "hook_rating: hook rating: far larger"),
        ("hook_rating = true", "hook_rating: hook rating: a value is text or a number"),
        ('hook_rating = { value = "4 kN", by = "me" }', "hook_rating: hook rating: a value is"),
        ('hook_rating = { value = "4 kN", origin = "rumour" }', "the origin is one of"),
        ("parts_of_line = 2.5", "parts_of_line: parts of line: a count is a whole number"),
        ('hoist = "crane"', "hoist: hoist: write one of"),
        ('gauge_name = "Pin 1"', "gauge_name: does not belong to 'rig'"),
        ('step = "plan.rig"', "step: is written on each job"),
        ('inspected = "2026-04-01"', "inspected: is a date: it stands above"),
        ("nonsense = 1", "nonsense: does not belong to 'rig'"),
    ],
)
def test_a_wrong_figure_is_named_with_file_item_and_key(line: str, words: str) -> None:
    with pytest.raises(BadGear) as told:
        read(GOOD + line)

    assert str(told.value).startswith("hooks.toml: hook-3: ")
    assert words in str(told.value)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (HEAD.replace('"hook-3"', '"Hook 3"'), "Hook 3: id: is small letters"),
        (HEAD.replace('"hook-3"', '"../x"'), "../x: id: is small letters"),
        (HEAD.replace('id = "hook-3"', ""), "Hook 3: id: is missing"),
        (HEAD.replace('title = "Hook 3"', ""), "hook-3: title: is missing"),
        (HEAD.replace('title = "Hook 3"', "title = 3"), "hook-3: title: is text"),
        (HEAD.replace('"Hook 3"', f'"{"x" * 41}"'), "hook-3: title: is longer than 40"),
        (HEAD.replace('"stamped on the shank"', '" "'), "hook-3: source: is missing"),
        (HEAD.replace('"rig"', '"joint"'), "hook-3: kind: is one of: rig, redirect"),
        (HEAD.replace('origin = "nameplate"', ""), "hook-3: origin: is one of: measured"),
        (HEAD, "hook-3: values: is a table of one figure or more"),
        (HEAD + "values = 3", "hook-3: values: is a table"),
        (HEAD + 'retired = "yes"', "hook-3: retired: is true or false"),
        (HEAD + 'hook_rating = "4 kN"', "hook-3: hook_rating: unknown key; figures stand under"),
        (HEAD + "[item.values]\ndrum_layer = 1\n[other]", "hooks.toml: other: unknown key"),
        ("item = 3", "hooks.toml: item: items are tables"),
        ("item = [3]", "hooks.toml: item: items are tables"),
        ("[[item]", "hooks.toml: not TOML"),
    ],
)
def test_a_wrong_item_is_named(text: str, words: str) -> None:
    with pytest.raises(BadGear) as told:
        read(text)

    assert words in str(told.value)


@pytest.mark.parametrize(
    ("dates", "words"),
    [
        ('inspected = "1 May"', "inspected: write the date as year-month-day"),
        ('inspected = "2026-02-30"', "inspected: there is no such day"),
        ("inspected = 2026-02-01T10:00:00", "inspected: is a date such as"),
        ("inspected = 20260201", "inspected: is a date such as"),
        ("calibrated = 2026-02-01", "calibrated: does not belong to 'rig'"),
        ("inspected = 2026-05-01\ninspection_due = 2026-04-30", "inspection_due: is before insp"),
    ],
)
def test_a_wrong_date_is_named(dates: str, words: str) -> None:
    with pytest.raises(BadGear, match=words):
        read(f"{HEAD}{dates}\n[item.values]\ndrum_layer = 1")


def test_what_is_measured_on_each_job_is_not_kept() -> None:
    gauge = HEAD.replace('"rig"', '"gauge"')

    with pytest.raises(BadGear, match="gauge_zero: is written on each job"):
        read(gauge + '[item.values]\ngauge_zero = "30 lbf"')


def test_a_piece_needs_to_say_what_it_is_but_not_its_place() -> None:
    piece = HEAD.replace('"rig"', '"piece"') + "[item.values]\n"

    assert read(piece + 'piece = "check valve"\nfitting_rating = "3500 lbf"').kind == "piece"
    with pytest.raises(BadGear, match="hook-3: piece: is missing"):
        read(piece + 'fitting_rating = "3500 lbf"')


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_of_item_names_itself_in_the_job(kind: str) -> None:
    may = kinds()[kind].may

    assert "library_item" in may
    assert set(names_in_gear(kind)).issubset({*may, *kinds()[kind].needs})
    assert not {"step", "place", "gauge_zero", "library_item"}.intersection(names_in_gear(kind))


def test_the_files_are_read_in_the_order_of_their_names(tmp_path: Path) -> None:
    for name in ("b", "a"):
        text = GOOD.replace("hook-3", f"hook-{name}").replace("Hook 3", f"Hook {name}")
        (tmp_path / f"{name}.toml").write_text(f"{text}drum_layer = 1\n", encoding="utf-8")

    assert [(item.id, item.file) for item in load(tmp_path)] == [
        ("hook-a", "a.toml"),
        ("hook-b", "b.toml"),
    ]


def test_no_folder_is_an_empty_library(tmp_path: Path) -> None:
    assert load(tmp_path / "none") == ()


@pytest.mark.parametrize(
    ("changed", "words"),
    [("Hook 4", "b.toml: hook-3: id: stands in a.toml too"), (None, "title: is that of hook-3")],
)
def test_two_items_share_neither_id_nor_title(
    tmp_path: Path, changed: str | None, words: str
) -> None:
    text = GOOD + "drum_layer = 1\n"
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    other = text.replace("Hook 3", changed) if changed else text.replace("hook-3", "hook-4")
    (tmp_path / "b.toml").write_text(other.replace("Hook 3", "HOOK 3"), encoding="utf-8")

    with pytest.raises(BadGear) as told:
        load(tmp_path)
    assert words in str(told.value)


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    (tmp_path / "a.toml").mkdir()

    with pytest.raises(BadGear, match="cannot be read"):
        load(tmp_path)


def test_a_file_that_is_no_text_or_far_too_large_is_told() -> None:
    with pytest.raises(BadGear, match=r"hooks\.toml: not UTF-8 text"):
        read_items(b"\xff\xfe", "hooks.toml")
    with pytest.raises(BadGear, match=r"hooks\.toml: larger than"):
        read_items(b"#" * 1_000_001, "hooks.toml")


def test_what_an_editor_leaves_beside_a_file_is_no_item(tmp_path: Path) -> None:
    (tmp_path / ".rigs.toml.swp").write_bytes(b"\xff")
    (tmp_path / "._rigs.toml").write_bytes(b"\xff")

    assert load(tmp_path) == ()


_ANY = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(), st.text(), st.dates(), st.datetimes(),
    st.lists(st.integers(), max_size=2),
    st.dictionaries(st.sampled_from(["value", "unit", "origin", "x"]), st.text(), max_size=3),
)  # fmt: skip
_KEYS = ["id", "title", "kind", "origin", "source", "notes", "retired", "values", *DATES, "odd"]
_SAID = ["hook_rating", "parts_of_line", "hoist", "piece", "gauge_zero", "inspected", "odd"]


@given(
    table=st.dictionaries(st.sampled_from(_KEYS), _ANY, max_size=4),
    figures=st.dictionaries(st.sampled_from(_SAID), _ANY, max_size=3),
    kind=st.sampled_from(KINDS),
)
def test_whatever_a_file_holds_is_read_or_refused(
    table: dict[str, object], figures: dict[str, object], kind: str
) -> None:
    """TOML cannot hold all of it; what a table can hold is tried without going through text."""
    whole = {"id": "a", "title": "A", "kind": kind, "origin": "stated", "source": "plate"}
    with contextlib.suppress(BadGear):
        item = _item({**whole, "values": figures, **table}, "hooks.toml")
        assert item.values
        assert set(item.values) <= set(names_in_gear(item.kind))
