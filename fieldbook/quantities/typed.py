"""Typed text to numbers: strict, so that nothing is understood that was not meant.

pint is never given what a person typed: it evaluates arithmetic, reads `1,5` as 15 and takes
`nan`. This parser knows a sign, digits with one point, one fraction, feet with inches, and the
unit spellings of units.toml. Everything else is answered with what to write instead.
"""

from __future__ import annotations

import datetime as dt
import re

from fieldbook.quantities.definition import PLAIN, Definition, units_of
from fieldbook.quantities.estimates import is_about, without_about
from fieldbook.quantities.units import show_unit
from fieldbook.record.entry import Origin, Value

_LONGEST = 60
LARGEST = 1e9  # past anything a crew measures, and what `12e9` slips would make
_NUMBER = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)"
_FRACTION = r"(?:(?P<whole>[0-9]+)[ -])?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
_PLAIN = re.compile(rf"(?P<number>{_NUMBER}) *(?P<unit>.*)", re.ASCII)
_FRACTIONAL = re.compile(rf"{_FRACTION} *(?P<unit>.*)", re.ASCII)
_FEET_INCHES = re.compile(
    rf"(?P<feet>[+-]?[0-9]+) *(?:'|ft\.?|feet|foot) *(?:(?P<inches>{_NUMBER})|{_FRACTION}) *"
    r"(?:\"|''|in\.?|inch|inches)?",
    re.ASCII | re.IGNORECASE,
)
_YES = {"y": "yes", "yes": "yes", "n": "no", "no": "no"}


class NotUnderstood(ValueError):
    """The typed text is not a value of the quantity; the message says what to write instead."""


def parse(
    text: str, quantity: Definition, *, metric: bool = False, origin: Origin = Origin.MEASURED
) -> Value:
    """What was typed, as a value of `quantity`.

    Args:
        text: As typed.
        quantity: What it is meant to be.
        metric: Whether a number without a unit is in the metric unit of the quantity.
        origin: How the figure is known.

    `~110` and `about 110` are estimates, whatever else is known of the line.

    Raises:
        NotUnderstood: The text is not such a value, or is nonsense for it.
    """
    typed = text.strip()
    if not typed:
        raise NotUnderstood("nothing is written")
    if quantity.is_words:
        return Value(text=_words(typed, quantity), origin=origin)
    if len(typed) > _LONGEST:
        raise NotUnderstood(f"longer than {_LONGEST} characters")
    if is_about(typed):
        origin = Origin.ESTIMATE
    number, unit = _number_and_unit(without_about(typed), quantity)
    if not unit and quantity.dimension not in PLAIN:
        unit = quantity.metric if metric else quantity.unit
    refuse_nonsense(number, unit, quantity)
    return Value(text=typed, number=number, unit=unit, origin=origin)


def _words(typed: str, quantity: Definition) -> str:
    if quantity.dimension == "choice":
        for choice in quantity.choices:
            if choice.lower() == typed.lower():
                return choice
        raise NotUnderstood(f"write one of: {', '.join(quantity.choices)}")
    if quantity.dimension == "yes or no":
        if typed.lower() not in _YES:
            raise NotUnderstood("write yes or no")
        return _YES[typed.lower()]
    if quantity.dimension == "date":
        return _date(typed)
    if quantity.dimension == "time of day":
        return _time_of_day(typed)
    if quantity.dimension == "file":
        return _file(typed)
    return typed


def _date(typed: str) -> str:
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", typed, re.ASCII):
        raise NotUnderstood("write the date as year-month-day, such as 2026-05-14")
    try:
        return dt.date.fromisoformat(typed).isoformat()
    except ValueError as error:
        raise NotUnderstood("there is no such day") from error


def _time_of_day(typed: str) -> str:
    match = re.fullmatch(r"([0-9]{1,2}):([0-9]{2})|([0-9]{2})([0-9]{2})", typed, re.ASCII)
    if match is None:
        raise NotUnderstood("write the time as 9:05 or 0905, of 24 hours")
    hour, minute = (int(part) for part in match.groups() if part is not None)
    if hour > 23 or minute > 59:
        raise NotUnderstood("there is no such time: 00:00 to 23:59")
    return f"{hour:02}:{minute:02}"


