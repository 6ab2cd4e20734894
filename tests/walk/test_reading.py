"""A file of steps that is wrong is refused, naming file, step and key."""

from __future__ import annotations

import pytest

from fieldbook.record.entry import Origin
from fieldbook.walk.definition.loading import check_walk, load, read_phase
from fieldbook.walk.definition.steps import BadWalk
from tests.walk.logs import step, walk_of


def read(text: str) -> None:
    read_phase(text.encode(), "pull.toml", "pull")


def test_a_step_says_what_its_table_says() -> None:
    text = step(
        "pull.joint",
        """
        records = "joint"
        asks = ["joint_number", "joint_length"]
        must = ["joint_number"]
        fixed = { direction = "out" }
        caution = { word = "DANGER", text = "It falls." }
        origin = "nameplate"
        repeat = "joints"
        hold = 7
        lines = ["steel"]
        minutes = 4
        """,
    )
    (made,) = walk_of(pull=text).steps

    assert ("pull.joint", "pull", "joint") == (made.id, made.phase, made.records)
    assert ("joint_number", "joint_length") == made.asks
    assert {"direction": "out"} == dict(made.fixed)
    assert made.caution is not None
    assert ("DANGER", "It falls.") == (made.caution.word, made.caution.text)
    assert Origin.NAMEPLATE is made.origin
    assert made.each_entry_is_the_yes
    assert made.is_for("steel", "pull")
    assert not made.is_for("hose", "pull")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ("colour = 'red'", "pull.a: colour: unknown key"),
        ("title = 3", "not TOML"),
        ("hold = '7'", "pull.a: hold: is a whole number"),
        ("hold = true", "pull.a: hold: is a whole number"),
        ("hold = 19\nrelease = ['tech']", "pull.a: hold: hold points run from 1 to 18"),
        ("hold = 3", "pull.a: release: a hold point names the roles"),
        ("release = ['tech']", "pull.a: release: belongs to a hold point"),
        ("witness = true", "pull.a: witness: belongs to a hold point"),
        ("witness = 'yes'", "pull.a: witness: is true or false"),
        ("same_person = 'pull.b'", "pull.a: same_person: belongs to a hold point"),
        ("hold = 3\nrelease = ['boss']", "pull.a: release: 'boss' is not one of: crew lead"),
        ("records = 'jiont'", "pull.a: records: 'jiont' is not a kind"),
        ("records = 'hold'", "pull.a: records: 'hold' is not a kind of entry that a form makes"),
        ("records = 'load'", "pull.a: asks: lacks 'gauge_reading', which 'load' needs"),
        ("asks = 'wind'", "pull.a: asks: is a list of words"),
        ("asks = ['wind']", "pull.a: asks: 'wind' does not belong to 'done'"),
        ("asks = ['held_by', 'held_by']", "pull.a: asks: names a quantity twice"),
        ("must = ['held_by']", "pull.a: must: 'held_by' is not among what it asks"),
        ("known = ['wind']", "pull.a: known: 'wind' does not belong to 'done'"),
        ("fixed = { wind = '3' }", "pull.a: fixed: 'wind' does not belong"),
        ("fixed = { role = 'boss' }", "pull.a: fixed: 'role': write one of"),
        ("fixed = { role = 3 }", "pull.a: fixed: is a table of quantity and word"),
        ("origin = 'hearsay'", "pull.a: origin: is one of: measured"),
        ("repeat = 'often'", "pull.a: repeat: 'often' is not one of"),
        ("repeat = 'joints'", "pull.a: repeat: belongs to a step that records something"),
        ("adopts = true", "pull.a: adopts: belongs to a step that records something"),
        ("every = 5", "pull.a: every: is more than 0"),
        ("every = -5", "pull.a: every: is a number, 0 or more"),
        ("minutes = true", "pull.a: minutes: is a number, 0 or more"),
        ("minutes = 'ten'", "pull.a: minutes: is a number, 0 or more"),
        ("minutes = nan", "pull.a: minutes: is a number, 0 or more"),
        ("lines = ['lead']", "pull.a: lines: 'lead' is not one of: pvc, steel, hose"),
        ("lines = []", "pull.a: lines: is empty"),
        ("jobs = ['fish']", "pull.a: jobs: 'fish' is not one of: pull"),
        ("checks = ['luck']", "pull.a: checks: 'luck' is not one of: lift"),
        ("when = 'full moon'", "pull.a: when: 'full moon' is not one of: always"),
        ("when = 'any time'", "pull.a: when: 'any time' is not one of: always"),
        ("caution = 'hot'", "pull.a: caution: is a table of word and text"),
        ("caution = { word = 'LOOK', text = 'x' }", "pull.a: caution: 'LOOK' is not one of"),
        ("caution = { word = 'DANGER' }", "pull.a: caution: is a table of word and text"),
        (f"caution = {{ word = 'DANGER', text = '{'x' * 111}' }}", "pull.a: caution: has 111"),
    ],
)
def test_a_step_that_is_wrong_is_named(more: str, says: str) -> None:
    with pytest.raises(BadWalk) as refusal:
        read(f'phase = "pull"\n{step("pull.a", more)}')

    assert str(refusal.value).startswith("pull.toml: ")
    assert says in str(refusal.value)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("phase = [", "pull.toml: not TOML"),
        ('phase = "set"', "pull.toml: phase: is 'pull' in this file"),
        ("", "pull.toml: phase: is 'pull' in this file"),
        ('phase = "pull"\nstep = 3', "pull.toml: step: steps are tables"),
        ('phase = "pull"\nsteps = []', "pull.toml: steps: unknown key"),
        ('phase = "pull"\n[[step]]\ntitle = "T"', "pull.toml: T: id: is missing"),
        ('phase = "pull"\n[[step]]\nid = "pull.a"', "pull.toml: pull.a: title: is missing"),
        (f'phase = "pull"\n{step("set.a")}', "pull.toml: set.a: id: begins with 'pull.'"),
        (f'phase = "pull"\n{step("pull a")}', "pull.toml: pull a: id: is two words"),
        ('phase = "pull"\ndefault = 3', "pull.toml: default: is a table"),
        ('phase = "pull"\n[default]\nhold = 3', "pull.toml: default: hold: unknown key"),
        ('phase = "pull"\n[default]\nlines = 3', "pull.toml: default: lines: is a list"),
    ],
)
def test_a_file_that_is_wrong_is_named(text: str, says: str) -> None:
    with pytest.raises(BadWalk) as refusal:
        read(text)

    assert says in str(refusal.value)


