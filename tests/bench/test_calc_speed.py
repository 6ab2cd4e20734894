"""The calculations against the time a blank Textual app takes from a key to its echo, in one run.

Only ratios count; both sides slow down together on a slow or busy machine.
"""

from __future__ import annotations

import os
import re
import sys
from contextlib import suppress
from math import pi
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING

import pexpect
import pytest

from calc.check import judge, worst
from calc.drop_line.fill import Fill
from calc.drop_line.hanging import HangingString
from calc.drop_line.piece import Piece
from calc.drop_line.pipe import PipeSize, steel_pipe
from calc.drop_line.stretch import overpull_left
from calc.drop_line.threads import root_area, thread_tension
from calc.hoisting.gauge import Gauge, GaugePlace, hook_load_from_reading, reading_for_hook_load
from calc.hoisting.hoist import Motion, Redirect, Reeving, line_pull, mast_load, redirect_chain
from calc.hoisting.wire_rope import breaking_strength, rope_allowable
from calc.hydraulics.pressure import dead_head, net_of_annulus, standing_pressure, surge
from calc.units import quantity

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from calc.check import Check

pytestmark = pytest.mark.bench
WATER = quantity(62.4, "lbf/ft**3")
TOP, LEVEL = quantity(-3, "ft"), quantity(250, "ft")


BLANK_APP = """
from textual.app import App
from textual.widgets import Input

class Blank(App):
    def compose(self):
        field = Input()
        field.cursor_blink = False
        yield field

Blank().run()
"""
ESCAPES = re.compile(r"\x1b\[[0-9;?]*[A-Za-z]")


def typed(terminal: pexpect.spawn[str], key: str) -> float:
    """Seconds until `key` shows up on the terminal among what is not an escape."""
    start, shown = perf_counter(), ""
    terminal.send(key)
    while key not in ESCAPES.sub("", shown):
        shown += terminal.read_nonblocking(65536, timeout=20)
    return perf_counter() - start


def until_quiet(terminal: pexpect.spawn[str]) -> None:
    """Read what is still being drawn, so that the next echo is the next key's."""
    with suppress(pexpect.TIMEOUT):
        while True:
            terminal.read_nonblocking(65536, timeout=0.1)


@pytest.fixture(scope="module")
def echo() -> Iterator[float]:
    """Median seconds a blank Textual app takes in a terminal from a key to its echo."""
    terminal = pexpect.spawn(
        sys.executable,
        ["-c", BLANK_APP],
        dimensions=(24, 80),
        env={**os.environ, "TERM": "xterm-256color"},
        encoding="utf-8",
    )
    terminal.delaybeforesend = None
    typed(terminal, "q")
    waits: list[float] = []
    for key in "wertyuiopasdfgjkzxcvbn":
        until_quiet(terminal)
        waits.append(typed(terminal, key))
    yield median(waits)
    terminal.close(force=True)


def seconds(work: Callable[[], object], times: int) -> float:
    """Median seconds of `work`, after one run that fills the caches."""
    work()
    spans: list[float] = []
    for _ in range(times):
        start = perf_counter()
        work()
        spans.append(perf_counter() - start)
    return median(spans)


def joint(number: int, size: PipeSize, *, valve: bool) -> Piece:
    weight = size.weight_per_length.m_as("lb/ft") * 21
    return Piece(
        f"joint {number}",
        "joint",
        length=quantity(21, "ft"),
        weight=quantity(weight, "lb"),
        displaced=quantity(weight / 490, "ft**3"),
        bore_area=size.bore_area,
        outside_area=size.outside_area,
        holds_water=valve,
        allowable=thread_tension(
            area=root_area(size), stress=quantity(30_000, "psi"), design_factor=4.0
        ),
        allowable_of="thread root",
        allowable_source="ASTM A53 yield, E1 - h, factor 4",
    )


