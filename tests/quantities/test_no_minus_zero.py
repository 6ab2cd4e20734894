"""What rounds to nothing is shown as 0, never as -0."""

from __future__ import annotations

import pytest

from calc.hoisting.gauge import Band
from calc.units import quantity
from fieldbook.quantities.convert import show
from fieldbook.watch.bands import band_words
from fieldbook.watch.document import _figure as document_figure
from fieldbook.watch.planner.words import _number


@pytest.mark.parametrize(
    ("number", "digits", "shown"),
    [(-0.3, 0, "0 ft"), (-0.04, 1, "0.0 ft"), (-0.0, 0, "0 ft"), (-0.6, 0, "-1 ft")],
)
def test_a_figure(number: float, digits: int, shown: str) -> None:
    assert show(quantity(number, "ft"), "ft", digits) == shown


def test_a_band_and_a_cell_of_the_plan() -> None:
    low, high = quantity(-0.2, "lbf"), quantity(30.0, "lbf")

    assert band_words(Band(low, high, ())) == "0 to 30 lbf"
    assert band_words(Band(low, low, ())) == "0 lbf"
    assert _number(low, "lbf") == "0"


def test_a_figure_of_a_document() -> None:
    assert str(document_figure(quantity(-0.0001, "ft"))) == "{'value': 0.0, 'unit': 'ft'}"
