"""Where a terminal has sixteen colours, or eight, or none, a field and a caution stay plain."""

from __future__ import annotations

import itertools

import pytest
from rich.color import Color, ColorSystem
from textual.theme import Theme

from fieldbook.app.theme.few_colours import SIXTEEN, few_colours
from fieldbook.app.theme.themes import THEMES
from tests.app.test_themes import contrast, inks

_ENOUGH = 4.5  # WCAG 2.2, 1.4.3: sixteen colours hold no more for all of them at once
_COLOURED = few_colours(grey=False)
_ALL = (*_COLOURED, *few_colours(grey=True))


def number(shade: str | None) -> int:
    """Which of the sixteen a terminal shows."""
    shown = Color.parse(shade or "").downgrade(ColorSystem.STANDARD).number
    assert shown is not None
    return shown


@pytest.mark.parametrize("theme", _ALL, ids=lambda theme: theme.name)
def test_every_text_stands_out(theme: Theme) -> None:
    pairs = {n: contrast(ink or "", theme.background or "") for n, ink in inks(theme).items()}
    pairs |= {
        "typed": contrast(theme.background or "", theme.primary),
        "in a box": contrast(theme.foreground or "", theme.panel or ""),
        "muted in a box": contrast(theme.variables["muted"], theme.panel or ""),
        "stop": contrast(theme.variables["stop-text"], theme.error or ""),
    }
    assert {name: ratio for name, ratio in pairs.items() if ratio < _ENOUGH} == {}


@pytest.mark.parametrize("theme", _COLOURED, ids=lambda theme: theme.name)
def test_a_box_shows_where_bright_backgrounds_are_not_brighter(theme: Theme) -> None:
    shown = [number(shade) % 8 for shade in (theme.panel, theme.background, theme.primary)]
    assert len(set(shown)) == 3


@pytest.mark.parametrize("theme", _ALL, ids=lambda theme: theme.name)
def test_a_box_is_no_paper_and_every_colour_is_one_of_the_sixteen(theme: Theme) -> None:
    shades = [theme.panel, theme.background, theme.primary, *inks(theme).values()]
    assert {shade for shade in shades if shade not in SIXTEEN} == set()
    assert number(theme.panel) != number(theme.background)


@pytest.mark.parametrize("theme", _COLOURED, ids=lambda theme: theme.name)
def test_no_two_states_share_a_colour(theme: Theme) -> None:
    states = [number(inks(theme)[name]) for name in ("within", "caution", "danger", "unknown")]
    assert all(one != other for one, other in itertools.combinations(states, 2))


def test_they_go_by_the_names_that_the_settings_know() -> None:
    assert [theme.name for theme in _COLOURED] == [theme.name for theme in THEMES]
