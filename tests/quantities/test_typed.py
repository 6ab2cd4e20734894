"""Typed text is understood strictly, and what is refused says what to write instead."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fieldbook.quantities.convert import doubt, number_in
from fieldbook.quantities.definition import definition, definitions
from fieldbook.quantities.kinds import kinds
from fieldbook.quantities.typed import NotUnderstood, parse


@pytest.mark.parametrize(
    ("name", "text", "number", "unit"),
    [
        ("joint_length", "20.98", 20.98, "ft"),
        ("joint_length", "21' 3\"", 21.25, "ft"),
        ("joint_length", "20 ft 6-3/4 in", 20.5625, "ft"),
        ("joint_length", "20'6", 20.5, "ft"),
        ("joint_length", "6.4 m", 6.4, "m"),
        ("joint_length", "6.4m", 6.4, "m"),
        ("casing_diameter", "6-5/8", 6.625, "in"),
        ("casing_diameter", '6"', 6.0, "in"),
        ("gauge_reading", "742", 742.0, "lbf"),
        ("gauge_reading", "742 lb", 742.0, "lbf"),
        ("gauge_reading", "340 kg", 340.0, "kgf"),
        ("gauge_zero", "-12", -12.0, "lbf"),
        ("insulation", "1.2 Mohm", 1.2, "Mohm"),
        ("insulation", "350 kohm", 350.0, "kohm"),
        ("water_temperature", "54", 54.0, "degF"),
        ("water_temperature", "12 C", 12.0, "degC"),
        ("parts_of_line", "2", 2.0, ""),
        ("hose_swell", "15 %", 15.0, "percent"),
        ("surface_pressure", "4 bar", 4.0, "bar"),
    ],
)
def test_what_a_crew_types_is_understood(name: str, text: str, number: float, unit: str) -> None:
    value = parse(text, definition(name))

    assert value.number == pytest.approx(number, abs=1e-12)
    assert (unit, text) == (value.unit, value.text)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "  ",
        "1,5",
        "1,500",
        "1 234",
        "twenty",
        "nan",
        "inf",
        "-inf",
        "1e400",
        "9**9",
        "0x10",
        "１２",
        "1_000",
        "12 psi",
        "12 ft 13 in",
        "3/0",
        "-3",
        "20.98 ft ft",
        "[red]1[/]",
        "1" * 61,
        "1e3",
    ],
)
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(NotUnderstood) as refusal:
        parse(text, definition("joint_length"))

    assert str(refusal.value)


def test_words_in_a_line_for_a_number_are_no_matter_of_their_comma() -> None:
    with pytest.raises(NotUnderstood, match="not a number"):
        parse("notch, south side", definition("joint_length"))
    with pytest.raises(NotUnderstood, match="a comma can mean two things"):
        parse("1,5", definition("joint_length"))


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("hook_rating", "0", "more than 0"),
        ("turn_angle", "181", "180 or less"),
        ("turn_angle", "0.000000001", "1 or more"),
        ("sheave_factor", "1000", "2 or less"),
        ("parts_of_line", "1000000", "24 or less"),
        ("joint_count", "1000000", "500 or less"),
        ("parts_of_line", "0", "1 or more"),
        ("cable_weight", "-1 kg/m", "negative"),
    ],
)
def test_nonsense_is_refused_with_its_limit(name: str, text: str, says: str) -> None:
    with pytest.raises(NotUnderstood, match=says):
        parse(text, definition(name))


def test_a_metric_book_understands_bare_numbers_as_metric() -> None:
    assert parse("6.4", definition("joint_length"), metric=True).unit == "m"


def test_a_choice_takes_only_its_words() -> None:
    assert parse("PIT", definition("pipe_condition")).text == "pit"
    with pytest.raises(NotUnderstood, match="good, pit, hole"):
        parse("so so", definition("pipe_condition"))


@pytest.mark.parametrize("text", ["2026-02-30", "14/05/2026", "yesterday"])
def test_a_date_is_a_day_that_exists(text: str) -> None:
    with pytest.raises(NotUnderstood):
        parse(text, definition("due"))


def test_a_doubt_names_the_usual_range_in_the_units_of_the_quantity() -> None:
    length = definition("joint_length")

    assert doubt(parse("20.98", length), length) == ""
    assert doubt(parse("6.4 m", length), length) == ""
    assert doubt(parse("210", length), length) == "length is usually 9.5 to 22.5 ft"


def test_converting_uses_exact_factors() -> None:
    """0.3048 m to the foot is exact by definition (NIST SP 811, B.8, from memory)."""
    assert number_in(parse("6.4008 m", definition("joint_length")), "ft") == pytest.approx(21.0)


def test_every_definition_and_kind_is_well_formed() -> None:
    assert len(definitions()) > 100
    assert all(d.label and d.meaning for d in definitions().values())
    assert {"joint", "footage", "hold", "strike", "note"} <= set(kinds())


@given(st.text(max_size=80))
def test_no_text_breaks_the_parser(text: str) -> None:
    for name in ("joint_length", "gauge_reading", "parts_of_line", "pipe_condition", "due"):
        try:
            value = parse(text, definition(name))
        except NotUnderstood:
            continue
        assert value.number is None or abs(value.number) <= 1e9


@pytest.mark.parametrize(
    ("typed", "text"), [("9:05", "09:05"), ("0905", "09:05"), ("23:59", "23:59")]
)
def test_a_time_of_day_is_understood(typed: str, text: str) -> None:
    assert text == parse(typed, definition("written_at")).text


@pytest.mark.parametrize(
    "typed", ["905", "24:00", "9:60", "9.05", "9", "9:05 pm", "²3:00", "-1:00"]
)
def test_what_is_no_time_of_day_is_refused(typed: str) -> None:
    with pytest.raises(NotUnderstood):
        parse(typed, definition("written_at"))


@pytest.mark.parametrize("typed", ["0.25 ft/s", "0.25 ft/sec", "0.25 fps"])
def test_a_speed_is_understood_in_the_unit_that_the_checks_tell_it_in(typed: str) -> None:
    """Hand calculation: 0.25 ft/s is 15 ft/min."""
    value = parse(typed, definition("cooling_speed"))
    assert number_in(value, "ft/min") == pytest.approx(15.0)
