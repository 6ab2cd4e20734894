"""What rope and drum may carry: over a sheave, on the outermost layer, and by no thumb rule."""

from __future__ import annotations

from typing import Any

import pytest

from calc.check import Check, Verdict
from fieldbook.watch.watcher import Watcher
from tests.watch.jobs import STEEL, job_of, says

DRUM = {
    "drum_layer": 1,
    "layer_in_use": 4,
    "drum_diameter": "10 in",
    "rope_diameter": "1/2 in",
    "sheave_diameter": "8 in",
}


def link(name: str, **rig: Any) -> Check:
    look = Watcher(job_of(*STEEL, *([says("rig", **rig)] if rig else []))).look()
    return next(each.check for each in look.lift.links if each.check.name == name)


def allowed(check: Check) -> float:
    assert check.allowable is not None
    return float(check.allowable.m_as("lbf"))


def test_a_drum_pulls_less_on_its_outermost_layer() -> None:
    """Hand calculation: rated 3,500 on the bare 10 in drum, 1/2 in rope, layer 4.

    10.5 in of mean diameter on layer 1 and 13.5 in on layer 4: 3,500 x 10.5 / 13.5 = 2,722 lbf.
    """
    drum = link("drum line pull", **DRUM)

    assert allowed(drum) == pytest.approx(2722.2, abs=0.1)
    assert "layer 4" in drum.source
    assert allowed(link("drum line pull")) == pytest.approx(3500)


def test_a_drum_rated_further_out_is_not_counted_for_more() -> None:
    drum = link("drum line pull", **{**DRUM, "drum_layer": 3, "layer_in_use": 1})

    assert allowed(drum) == pytest.approx(3500)
    assert drum.missing == ()


@pytest.mark.parametrize("name", ["drum_layer", "layer_in_use", "drum_diameter", "rope_diameter"])
def test_each_figure_of_the_drum_taken_away_is_named(name: str) -> None:
    drum = link("drum line pull", **{n: v for n, v in DRUM.items() if n != name})

    assert drum.verdict is Verdict.UNKNOWN
    assert len(drum.missing) == 1


def test_a_drum_over_its_rating_stops_though_its_layer_is_not_known() -> None:
    drum = link("drum line pull", drum_layer=1, drum_pull=500)

    assert drum.verdict is Verdict.STOP
    assert drum.missing == ("last layer",)


def test_a_rope_bent_over_its_sheave_carries_less() -> None:
    """Hand calculation: 13,120 / 3.5 = 3,748.6; 8 in over 1/2 in is 16: 89 % + 1/5 of 2 % kept."""
    rope = link("wire rope", **DRUM)

    assert allowed(rope) == pytest.approx(13120 / 3.5 * 0.894, abs=0.5)
    assert "D/d 16" in rope.source
    assert allowed(link("wire rope")) == pytest.approx(13120 / 3.5)


@pytest.mark.parametrize("name", ["rope_diameter", "sheave_diameter"])
def test_each_figure_of_the_bend_taken_away_is_named(name: str) -> None:
    rope = link("wire rope", **{n: v for n, v in DRUM.items() if n != name})

    assert rope.verdict is Verdict.UNKNOWN
    assert len(rope.missing) == 1


@pytest.mark.parametrize(("sheave", "kept"), [("100 in", 0.95), ("0.1 in", 0.50)])
def test_past_the_ends_of_the_curve_the_end_holds(sheave: str, kept: float) -> None:
    rope = link("wire rope", **{**DRUM, "sheave_diameter": sheave})

    assert allowed(rope) == pytest.approx(13120 / 3.5 * kept)
    assert bool(rope.missing) == (kept == 0.50)


def test_no_rule_of_thumb_is_a_rating() -> None:
    """8 x 0.5^2 tons is 4,000 lbf; 8 x 12.7^2 kgf is 1,290 kgf, 2,845 lbf."""
    bare = tuple(
        d
        if d["kind"] != "rig"
        else {**d, "values": {n: v for n, v in d["values"].items() if n != "rope_breaking"}}
        for d in STEEL
    )
    look = Watcher(job_of(*bare, says("rig", **DRUM))).look()
    rope = next(each.check for each in look.lift.links if each.check.name == "wire rope")

    assert rope.verdict is Verdict.UNKNOWN
    assert rope.allowable is None
    for words in ("4,000 lbf", "NAVEDTRA 14026", "2,845 lbf", "41%", "neither is a rating"):
        assert words in rope.note
        assert words in look.lift.check.note
    assert look.lift.check.verdict is Verdict.UNKNOWN