@pytest.mark.parametrize(
    ("key", "text", "says"),
    [
        ("title", "x" * 31, "title: has 31 characters, 30 at most"),
        ("title", "   ", "title: is empty"),
        ("do", "x" * 151, "do: has 151 characters, 150 at most"),
        ("do", "clear \\u001b[2J", "do: holds characters that cannot be shown"),
        ("source", "", "source: is empty"),
    ],
)
def test_texts_fit_the_screen_and_can_be_shown(key: str, text: str, says: str) -> None:
    texts = {"title": "T", "do": "Do it.", "source": "none"} | {key: text}
    table = "\n".join(f'{name} = "{words}"' for name, words in texts.items())
    with pytest.raises(BadWalk, match=r"pull\.toml: pull\.a") as refusal:
        read(f'phase = "pull"\n[[step]]\nid = "pull.a"\n{table}')

    assert says in str(refusal.value)


def test_a_file_that_is_not_text_is_refused() -> None:
    with pytest.raises(BadWalk, match="not UTF-8 text"):
        read_phase(b"\xff\xfe", "pull.toml", "pull")
    with pytest.raises(BadWalk, match="larger"):
        read_phase(b"#" * 1_000_001, "pull.toml", "pull")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (step("pull.a") + step("pull.a"), "pull.a: id: stands twice"),
        (step("pull.a", "beside = 'pull.b'") + step("pull.b"), "pull.a: beside: 'pull.b'"),
        (
            step("pull.a", "hold = 3\nrelease = ['tech']\nsame_person = 'pull.b'") + step("pull.b"),
            "pull.a: same_person: 'pull.b'",
        ),
    ],
)
def test_steps_that_do_not_go_together_are_named(text: str, says: str) -> None:
    steps = read_phase(f'phase = "pull"\n{text}'.encode(), "pull.toml", "pull")
    with pytest.raises(BadWalk) as refusal:
        check_walk(steps, "steel, pull")

    assert says in str(refusal.value)


@pytest.mark.parametrize(("line", "work"), [("lead", "pull"), ("pvc", "fish"), ("", "")])
def test_there_is_no_walk_for_another_line_or_work(line: str, work: str) -> None:
    with pytest.raises(BadWalk, match="is not one of"):
        load(line, work)


def test_what_a_file_says_once_holds_for_its_steps() -> None:
    text = "[default]\nlines = ['hose']\nrelease = ['tech']\n"
    walk = walk_of(pull=text + step("pull.a") + step("pull.b", "hold = 3\nlines = ['pvc']"))

    assert (("hose",), ()) == (walk.step("pull.a").lines, walk.step("pull.a").release)
    assert (("pvc",), ("tech",)) == (walk.step("pull.b").lines, walk.step("pull.b").release)
