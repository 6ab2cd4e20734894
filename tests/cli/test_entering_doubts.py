"""What a form asks about once, `enter` refuses until it says that it is sure, and a card prints."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from fieldbook.cli import main
from fieldbook.record.entry import Origin
from fieldbook.store.job.book import Book
from tests.app.scenes import put_job, scratch_home
from tests.cli.cards import card
from tests.cli.enter import Script
from tests.watch.jobs import STEEL, says

TWENTY = [STEEL[0], says("prior", prior_count=20)]
RUN = {"place": 1, "piece": "joint", "joint_length": "21 ft", "nps": "2"}

DOUBTED = [
    (
        "joint",
        {"direction": "out", "joint_number": 1, "joint_length": "20 in"},
        "length is usually",
    ),
    ("piece", RUN | {"joint_count": 2}, "the last record has 20"),
    ("piece", RUN | {"joint_count": 21}, "the last record has 20"),
    ("rig", {"mast_rating": 300_000}, "200000 lbf"),
    ("meter", {"volts_ab": 24000}, "usually"),
    ("load", {"gauge_reading": 90_000}, "usually"),
]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return put_job(scratch_home(tmp_path / "home"), TWENTY)


@pytest.fixture
def script(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Script:
    return Script(folder, monkeypatch, capsys)


@pytest.mark.parametrize(("kind", "values", "words"), DOUBTED)
def test_what_looks_wrong_is_refused_by_name_and_kept_where_it_is_said_to_be_sure(
    script: Script, folder: Path, kind: str, values: dict[str, Any], words: str
) -> None:
    document = says(kind, **values)
    (answer,) = script.enter(document)

    assert len(answer["doubt"]) == 1
    assert words in answer["doubt"][0]
    assert answer["doubt"][0] in answer["refused"]
    assert '"sure": true' in answer["refused"]
    (answer,) = script.enter(document | {"sure": False})
    assert "doubt" in answer

    (answer,) = script.enter(document | {"sure": True})
    assert "saved" in answer
    with Book.open(folder, "d-reader", write=False) as book:
        kept = book.job.get(answer["saved"])
    assert kept is not None
    assert (kept.text("sure"), kept.values["sure"].origin) == ("yes", Origin.STATED)


@pytest.mark.parametrize(
    ("kind", "values"),
    [
        ("joint", {"direction": "out", "joint_number": 1, "joint_length": "20.98 ft"}),
        ("piece", RUN | {"joint_count": 10}),
        ("piece", RUN | {"joint_count": 20}),
        ("rig", {"mast_rating": 60_000}),
    ],
)
def test_what_looks_right_needs_no_word(script: Script, kind: str, values: dict[str, Any]) -> None:
    assert script.refused(kind, **values) == ""


def test_a_piece_that_takes_the_place_of_a_wrong_one_is_not_held_against_it(
    script: Script,
) -> None:
    (first,) = script.enter(says("piece", **RUN, joint_count=18))
    again = says("piece", **RUN, joint_count=19)
    (beside,) = script.enter(again)
    (instead,) = script.enter(again | {"strikes": first["saved"]})

    assert "has this place" in beside["doubt"][0]
    assert "saved" in instead


def test_a_figure_that_the_rest_of_the_plan_does_not_come_to_is_refused_too(script: Script) -> None:
    sums = {"pumping_level": 100, "friction_loss": 10, "discharge_pressure": "50 psi"}
    (answer,) = script.enter(says("duty", **sums, total_head=400))

    assert answer["doubt"] == ["100 + 10 + 50 psi x 2.31 = 226 ft"]
    assert "saved" in script.enter(says("duty", **sums, total_head=226))[0]


@pytest.mark.parametrize("sure", ["yes", 1, None])
def test_sure_is_true_or_false_and_nothing_else(script: Script, sure: Any) -> None:
    (answer,) = script.enter(says("rig", mast_rating=300_000) | {"sure": sure})

    assert answer == {"refused": "sure is true or false"}


HUGE = [*STEEL, says("rig", mast_rating=300_000)]


@pytest.mark.parametrize("command", [["lift"], ["lift", "--print"], ["plan"]])
def test_a_card_prints_what_looks_wrong_on_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: list[str]
) -> None:
    doubted = card(HUGE, tmp_path / "doubted.toml")
    main([*command, "--card", str(doubted)])
    told = " ".join(capsys.readouterr().out.split())
    assert "rig: mast rating is usually 1000 to 200000 lbf" in told.lower()

    main([*command, "--card", str(card(STEEL, tmp_path / "sound.toml"))])
    assert "look again" not in capsys.readouterr().out.lower()


@pytest.mark.parametrize("command", ["lift", "plan"])
def test_a_card_names_its_doubts_in_json(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    main([command, "--card", str(card(HUGE, tmp_path / "card.toml")), "--json"])
    doubts = json.loads(capsys.readouterr().out)["doubt"]
    assert any("mast rating" in words for words in doubts)

    sound = card(STEEL, tmp_path / "sound.toml")
    main([command, "--card", str(sound), "--json"])
    assert "doubt" not in json.loads(capsys.readouterr().out)
