"""What refutes a hold point is data: the book's rules, and those a step adds."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from fieldbook.walk.definition.hold_rules import read_rule, rules
from fieldbook.walk.definition.loading import load, own_steps
from fieldbook.walk.definition.steps import HOLD_POINTS, BadWalk
from tests.walk.holds import BY_NAME, Row, at, job_with, one, refused
from tests.walk.logs import Log, step, walk_of
from tests.watch.jobs import says


def test_every_rule_of_the_book_tells_its_source_and_is_of_a_hold_that_asks_for_it() -> None:
    asked: dict[int, set[str]] = {}
    for one_step in own_steps():
        asked.setdefault(one_step.hold or 0, set()).update(one_step.asks)
    for number, many in rules().items():
        assert number in HOLD_POINTS
        for rule in many:
            assert rule.source
            assert rule.figure in asked[number] or rule.kinds or not rule.figure, rule


BAD = (
    ({"figure": "volts", "say": "no"}, "no quantity"),
    ({"figure": "volts_ab", "say": "no", "over": "one V"}, "no bound"),
    ({"figure": "volts_ab", "say": "no", "over": "1 V", "under": "2 V"}, "more than one"),
    ({"figure": "volts_ab", "say": "no", "kinds": ["arrival"]}, "does not belong"),
    ({"figure": "volts_ab", "say": ""}, "is empty"),
    ({"figure": "volts_ab"}, "lacks 'say'"),
    ({"figure": "volts_ab", "say": "no", "passed": "by all"}, "not a key"),
    ({"figure": "volts_ab", "say": "no", "never": "yes"}, "wrong type"),
)


@pytest.mark.parametrize(("rule", "problem"), BAD)
def test_a_wrong_rule_is_refused_and_says_what_is_wrong(rule: dict[str, Any], problem: str) -> None:
    lines = "\n".join(f"{k} = {str(v).lower() if isinstance(v, bool) else repr(v)}"
                      for k, v in rule.items())  # fmt: skip
    text = step("test.dead", f"hold = 2\nrelease = ['tech']\n[[step.refuted]]\n{lines}")
    with pytest.raises(BadWalk, match=problem):
        walk_of(test=text)


def test_a_rule_of_a_step_adds_to_those_of_its_number() -> None:
    walk = walk_of(
        test=step("test.dead", "hold = 2\nrelease = ['tech']\nrecords = 'arrival'\n"
                  "asks = ['volts_after_lockout', 'weather']\n"
                  "[[step.refuted]]\nfigure = 'weather'\nwords = ['rain']\nsay = 'Wet leads'")
    )  # fmt: skip
    log = Log()
    log.write("arrival", step="test.dead", volts_after_lockout=0, weather="rain")
    assert refused(walk, log.job, "test.dead").startswith("Wet leads")
    log.write("arrival", step="test.dead", volts_after_lockout=240, weather="dry")
    assert refused(walk, log.job, "test.dead").startswith("240 V on the leads")


def test_a_share_of_the_bound_is_slack_and_no_more() -> None:
    assert read_rule({"figure": "footage", "say": "x", "slack": "2 percent"}).slack == "2 percent"
    near = at("pump_out", "pull.count", footage="412 ft")
    far = at("pump_out", "pull.count", footage="395 ft")
    for said, holds in ((near, False), (far, True)):
        row = Row(9, "pull.count", (), (), "", BY_NAME, line="hose",
                  before=one(says("prior", piece_length="420 ft")))  # fmt: skip
        walk, job = job_with(row, one(said))
        assert ("not the length on the last record" in refused(walk, job, "pull.count")) == holds


def test_a_company_can_only_make_a_hold_stricter(tmp_path: Path) -> None:
    rule = "[[step.refuted]]\nfigure = 'lock_number'\nwords = ['none']\nsay = 'No lock on it'\n"
    (tmp_path / "own.toml").write_text(f'[[step]]\nid = "test.lockout"\n{rule}')
    walk = load("steel", "pull and set", tmp_path)
    log = Log()
    log.write("job", job_number="S-1", line="steel", work="pull and set")
    log.write("arrival", step="test.lockout", lock_number="none", volts_after_lockout=0)
    assert refused(walk, log.job, "test.lockout").startswith("No lock on it")
    log.write("arrival", step="test.lockout", lock_number="8", volts_after_lockout=240)
    assert "240 V on the leads" in refused(walk, log.job, "test.lockout")

    (tmp_path / "own.toml").write_text(f'[[step]]\nid = "arrive.racks"\n{rule}')
    with pytest.raises(BadWalk, match="belongs to a hold point"):
        load("steel", "pull and set", tmp_path)