def pieces(count: int) -> list[Piece]:
    """Half of 3 in over half of 2 in, a check valve every tenth joint and the last, and a pump."""
    upper, lower = steel_pipe("3", "40"), steel_pipe("2", "40")
    joints = [
        joint(n, upper if n <= count // 2 else lower, valve=n % 10 == 0)
        for n in range(1, count + 1)
    ]
    pump = Piece(
        "pump", "pump", quantity(4, "ft"), quantity(120, "lb"), quantity(0.27, "ft**3"),
        quantity(0, "in**2"), quantity(pi / 4 * 3.75**2, "in**2"),
    )  # fmt: skip
    return [*joints, pump]


def live_checks(parts: list[Piece]) -> list[Check]:
    """One full set for where the job stands, as after a joint was saved."""
    last = joint(len(parts), steel_pipe("2", "40"), valve=True)
    string = HangingString([*parts[:-2], last, parts[-1]])
    reeving = Reeving(2, None)
    gauge = Gauge(GaugePlace.DEADLINE, quantity(20, "lbf"), quantity(20_000, "lbf"))
    full, drained, partly, design = (
        string.hook_load(level=level, top=TOP, fill=fill, water_weight=WATER)
        for level, fill in (
            (LEVEL, Fill.FULL),
            (LEVEL, Fill.DRAINED),
            (LEVEL, Fill.chambers(*(n > 2 for n in range(len(string.pieces) // 10)))),
            (None, Fill.FULL),
        )
    )
    walls = string.wall_tensions(level=LEVEL, top=TOP, fill=Fill.FULL, water_weight=WATER)
    dry = string.wall_tensions(level=None, top=TOP, fill=Fill.FULL, water_weight=WATER)
    service = string.wall_tensions(
        level=LEVEL, top=TOP, fill=Fill.FULL, water_weight=WATER,
        surface_pressure=quantity(60, "psi"),
    )  # fmt: skip
    heaviest = [max(cuts, key=lambda cut: cut.share or 0.0) for cuts in (walls, dry, service)]
    assert overpull_left(walls).missing == ("rating of pump",)
    pull = line_pull(design, reeving=Reeving(2, 1.09), moving=Motion.HOISTING)
    anchor = redirect_chain(pull, [Redirect("roller", quantity(90, "degree"), 1.09)])[0].anchor
    mast = mast_load(design, reeving=Reeving(2, 1.09), moving=Motion.HOISTING)
    rope = rope_allowable(
        breaking=breaking_strength(quantity(0.5, "in"), construction="FC IPS"), design_factor=3.5
    )
    read = hook_load_from_reading(
        quantity(3000, "lbf"), gauge=gauge, reeving=reeving, moving=Motion.STATIC
    )
    never = reading_for_hook_load(
        quantity(9000, "lbf"), gauge=gauge, reeving=reeving, moving=Motion.HOISTING
    )
    status = standing_pressure(
        column=string.length, water_weight=WATER, surface_pressure=quantity(60, "psi")
    )
    closed = dead_head(
        shut_off_head=quantity(1500, "ft"), submergence=quantity(900, "ft"), water_weight=WATER
    )
    net = net_of_annulus(gross=status, submergence=quantity(900, "ft"), water_weight=WATER)
    hammer = surge(
        wave_speed=quantity(4432, "ft/s"), velocity_change=quantity(3, "ft/s"), water_weight=WATER
    )
    limit = quantity(20_000, "lbf")
    loads = [full, drained, partly, design, anchor, mast, read.high, never.low]
    checks = [judge("load", load, limit, unit="lbf", caution_share=0.8) for load in loads]
    checks += [
        judge(cut.name, cut.tension, cut.allowable, unit="lbf", caution_share=0.8)
        for cut in heaviest
    ]
    checks.append(judge("rope", pull, rope, unit="lbf", caution_share=0.8))
    rating = quantity(2000, "psi")
    return checks + [
        judge("pressure", demand, rating, unit="psi", caution_share=0.8)
        for demand in (status, closed, net, hammer)
    ]


def test_live_checks_of_60_joints_take_less_than_an_echo(echo: float) -> None:
    parts = pieces(60)
    spent = seconds(lambda: worst(live_checks(parts)), 15)

    print(f"live checks {spent / echo:.3f} of an echo ({spent * 1e3:.2f} ms)")
    assert spent <= 1.0 * echo  # 0.1 to 0.59 were measured


def test_the_load_curves_of_1000_pieces_take_at_most_two_echoes(echo: float) -> None:
    string = HangingString(pieces(999))
    spent = seconds(
        lambda: [
            string.load_curve(level=LEVEL, top=TOP, fill=fill, water_weight=WATER)
            for fill in (Fill.FULL, Fill.DRAINED)
        ],
        9,
    )

    print(f"load curves {spent / echo:.3f} of an echo ({spent * 1e3:.2f} ms)")
    assert spent <= 2.0 * echo
