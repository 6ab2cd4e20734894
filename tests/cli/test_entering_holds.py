"""A hold that comes from outside is held against the checks as the screen does it."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.app.scenes import put_job, scratch_home
from tests.cli.enter import Script
from tests.watch.jobs import STEEL

LOAD_CHECK = {"step": "ready.load_check", "role": "tech"}
WHY = {"reason": "no gauge on this rig", "relies_on": "the sheet of the last pull"}
READ = [*STEEL, {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}]


@pytest.fixture
def script(
    request: pytest.FixtureRequest,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Script:
    home = scratch_home(tmp_path / "home")
    folder = put_job(home, request.param, before="ready.load_check")
    return Script(folder, monkeypatch, capsys)


@pytest.mark.parametrize("script", [READ], indirect=True)
def test_a_hold_is_released_by_who_may_while_the_checks_hold(script: Script) -> None:
    assert "signed by" in script.refused("hold", step="ready.load_check")
    assert script.refused("hold", **LOAD_CHECK) == ""


@pytest.mark.parametrize("script", [READ], indirect=True)
def test_a_stop_is_not_released_until_it_has_gone(script: Script) -> None:
    assert script.refused("load", gauge_reading=2999) == ""
    assert script.refused("check_passed", **LOAD_CHECK, **WHY, check="gauge") == ""
    assert "STOP: lift and gauge" in script.refused("hold", **LOAD_CHECK, **WHY)
    assert "STOP: lift and gauge" in script.refused("passed_over", **LOAD_CHECK, **WHY)
    assert script.refused("load", gauge_reading=900) == ""
    assert script.refused("hold", **LOAD_CHECK) == ""


@pytest.mark.parametrize(
    "script", [[document for document in STEEL if document["kind"] != "gauge"]], indirect=True
)
def test_unknown_is_passed_by_name_first(script: Script) -> None:
    assert "gauge says unknown: go ahead by name first" in script.refused(
        "hold", **LOAD_CHECK, **WHY
    )
    script.enter(
        {
            "kind": "check_passed",
            "by": "QA",
            "values": {**LOAD_CHECK, **WHY, "check": "lift, gauge"},
        }
    )
    assert "gauge says unknown" in script.refused("hold", "ZZ", **LOAD_CHECK)
    assert script.refused("hold", **LOAD_CHECK) == ""


@pytest.mark.parametrize("script", [STEEL], indirect=True)
def test_a_figure_that_refutes_a_hold_keeps_it_from_outside_too(script: Script) -> None:
    lock, why = {"step": "test.lockout"}, {"reason": "in a hurry", "relies_on": "the label"}
    live = lock | {"lock_number": "8", "volts_after_lockout": "240 V"}
    assert script.refused_though_sure("arrival", **live) == ""
    assert script.refused("check_passed", **lock, **why, check="volts after lockout") == ""
    assert "not dead" in script.refused("hold", **lock, role="crew lead")
    assert "not dead" in script.refused("passed_over", **lock, **why)
    assert script.refused("arrival", **lock, lock_number="8", volts_after_lockout="0 V") == ""
    assert script.refused("hold", **lock, role="crew lead") == ""

    line, named = {"step": "ready.relieve"}, "discharge pressure"
    assert script.refused("meter", **line, discharge_pressure="60 psi") == ""
    assert "60 psi in the line" in script.refused("hold", **line, role="crew lead")
    assert script.refused("check_passed", **line, **why, check=named) == ""
    assert "60 psi" in script.refused("hold", "ZZ", **line, role="crew lead")
    assert script.refused("hold", **line, role="crew lead") == ""
