"""Our own colours stand at 7:1 or more against what they stand on (WCAG 2.2, 1.4.6)."""

from __future__ import annotations

import pytest
from textual.color import Color
from textual.theme import Theme

from fieldbook.app.theme.themes import THEMES

_ENOUGH = 7.0


def luminance(color: Color) -> float:
    """Relative luminance as WCAG 2.2 defines it."""

    def linear(channel: int) -> float:
        share = channel / 255
        return float(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)

    return 0.2126 * linear(color.r) + 0.7152 * linear(color.g) + 0.0722 * linear(color.b)


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(Color.parse(c)) for c in (one, other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def inks(theme: Theme) -> dict[str, str | None]:
    """What text is written in."""
    return {
        "foreground": theme.foreground,
        "within": theme.success,
        "caution": theme.warning,
        "danger": theme.error,
        "unknown": theme.variables["unknown"],
        "muted": theme.variables["muted"],
        "border": theme.variables["border"],
    }


def test_black_on_white_is_21_to_1() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)


@pytest.mark.parametrize("theme", THEMES, ids=lambda theme: theme.name)
def test_every_text_stands_out(theme: Theme) -> None:
    papers = {name: getattr(theme, name) for name in ("background", "surface", "panel")}
    pairs = {(i, p): contrast(ink or "", paper)
             for i, ink in inks(theme).items() for p, paper in papers.items()}  # fmt: skip
    pairs["stop", "error"] = contrast(theme.variables["stop-text"], theme.error or "")
    pairs["typed", "focus"] = contrast(theme.background or "", theme.primary)

    assert {pair: ratio for pair, ratio in pairs.items() if ratio < _ENOUGH} == {}
