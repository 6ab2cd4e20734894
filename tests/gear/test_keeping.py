"""What a job says of its gear, kept as an item: what is read again is what was said."""

from __future__ import annotations

import string
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldbook.gear.inventory import load
from fieldbook.gear.item import BadGear, names_in_gear
from fieldbook.gear.keeping import item_id, keep
from fieldbook.quantities.admit import draft_from
from fieldbook.quantities.plain import plain
from fieldbook.record.entry import Value
from fieldbook.store.log import disk


def said(kind: str, **values: Any) -> dict[str, Value]:
    return dict(draft_from({"kind": kind, "by": "QA", "values": values}).values)


RIG = said(
    "rig",
    hoist="block and line",
    parts_of_line=2,
    sheave_factor=1.06,
    drum_pull={"value": "3500 lb", "origin": "maker's sheet"},
    hook_rating={"value": "8000", "origin": "nameplate"},
    mast_rating={"value": "5.5 kN", "origin": "nameplate"},
    inspected="2026-05-04",
    step="plan.rig",
)


def test_what_is_kept_is_what_was_said_less_what_is_of_the_job(tmp_path: Path) -> None:
    folder = tmp_path / "gear"
    kept = keep(folder, "rig", RIG, title="Derrick 1", source="plates, read on the yard")
    (item,) = load(folder)

    assert item == kept
    assert (item.id, item.title, item.file) == ("derrick-1", "Derrick 1", "derrick-1.toml")
    assert item.dates == {"inspected": "2026-05-04"}
    assert set(item.values) == set(RIG) - {"step", "inspected"}
    for name, value in item.values.items():
        assert (value.number, value.unit, value.origin) == (
            RIG[name].number,
            RIG[name].unit,
            RIG[name].origin,
        )
    assert item.values["hook_rating"].text == "8000 lbf"


@pytest.mark.parametrize("title", ["derrick 1", "Derrick-1", "DERRICK 1 "])
def test_an_item_is_never_written_over(tmp_path: Path, title: str) -> None:
    keep(tmp_path, "rig", RIG, title="Derrick 1", source="plates")
    before = (tmp_path / "derrick-1.toml").read_bytes()

    with pytest.raises(BadGear, match="choose another title"):
        keep(tmp_path, "rig", said("rig", drum_layer=2), title=title, source="plates")
    assert (tmp_path / "derrick-1.toml").read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == ["derrick-1.toml"]


def test_a_file_of_that_name_is_left_alone_whatever_it_holds(tmp_path: Path) -> None:
    (tmp_path / "derrick-1.toml").write_text("# nothing yet\n", encoding="utf-8")

    with pytest.raises(BadGear, match="choose another title"):
        keep(tmp_path, "rig", RIG, title="Derrick 1", source="plates")


def test_nothing_is_left_where_the_disk_fails(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(_descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk.DISK, "sync", fails)
    with pytest.raises(OSError, match="No space"):
        keep(tmp_path, "rig", RIG, title="Derrick 1", source="plates")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(("title", "source"), [("", "plates"), ("///", "plates"), ("Hook", " ")])
def test_a_title_and_a_source_are_needed(tmp_path: Path, title: str, source: str) -> None:
    with pytest.raises(BadGear):
        keep(tmp_path, "rig", RIG, title=title, source=source)
    assert list(tmp_path.iterdir()) == []


def test_gear_without_a_figure_is_no_item(tmp_path: Path) -> None:
    with pytest.raises(BadGear, match="one figure or more"):
        keep(tmp_path, "gauge", said("gauge", gauge_zero=30), title="Pin", source="plate")


@settings(max_examples=60)
@given(
    title=st.text(min_size=1, max_size=40),
    source=st.text(min_size=1, max_size=60),
    name=st.text(min_size=1, max_size=60),
)
def test_any_words_are_read_again_or_refused(
    tmp_path_factory: pytest.TempPathFactory, title: str, source: str, name: str
) -> None:
    folder = tmp_path_factory.mktemp("gear")
    words = {"gauge_name": Value(name)}
    try:
        kept = keep(folder, "gauge", words, title=title, source=source)
    except BadGear:
        assert list(folder.iterdir()) == []
        return
    assert load(folder) == (kept,)
    assert plain(kept.title + kept.source) == kept.title + kept.source
    assert set(kept.id) <= set(string.ascii_lowercase + string.digits + "-")


def test_an_id_of_a_long_title_is_cut_and_still_an_id() -> None:
    assert item_id("a" * 39 + "  b") == "a" * 39


def test_a_gauge_keeps_its_calibration_and_not_its_zero() -> None:
    assert {"calibrated", "calibration_due", "gauge_error"} <= set(names_in_gear("gauge"))
    assert "gauge_zero" not in names_in_gear("gauge")
