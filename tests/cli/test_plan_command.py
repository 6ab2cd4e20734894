"""`fieldbook plan`: its answers, its exit codes, its card."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

import pytest

from fieldbook.cli.main import main
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.safety import SAFETY
from tests.cli.cards import card
from tests.watch.jobs import STEEL, says
from tests.watch.plans import STEEL_PLAN


def test_a_card_is_planned_and_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = card(STEEL_PLAN, tmp_path / "plan.toml")

    assert main(["plan", "--card", str(path)]) == 0
    told = capsys.readouterr().out
    assert "PLAN: WITHIN LIMITS" in told
    assert "steel 2 sch 40" in told
    assert "rating of the check valve: for" in " ".join(told.split())
    assert SAFETY[0].split(";")[0] in told
    assert max(map(len, told.splitlines())) < 80

    assert main(["plan", "--card", str(path), "--line", "Steel 2  sch 40"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    for words in ("wall, in service", "dead-head", "Total head", "Cable", "Water past motor"):
        assert words in told


def test_the_json_says_the_same(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = card(STEEL_PLAN, tmp_path / "plan.toml")

    assert main(["plan", "--card", str(path), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    row = next(row for row in document["lines"] if row["name"] == "steel 2 sch 40")
    assert document["setting"]["value"] == pytest.approx(300)
    assert row["governs"] == "wall, in service"
    assert row["at_setting"]["dead_head"]["unit"] == "psi"


def test_nothing_known_is_nothing_within_limits(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = card([says("job", line="pvc")], tmp_path / "bare.toml")

    assert main(["plan", "--card", str(path)]) == 1
    assert "NOTHING WITHIN EVERY LIMIT" in capsys.readouterr().out


def test_too_deep_for_every_line_is_1(tmp_path: Path) -> None:
    deep = [*STEEL_PLAN, says("setting", datum="top of casing", setting_depth=1500)]

    assert main(["plan", "--card", str(card(deep, tmp_path / "deep.toml"))]) == 1


@pytest.mark.parametrize(
    ("arguments", "says_why"),
    [
        ([], "one of the two"),
        (["--card", "/nowhere/card.toml"], "cannot read"),
    ],
)
def test_bad_usage_is_2(
    arguments: list[str], says_why: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", *arguments]) == 2
    assert says_why in capsys.readouterr().err


def test_a_line_that_is_not_there_is_2_and_names_those_that_are(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = card(STEEL, tmp_path / "plan.toml")

    assert main(["plan", "--card", str(path), "--line", "glass 2"]) == 2
    assert "PVC 1 sch 80" in capsys.readouterr().err


def test_the_blank_card_asks_for_all_that_a_plan_reads(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["plan", "--blank"]) == 0
    blank = tomllib.loads(capsys.readouterr().out)
    for kind in ("duty", "setting", "curve_point", "line_choice", "cable", "pump"):
        table = blank[kind][0] if isinstance(blank[kind], list) else blank[kind]
        assert set(kinds()[kind].needs) <= set(table)
    assert "allowed_drop" in blank["cable"]
    assert "motor_diameter" in blank["pump"]


def test_water_past_the_motor_has_two_places_and_a_reason_its_columns(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = card(STEEL_PLAN, tmp_path / "plan.toml")
    assert main(["plan", "--card", str(path), "--line", "steel 2 sch 40"]) == 0
    told = " ".join(capsys.readouterr().out.split())
    assert "Water past motor OK, 0.25 ft/s of 0.56 ft/s" in told
