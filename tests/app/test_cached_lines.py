"""What widgets keep of their lines is what they would draw anew, whatever is done to them."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

import pytest
from textual.widget import Widget

from fieldbook.app.widgets.cached_lines import CachedWidget
from fieldbook.store.shelf.home import Home
from tests.app.crew import LARGE, SMALL, Crew, at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL

Act = Callable[[Crew], Awaitable[None]]


def pressed(*keys: str) -> Act:
    return lambda crew: crew.press(*keys)


def sized(columns: int, rows: int) -> Act:
    return lambda crew: crew.resize((columns, rows))


ACTS: tuple[Act, ...] = (
    pressed("enter"),
    pressed(*"20.98", "enter"),
    pressed(*"900", "enter", "enter"),
    pressed("="),
    pressed(*"20..1", "enter"),
    pressed("escape"),
    pressed("m"),
    sized(*SMALL),
    sized(*LARGE),
    pressed("pagedown"),
    pressed("f1"),
    pressed("escape"),
    pressed("m"),
    pressed("pageup"),
    pressed("slash", "escape"),
)


def drawn(crew: Crew) -> list[list[tuple[str, object]]]:
    """Every cell of the screen with its style."""
    strips = crew.app.screen._compositor.render_strips(crew.app.size)
    return [[(part.text, part.style) for part in strip.simplify()] for strip in strips]


@pytest.mark.parametrize("size", [SMALL, LARGE])
async def test_what_is_kept_is_what_would_be_drawn_anew(home: Home, size: tuple[int, int]) -> None:
    put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home, size) as crew:
        for act in ACTS:
            await act(crew)
            kept = drawn(crew)
            for widget in crew.app.screen.walk_children(CachedWidget):
                widget.refresh()
                widget._kept = None
            assert kept == drawn(crew)


async def test_a_widget_of_which_nothing_changed_is_not_drawn_again(
    home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_job(home, STEEL, before="pull.joint")
    drawn_again: list[Widget] = []
    async with at_the_keys(home, LARGE) as crew:
        await crew.press("enter")
        await crew.types("20.98", "enter")
        await crew.types("900", "enter", "enter")
        inner = Widget.render_lines

        def render_lines(widget: Widget, crop: object) -> object:
            drawn_again.append(widget)
            return inner(widget, crop)  # type: ignore[arg-type] # handed on as it came

        monkeypatch.setattr(Widget, "render_lines", render_lines)
        await crew.press("=")
        crew.sees("Joint 2 out saved")

        lines = [w for w in drawn_again if isinstance(w, CachedWidget) and "field-" in (w.id or "")]
        assert drawn_again
        assert not lines, "no label of the form changed"
