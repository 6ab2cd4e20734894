"""Every screen as it is drawn: contrast of each text by WCAG 2.2, and no glyph a font may lack."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from pathlib import Path

import pytest
from rich.color import Color
from rich.segment import Segment
from rich.style import Style
from textual.binding import Binding
from textual.widgets import Input

from fieldbook.app.screens.help_screen import HelpScreen, glossary
from fieldbook.app.theme.themes import DAY, NIGHT
from fieldbook.app.walk.screen import WalkScreen
from fieldbook.app.widgets.literal import Literal
from fieldbook.store.shelf.home import Home, Settings
from tests.app.crew import LARGE, SMALL, Crew, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL

TEXT = 7.0  # WCAG 2.2, 1.4.6, contrast (enhanced)
LINES = 3.0  # WCAG 2.2, 1.4.11, non-text contrast
FRAMES = range(0x2500, 0x25A0)  # Unicode blocks Box Drawing and Block Elements
SIGNS = frozenset("•…√")
READ = {"kind": "load", "by": "QA", "values": {"gauge_reading": 900}}
OVER = {"kind": "load", "by": "QA", "values": {"gauge_reading": 9000}}

# What the crew presses, one screen after the other, and a word of the screen it comes to.
WALKED = (
    (("slash",), "owner, well, pump, day"),
    (("escape", "ctrl+p"), "What to do"),
    (("escape", "enter"), "Joint out"),
    (("f1",), "Keys"),
    (("escape", "escape"), "lift check"),
    (("l",), "Gauge should read:"),
    (("j",), "Gauge should read:"),
    (("escape", "t"), "Gauge over what is out"),
    (("escape", "w"), "Joint out"),
    (("escape", "c"), "Job card"),
    (("escape", "v"), "Step skipped"),
    (("escape", "e"), "mergency"),
    (("escape", "u"), "ear"),
    (("escape", "n"), "Note"),
    (("escape", "x"), "Cross out this entry?"),
    (("escape", "g"), "Gauge reading"),
    (("escape", "enter", "x", "enter"), "not"),  # a letter where a length is asked for
    (("escape", "q"), "the shelf"),
    (("w",), "ells"),
    (("escape", "d"), "owed"),
    (("escape", "n"), "New job"),
)


def luminance(color: Color) -> float:
    """Relative luminance as WCAG 2.2 defines it."""

    def linear(channel: int) -> float:
        share = channel / 255
        return float(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)

    red, green, blue = color.get_truecolor()
    return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)


def contrast(style: Style) -> float:
    assert style.color is not None
    assert style.bgcolor is not None
    light, dark = sorted(map(luminance, (style.color, style.bgcolor)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def drawn(crew: Crew) -> Iterator[Segment]:
    for strip in crew.app.screen._compositor.render_strips(crew.app.size):
        yield from (s for s in strip if s.text.strip() and s.control is None)


def faint(crew: Crew) -> list[tuple[str, float]]:
    """What is drawn with too little contrast."""
    found = []
    for text, style, _ in drawn(crew):
        assert style is not None, text
        assert not style.dim, f"{text!r} is dimmed by as much as the terminal likes"
        least = LINES if all(ord(c) in FRAMES or c.isspace() for c in text) else TEXT
        if (ratio := contrast(style)) < least:
            found.append((text, round(ratio, 1)))
    return found


def strange(crew: Crew) -> set[str]:
    """Signs that a common terminal font may lack."""
    return {
        character
        for text, _, _ in drawn(crew)
        for character in text
        if ord(character) not in FRAMES and ord(character) > 0xFF and character not in SIGNS
    }


@pytest.mark.parametrize("size", [SMALL, LARGE])
@pytest.mark.parametrize("theme", [DAY, NIGHT], ids=lambda theme: theme.name)
async def test_every_screen_can_be_read(home: Home, theme: object, size: tuple[int, int]) -> None:
    home.keep(Settings(initials="QA", safety_seen=True, theme=getattr(theme, "name", "")))
    put_job(home, [*STEEL, READ], before="pull.joint")
    async with at_the_keys(home, size) as crew:
        for keys, word in WALKED:
            await crew.press(*keys)
            crew.sees(word)
            assert faint(crew) == [], f"{keys}\n{crew.screen}"
            assert strange(crew) == set(), f"{keys}\n{crew.screen}"


def plain_action(action: str) -> str:
    """An action without what is handed to it: `row(1)` and `row(2)` are one."""
    return action.partition("(")[0]


def under_the_mouse(crew: Crew) -> set[str]:
    """The actions that the mouse does on the screen that is up."""
    screen = crew.app.screen
    offered = [act for widget in screen.query("ActionList, KeyLine") for act in widget._actions]  # type: ignore[attr-defined]
    done = {plain_action(act.action) for act in offered}
    if screen.query("Rows, JobRows, WellRows"):  # a click on a row is Enter, and goes to it
        entered = {b.action for b in bound(crew) if b.key == "enter"}
        done |= {"row", *map(plain_action, entered)}
    return done


def bound(crew: Crew) -> list[Binding]:
    """What the screen that is up binds itself, shown or not."""
    ours = [c for c in type(crew.app.screen).__mro__ if c.__module__.startswith("fieldbook.")]
    return [b for c in ours for b in Binding.make_bindings(c.__dict__.get("BINDINGS", ()))]


async def test_every_act_is_in_the_palette_under_the_mouse_and_in_the_help(home: Home) -> None:
    put_job(home, [*STEEL, READ], before="pull.joint")
    words = glossary()
    async with at_the_keys(home, LARGE) as crew:
        for keys, word in ((), "the shelf"), *WALKED:
            await crew.press(*keys)
            crew.sees(word)
            screen = crew.app.screen
            mouse = under_the_mouse(crew)
            if isinstance(screen, WalkScreen):  # its line of keys says what acts now
                await crew.press("escape")
                mouse |= under_the_mouse(crew)
                await crew.press("enter")
                mouse |= under_the_mouse(crew)
                await crew.press("escape")
            offered = {c.title for c in crew.app.get_system_commands(screen)}
            named = {
                plain_action(b.action): b.description
                for b in bound(crew)
                if b.show and screen.check_action(plain_action(b.action), ())
            }
            for binding in bound(crew):
                action = plain_action(binding.action)
                if not screen.check_action(action, ()):
                    continue  # it does not act here
                # Offered where a job that recorded at once has something to fill in.
                under = action in mouse or action == "fill_in"
                assert under, f"{keys}: {binding.key} is not under the mouse"
                assert action in named, f"{keys}: {binding.key} has no words"
                assert action.startswith("app.") or named[action] in offered, f"{keys}: {action}"
            if isinstance(screen, HelpScreen):
                continue
            await crew.press("f1")
            helped = "\n".join(line.text for line in crew.app.screen.query(Literal))
            assert all(told in helped for told in named.values()), helped
            assert all(f"{term}: {meaning}" in helped for term, meaning in words.items())
            await crew.press("escape")
            if not isinstance(crew.app.focused, Input):
                await crew.press("question_mark")
                crew.sees("Keys here")
                await crew.press("escape")
            assert crew.app.screen is screen


@pytest.mark.parametrize("theme", [DAY, NIGHT], ids=lambda theme: theme.name)
@pytest.mark.parametrize("word", ["STOP", "unknown"])
async def test_a_stop_and_an_unknown_can_be_read(home: Home, theme: object, word: str) -> None:
    home.keep(Settings(initials="QA", safety_seen=True, theme=getattr(theme, "name", "")))
    known = [d for d in STEEL if word == "STOP" or d["kind"] != "rig"]
    put_job(home, [*known, OVER], before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter")
        crew.sees(word)
        assert faint(crew) == []
        assert strange(crew) == set()


async def test_the_first_start_can_be_read(tmp_path: Path) -> None:
    async with at_the_keys(Home(tmp_path), may_choose=True) as crew:
        crew.sees("Before you start", "type another", "I have read this")
        assert faint(crew) == []
        assert strange(crew) == set()


def test_the_signs_beside_the_blocks_are_what_their_names_say() -> None:
    assert {unicodedata.name(c) for c in SIGNS} == {"BULLET", "HORIZONTAL ELLIPSIS", "SQUARE ROOT"}
