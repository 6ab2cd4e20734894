"""The lift check on paper: the same figures as the job's, on one page."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from fieldbook.cli.main import main
from fieldbook.office.paper.lift_paper import LINES, WIDTH, lift_paper
from fieldbook.office.samples import build_job, sample_names
from fieldbook.quantities.convert import show
from fieldbook.quantities.safety import SAFETY
from fieldbook.record.job import Job
from fieldbook.store.shelf.home import Home
from fieldbook.watch.card import job_from_card
from fieldbook.watch.watcher import Watcher
from tests.app.scenes import job_in
from tests.cli.cards import card
from tests.watch.jobs import HOSE, STEEL, job_of, says, without


def paper(job: Job) -> str:
    return lift_paper(job, Watcher(job).look(), printed="printed 2026-05-14 08:00")


@pytest.mark.parametrize("documents", [HOSE, STEEL], ids=["hose", "steel"])
def test_a_card_prints_what_the_job_prints(
    documents: tuple[dict[str, Any], ...], tmp_path: Path
) -> None:
    text = card(documents, tmp_path / "lift.toml").read_text(encoding="utf-8")

    assert paper(job_from_card(text)) == paper(job_of(*documents))


@pytest.mark.parametrize("name", sample_names())
def test_a_sample_job_fits_one_page_with_all_that_must_be_at_hand(
    name: str, tmp_path: Path
) -> None:
    job = job_in(build_job(Home(tmp_path), name))
    look = Watcher(job).look()
    text = lift_paper(job, look, printed="printed 2026-05-14 08:00")

    lines = text.splitlines()
    assert len(lines) <= LINES
    assert max(map(len, lines)) <= WIDTH
    flowing = " ".join(text.split())
    loads, never = look.lift.loads, look.readings.never
    if loads is None:
        assert job.text("job", "work") == "check"
        assert "nothing is lifted" in flowing
        return
    assert never is not None
    for load in (loads.full, loads.drained, loads.design):
        assert show(load, "lbf") in flowing
    assert f"STOP AT {show(never, 'lbf')} on the gauge" in flowing
    assert "WEAKEST LINK" in flowing
    for words in SAFETY:
        assert words in flowing
    assert "Checked by (tech) ____" in flowing


def test_every_figure_stands_under_where_it_comes_from() -> None:
    documents = (
        *STEEL,
        {"kind": "rig", "by": "QA", "values": {
            "mast_rating": {"value": "11500 lb", "origin": "nameplate"},
            "dry_friction": {"value": "350 lb", "origin": "stated"},
        }},
    )  # fmt: skip
    text = paper(job_of(*documents))
    figures = text.partition("FIGURES")[2]
    under = {
        line.split()[0]: line for line in figures.replace("\n" + " " * 18, " ").splitlines()
        if line.startswith("  ") and line.strip()
    }  # fmt: skip

    assert "mast rating 11500 lb" in under["nameplate"]
    assert "friction and break-out 350 lb" in under["stated"]
    assert "hook rating 8000 lbf" in under["measured"]
    assert "mast rating" not in under["measured"]


@pytest.mark.parametrize(
    ("kind", "name", "words"),
    [
        ("gauge", "gauge_zero", "STOP AT: can't say, needs gauge zero"),
        ("rig", "mast_rating", "MISSING mast rating"),
        ("cable", "cable_weight", "MISSING cable weight"),
    ],
)
def test_what_is_missing_is_printed(kind: str, name: str, words: str) -> None:
    flowing = " ".join(paper(without(STEEL, kind, name)).split())

    assert words in flowing
    assert "OK TO LIFT" not in flowing


def test_words_of_people_spoil_neither_page_nor_terminal() -> None:
    nasty = says("redirect", place=1, part="\x1b[31mpulley\n" + "x" * 300, turn_angle=90)
    text = paper(job_of(*STEEL, nasty))

    assert "\x1b" not in text
    assert max(map(len, text.splitlines())) <= WIDTH


def test_the_command_prints_the_card_with_the_exit_code_of_the_check(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    whole = card(STEEL, tmp_path / "whole.toml")
    lacking = card(
        [d for d in STEEL if d["kind"] != "cable"],
        tmp_path / "lacking.toml",
    )

    assert main(["lift", "--card", str(whole), "--print"]) == 0
    assert "LIFT CARD" in capsys.readouterr().out
    assert main(["lift", "--card", str(lacking), "--print"]) == 1
    assert "CAN'T SAY: needs cable weight" in capsys.readouterr().out
