"""The gauge as a bar: it moves while a reading is typed, and says by how much it is over."""

from __future__ import annotations

import pytest

from calc.units import quantity
from fieldbook.app.panels.gauge_bar import gauge_bar, typed_words
from fieldbook.store.shelf.home import Home
from fieldbook.watch.watcher import Look, Watcher
from tests.app.crew import at_the_keys
from tests.app.scenes import put_job
from tests.watch.jobs import STEEL, job_of, says, without


def look(*more: dict[str, object]) -> Look:
    return Watcher(job_of(*STEEL, *more)).look()  # to read 820 to 1,004, stop at 1,290


def test_the_bar_fills_to_the_reading_and_marks_what_is_expected_and_where_to_stop() -> None:
    seen = look(says("load", gauge_reading=645))
    row = gauge_bar(seen, 40)
    most = 1290.4 * 1.15
    assert row.state == ""
    assert len(row.text) == 40
    assert row.text.count("█") == int(645 / most * 40) + 1
    assert row.text.index("┃") == int(1290 / most * 40)
    assert row.text.index("▒") == int(820 / most * 40)


def test_a_reading_over_the_stop_is_past_its_mark() -> None:
    row = gauge_bar(look(), 40, quantity(1700, "lbf"))
    assert row.state == "stop"
    assert row.text.rindex("█") > row.text.index("┃")


@pytest.mark.parametrize(
    ("typed", "words", "state"),
    [
        (900, "Typed 900: as expected", ""),
        (1100, "Typed 1,100: 96 over", "caution"),
        (700, "Typed 700: 120 under", "caution"),
        (1510, "TYPED 1,510: OVER BY 220", "stop"),
    ],
)
def test_what_is_typed_is_held_against_both(typed: float, words: str, state: str) -> None:
    assert typed_words(look(), quantity(typed, "lbf")) == (words, state)


def test_without_a_reading_to_stop_at_there_is_no_bar() -> None:
    job = without(STEEL, "gauge", "gauge_place")
    job_without_stop = job_of(*(d for d in STEEL if d["kind"] not in ("limit", "gauge")))
    for made in (job, job_without_stop):
        seen = Watcher(made).look()
        assert (gauge_bar(seen, 30).text == "") is (seen.readings.never is None)


async def test_the_bar_moves_while_the_reading_is_typed_and_before_it_is_saved(home: Home) -> None:
    folder = put_job(home, STEEL, before="pull.joint")
    async with at_the_keys(home) as crew:
        await crew.press("enter", "down")
        crew.sees("Gauge not read")
        await crew.types("151")
        crew.sees("Typed 151")
        await crew.types("0")
        crew.sees("TYPED 1,510: OVER BY 220")
        assert not crew.joints(folder)
        await crew.press("backspace", "backspace", "backspace", "backspace")
        crew.sees("Gauge not read")
