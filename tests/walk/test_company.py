"""A company adds steps and rewords those of the book, and can take no hold away."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.walk.loading import load
from fieldbook.walk.steps import BadWalk, Step
from fieldbook.walk.walk import Walk
from tests.walk.logs import step


def folder(tmp_path: Path, **files: str) -> Path:
    for name, text in files.items():
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    return tmp_path


def ids(walk: Walk) -> list[str]:
    return [each.id for each in walk.steps]


def test_a_new_step_comes_behind_the_one_it_names(tmp_path: Path) -> None:
    extra = folder(tmp_path, own=step("acme.tools", "after = 'pull.holds'"))
    walk = load("steel", "pull", extra)
    place = ids(walk).index("acme.tools")

    assert "pull.holds" == walk.steps[place - 1].id
    assert "pull" == walk.step("acme.tools").phase
    assert set(ids(load("steel", "pull"))) == set(ids(walk)) - {"acme.tools"}


def test_a_new_step_may_follow_another_of_the_company(tmp_path: Path) -> None:
    extra = folder(
        tmp_path,
        a=step("acme.one", "after = 'pull.holds'"),
        b=step("acme.two", "after = 'acme.one'"),
    )
    walk = load("steel", "pull", extra)
    place = ids(walk).index("acme.one")

    assert "acme.two" == walk.steps[place + 1].id


def test_a_new_step_is_left_out_where_the_one_before_it_is(tmp_path: Path) -> None:
    extra = folder(tmp_path, own=step("acme.hose", "after = 'pull.onto_reel'"))

    assert "acme.hose" in ids(load("hose", "pull", extra))
    assert "acme.hose" not in ids(load("steel", "pull", extra))


def test_rewording_changes_only_what_it_says(tmp_path: Path) -> None:
    extra = folder(tmp_path, own='[[step]]\nid = "pull.holds"\ndo = "Our way."\nminutes = 9')
    before, after = (load("pvc", "pull", e).step("pull.holds") for e in (None, extra))

    assert ("Our way.", 9) == (after.do, after.minutes)
    same = [name for name in Step.__dataclass_fields__ if name not in ("do", "minutes")]
    assert [getattr(before, name) for name in same] == [getattr(after, name) for name in same]


def test_rewording_may_be_for_one_line_only(tmp_path: Path) -> None:
    text = '[[step]]\nid = "pull.holds"\nlines = ["steel"]\ndo = "Our way."'
    extra = folder(tmp_path, own=text)

    assert "Our way." == load("steel", "pull", extra).step("pull.holds").do
    assert load("pvc", "pull") == load("pvc", "pull", extra)


def test_two_rewordings_of_a_step_add_up(tmp_path: Path) -> None:
    text = '[[step]]\nid = "pull.holds"\n'
    extra = folder(tmp_path, a=text + 'do = "Our way."', b=text + 'title = "Ours"')
    reworded = load("steel", "pull", extra).step("pull.holds")

    assert ("Our way.", "Ours") == (reworded.do, reworded.title)


def test_a_company_may_ask_for_more(tmp_path: Path) -> None:
    asks = list(load("steel", "pull").step("pull.count").asks)
    text = f'[[step]]\nid = "pull.count"\nlines = ["steel"]\nasks = {[*asks, "witness"]}'
    reworded = load("steel", "pull", folder(tmp_path, own=text)).step("pull.count")

    assert "witness" in reworded.asks


def test_a_check_that_a_step_wakes_cannot_be_taken_away(tmp_path: Path) -> None:
    extra = folder(
        tmp_path, own='[[step]]\nid = "ready.load_check"\nchecks = ["gauge", "hose window"]'
    )

    with pytest.raises(BadWalk, match="checks: leaves out 'lift'"):
        load("steel", "pull", extra)


@pytest.mark.parametrize(
    ("table", "says"),
    [
        ("hold = 9", "own.toml: pull.count: hold: cannot be changed"),
        ("records = 'done'", "own.toml: pull.count: records: cannot be changed"),
        ("when = 'always'", "own.toml: pull.count: when: cannot be changed"),
        ("release = []", "own.toml: pull.count: release: a hold point names"),
        ("asks = []", "own.toml: pull.count: "),
        ("must = []", "own.toml: pull.count: must: leaves out"),
        ("release = ['crew lead', 'helper']", "own.toml: pull.count: release: lets 'helper'"),
        ("lines = 3", "own.toml: pull.count: lines: is a list"),
        ("jobs = ['check']", "own.toml: pull.count: lines: and jobs leave no walk"),
        (f"title = '{'x' * 31}'", "own.toml: pull.count: title: has 31 characters"),
    ],
)
def test_a_hold_and_what_is_written_cannot_be_taken_away(
    tmp_path: Path, table: str, says: str
) -> None:
    extra = folder(tmp_path, own=f'[[step]]\nid = "pull.count"\n{table}')
    with pytest.raises(BadWalk) as refusal:
        load("hose", "set", extra)

    assert says in str(refusal.value)


def test_fewer_people_may_release_a_hold(tmp_path: Path) -> None:
    text = '[[step]]\nid = "ready.load_check"\nrelease = ["tech"]'
    reworded = load("steel", "pull", folder(tmp_path, own=text)).step("ready.load_check")

    assert ("tech",) == reworded.release


@pytest.mark.parametrize("fixed", ["{}", "{ rig_moved = 'no' }"])
def test_what_a_step_fixes_stays(tmp_path: Path, fixed: str) -> None:
    extra = folder(tmp_path, own=f'[[step]]\nid = "any_time.rig_moved"\nfixed = {fixed}')
    with pytest.raises(BadWalk, match=r"any_time\.rig_moved: fixed: 'rig_moved' stays 'yes'"):
        load("steel", "pull", extra)


def test_a_form_may_start_with_more(tmp_path: Path) -> None:
    text = '[[step]]\nid = "pull.joint"\nfixed = { direction = "out", inside = "wet" }'
    reworded = load("steel", "pull", folder(tmp_path, own=text)).step("pull.joint")

    assert {"direction": "out", "inside": "wet"} == dict(reworded.fixed)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (step("acme.a"), "own.toml: acme.a: after: names a step"),
        (step("acme.a", "after = 'pull.nothing'"), "behind; there is no step 'pull.nothing'"),
        (step("acme.a", "after = 3"), "own.toml: acme.a: after: names a step"),
        (step("acme.a", "after = 'pull.holds'\nhue = 1"), "own.toml: acme.a: hue: unknown key"),
        (step("acme.a", "after = 'any_time.note'"), "own.toml: acme.a: when: 'always'"),
        (2 * step("acme.a", "after = 'pull.holds'"), "acme.a: id: stands twice"),
        ('phase = "pull"', "own.toml: phase: unknown key"),
        ("[[step", "own.toml: not TOML"),
    ],
)
def test_a_wrong_file_names_file_step_and_key(tmp_path: Path, text: str, says: str) -> None:
    with pytest.raises(BadWalk) as refusal:
        load("steel", "pull", folder(tmp_path, own=text))

    assert says in str(refusal.value)


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(BadWalk, match="no such folder"):
        load("steel", "pull", tmp_path / "nowhere")


def test_a_file_that_cannot_be_read_is_said(tmp_path: Path) -> None:
    (tmp_path / "own.toml").mkdir()
    with pytest.raises(BadWalk, match="cannot be read"):
        load("steel", "pull", tmp_path)


def test_an_empty_folder_changes_nothing(tmp_path: Path) -> None:
    assert load("hose", "pull and set") == load("hose", "pull and set", tmp_path)
