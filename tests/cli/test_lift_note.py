"""`fieldbook lift` prints what the lift check notes, and not what its last link does."""

from __future__ import annotations

from pathlib import Path

import pytest

from fieldbook.cli.main import main
from tests.cli.cards import card
from tests.watch.jobs import STEEL


def test_the_note_of_the_lift_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A rope of unknown strength: both rules of thumb are told, and the lift stays unknown."""
    rows = [
        d
        if d["kind"] != "rig"
        else {
            **d,
            "values": {n: v for n, v in d["values"].items() if n != "rope_breaking"}
            | {"rope_diameter": "1/2 in", "sheave_diameter": "8 in"},
        }
        for d in STEEL
    ]
    main(["lift", "--card", str(card(rows, tmp_path / "lift.toml"))])

    told = " ".join(capsys.readouterr().out.split())
    assert told.startswith("CAN'T SAY: needs ")
    for words in ("line full", "Navy's 8 D^2", "metric 8 d^2", "neither is a rating"):
        assert words in told
