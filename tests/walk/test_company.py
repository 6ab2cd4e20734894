"""A company adds steps and rewords those of the book, and can take no hold away."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.walk.definition.loading import load, load_leaving_out
from fieldbook.walk.definition.steps import BadWalk, Step
from fieldbook.walk.walk import Walk
from tests.walk.logs import Log, step


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
        (step("pull.jiont"), "own.toml: pull.jiont: after: the book has no step of this id"),
        (step("acme.a", "after = 'pull.nothing'"), "behind; there is no step 'pull.nothing'"),
        (step("acme.a", "after = 3"), "own.toml: acme.a: after: a new step says which step"),
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


HOLD = "after = 'arrive.crew'\nhold = 1\nrelease = ['crew lead']"


def test_a_wrong_file_is_left_out_with_file_step_and_key_and_no_other_is(tmp_path: Path) -> None:
    extra = folder(
        tmp_path,
        a=step("acme.one", "after = 'pull.holds'"),
        b=step("acme.two", "after = 'pull.nothing'"),
        c='[[step]]\nid = "pull.count"\nmust = []',
        d=step("acme.three", "after = 'acme.one'"),
    )
    walk = load_leaving_out("steel", "pull", extra)

    assert {"acme.one", "acme.three"} == set(ids(walk)) - set(ids(load("steel", "pull")))
    wrong = ("b.toml: acme.two: after: ", "c.toml: pull.count: must: leaves out")
    assert all(map(str.startswith, walk.left_out, wrong))
    assert len(wrong) == len(walk.left_out)
    assert all(words in walk.left_out_words for words in (*walk.left_out, "NOT asked"))


def test_what_is_right_is_loaded_as_ever_and_nothing_is_said(tmp_path: Path) -> None:
    extra = folder(tmp_path, own=step("acme.one", "after = 'pull.holds'"))

    assert load("steel", "pull", extra) == load_leaving_out("steel", "pull", extra)
    assert not load_leaving_out("steel", "pull", extra).left_out_words
    assert load("steel", "pull") == load_leaving_out("steel", "pull", None)


def test_the_file_after_which_the_steps_do_not_go_together_is_named(tmp_path: Path) -> None:
    sound = step("acme.two", "after = 'pull.holds'")
    alone = step("acme.one", "after = 'pull.holds'\nbeside = 'pull.holds'")
    with pytest.raises(BadWalk, match=r"^b.toml: acme.one: beside: 'pull.holds' is no step here"):
        load(
            "steel",
            "pull",
            folder(tmp_path, a=sound, b=alone, c=step("acme.three", "after = 'pull.holds'")),
        )


def test_a_file_that_is_no_text_is_named_with_the_byte(tmp_path: Path) -> None:
    extra = folder(tmp_path, own="# ")
    (extra / "own.toml").write_bytes(b"# caf\xe9\n")
    with pytest.raises(BadWalk, match=r"^own.toml: not UTF-8 text, from byte 6 on"):
        load("steel", "pull", extra)


def test_no_hold_of_the_book_is_weaker_for_a_file_that_is_left_out(tmp_path: Path) -> None:
    extra = folder(tmp_path, own='[[step]]\nid = "ready.load_check"\nrelease = ["helper"]')

    assert load("steel", "pull").steps == load_leaving_out("steel", "pull", extra).steps


def test_steps_that_do_not_go_together_leave_out_the_file_that_brings_them(tmp_path: Path) -> None:
    again = step("acme.one", "after = 'pull.holds'")
    walk = load_leaving_out("steel", "pull", folder(tmp_path, a=again, b=again))

    assert 1 == ids(walk).count("acme.one")
    assert ("b.toml: acme.one: id: stands twice in one walk",) == walk.left_out


def test_a_folder_that_cannot_be_read_leaves_out_all_of_it(tmp_path: Path) -> None:
    walk = load_leaving_out("steel", "pull", tmp_path / "nowhere")

    assert load("steel", "pull").steps == walk.steps
    assert "no such folder" in walk.left_out_words


def test_a_hold_of_the_company_stands_open_again_once_its_file_is_mended(tmp_path: Path) -> None:
    log = Log()
    log.write("job", job_number="1", line="steel", work="pull")
    extra = folder(tmp_path, own=step("acme.hold", f"{HOLD}\nhue = 1"))
    left_out = load_leaving_out("steel", "pull", extra).stand(log.job)
    folder(tmp_path, own=step("acme.hold", HOLD))
    mended = load_leaving_out("steel", "pull", extra).stand(log.job)

    assert "acme.hold" not in left_out.states
    assert "acme.hold" in [hold.id for hold in mended.open_holds]


def test_a_sealed_job_is_not_opened_by_a_step_that_the_company_added_since(tmp_path: Path) -> None:
    log = Log()
    log.write("job", job_number="1", line="steel", work="pull")
    walk = load("steel", "pull", folder(tmp_path, own=step("acme.hold", HOLD)))
    assert "acme.hold" in walk.stand(log.job).states
    seal = log.write("seal")
    stand = walk.stand(log.job)

    assert "acme.hold" not in stand.states
    assert ["acme.hold"] == [added.id for added in stand.not_asked]
    assert "acme.hold" not in [hold.id for hold in stand.open_holds]
    assert "arrive.crew" in stand.states, "a step of the book stays open"
    log.strike(seal)
    assert "acme.hold" in walk.stand(log.job).states


def test_a_step_of_the_company_that_was_done_before_the_seal_stays_done(tmp_path: Path) -> None:
    log = Log()
    log.write("job", job_number="1", line="steel", work="pull")
    walk = load("steel", "pull", folder(tmp_path, own=step("acme.sheet", "after = 'arrive.crew'")))
    log.write("done", step="acme.sheet")
    log.write("seal")

    assert not walk.stand(log.job).states["acme.sheet"].is_open
    assert not walk.stand(log.job).not_asked