def _file(typed: str) -> str:
    """The hash that names a file in the job's folder: nothing else may ever name one there."""
    if not re.fullmatch(r"[0-9a-f]{64}", typed, re.ASCII):
        raise NotUnderstood("a file is named by its SHA-256: attach it, nobody types one")
    return typed


def _number_and_unit(typed: str, quantity: Definition) -> tuple[float, str]:
    if "," in typed and typed[:1] in "0123456789.+-,":
        raise NotUnderstood("a comma can mean two things: write 1500, or 1.5")
    if quantity.dimension == "length" and (match := _FEET_INCHES.fullmatch(typed)):
        return _feet(match), "ft"
    if match := _FRACTIONAL.fullmatch(typed):
        if int(match["bottom"]) == 0:
            raise NotUnderstood("a fraction cannot have zero below the line")
        return _fraction(match), _unit(match["unit"], quantity)
    if match := _PLAIN.fullmatch(typed):
        return float(match["number"]), _unit(match["unit"], quantity)
    raise NotUnderstood(f"not a number: write {_example(quantity)}")


def _feet(match: re.Match[str]) -> float:
    feet = float(match["feet"])
    if match["inches"] is None and int(match["bottom"]) == 0:
        raise NotUnderstood("a fraction cannot have zero below the line")
    inches = float(match["inches"]) if match["inches"] is not None else _fraction(match)
    if not 0.0 <= inches < 12.0:
        raise NotUnderstood("inches after feet run from 0 to less than 12")
    return feet + inches / 12.0 if not match["feet"].startswith("-") else feet - inches / 12.0


def _fraction(match: re.Match[str]) -> float:
    return float(match["whole"] or 0) + int(match["top"]) / int(match["bottom"])


def _unit(spelt: str, quantity: Definition) -> str:
    spelt = spelt.strip()
    if not spelt or spelt == quantity.counted_in:
        return ""
    units = units_of(quantity.dimension)
    for unit, also in units.items():
        if spelt == unit or spelt in also:
            return unit
    for unit, also in units.items():
        if spelt.lower() == unit.lower() or spelt.lower() in also:
            return unit
    known = ", ".join(also[0] if "*" in unit else unit for unit, also in units.items())
    known = known or quantity.counted_in
    shown = spelt[:12]
    raise NotUnderstood(
        f"unknown unit '{shown}': use {known}" if known else f"no unit goes here: '{shown}'"
    )


def refuse_nonsense(number: float, unit: str, quantity: Definition) -> None:
    """Refuse a number that cannot be a value of `quantity` whatever the circumstances.

    Raises:
        NotUnderstood: Not finite, absurdly large, a broken count, or less than the least.
    """
    if not abs(number) <= LARGEST:  # false for NaN too
        raise NotUnderstood("far larger than anything on a well")
    if quantity.dimension == "count" and number != int(number):
        raise NotUnderstood("a count is a whole number")
    least = quantity.at_least
    # A least value other than zero belongs to a plain number, so no unit needs converting.
    if least is not None and number < (least if unit == quantity.unit else min(least, 0.0)):
        raise NotUnderstood("cannot be negative" if least == 0 else f"must be {least:g} or more")
    if quantity.above is not None and number <= quantity.above:
        raise NotUnderstood(f"must be more than {quantity.above:g}")
    if quantity.at_most is not None and number > quantity.at_most:
        raise NotUnderstood(f"must be {quantity.at_most:g} or less")


def _example(quantity: Definition) -> str:
    if quantity.dimension == "length":
        return "it like 20.98 ft, 21' 3\" or 6.4 m"
    # No figure is shown that a tired hand might copy for its own.
    return f"digits, with a unit such as {show_unit(quantity.unit)}" if quantity.unit else "digits"


def plain_value(
    text: str, number: float | None = None, unit: str = "", origin: Origin = Origin.STATED
) -> Value:
    """A value that the book itself writes, such as the name of a step."""
    return Value(text=text, number=number, unit=unit, origin=origin)
